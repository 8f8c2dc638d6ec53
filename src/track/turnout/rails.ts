import { sum } from '../../measure/sum.ts'
import type { Turn } from '../../plan/rows/track.ts'
import { railOffsetMm } from '../rails.ts'
import { besideLeg } from './beside-leg.ts'
import { aheadOfFrogMm, behindFrogMm } from './guard-rails.ts'
import { poseOnLeg } from './ties.ts'
import type { Leg, TurnoutGeometry } from './types.ts'

/** What a rail of a turnout is; a piece may be several of these in one. */
export const TURNOUT_RAIL_PARTS = [
  'stock-rail',
  'switch-rail',
  'closure-rail',
  'wing-rail',
  'point-rail',
  'guard-rail',
] as const

export type TurnoutRailPart = (typeof TURNOUT_RAIL_PARTS)[number]

export const TURNOUT_LEGS = ['through', 'diverging'] as const

/** A straight or an arc of a rail, along the middle of its head. */
export interface RailStretch {
  readonly lengthMm: number
  /** Of the rail, per mm, left positive. */
  readonly curvature: number
  /** Of the centre line beside it. */
  readonly trackCurvature: number
}

/** Where a rail is bent in one place. */
export interface Kink {
  readonly atMm: number
  /** Left positive. */
  readonly turnRad: number
}

/** A rail of a turnout, level, from its end nearer the points. */
export interface TurnoutRail {
  /** In order from the points. */
  readonly parts: readonly TurnoutRailPart[]
  readonly leg: (typeof TURNOUT_LEGS)[number]
  /** Of its leg, seen from the points. */
  readonly side: Turn
  /** Where it begins, along the centre line of its leg from the points. */
  readonly fromMm: number
  readonly lengthMm: number
  readonly stretches: readonly RailStretch[]
  readonly kinks: readonly Kink[]
}

export interface TurnoutRailsOf {
  readonly gaugeMm: number
  readonly headWidthMm: number
  /** Clear between the heads of guard rail and stock rail, and of wing rail and point rail. */
  readonly flangewayMm: number
}

/**
 * The rails of a turnout as they are cut: of each leg the stock rail from end to end, and on the side of the frog the
 * switch rail to the heel, the closure rail to the toe, the wing rail, the point rail from the theoretical point of the
 * frog to the end of the leg; and the guard rail. Without a heel the switch rail is one piece with the closure rail,
 * without a toe beyond the throat the wing rail is.
 *
 * ℓ = L − o·Δθ of each straight and arc, as of all rail (`planLengthOn`), o the offset from the centre line: ±(g + w)/2 of
 * the running rails, ±(g/2 − f − w/2) of a guard rail, and of a wing rail beyond the throat, from the leg it does not
 * belong to. g gauge, w width of the head, f flangeway. A straight switch rail bends the stock rail beside it at the points.
 * Source: how turnouts are made, common practice. Checked in tests/track/turnout/rails.test.ts.
 */
export function turnoutRails(geometry: TurnoutGeometry, hand: 'left' | 'right' | 'wye', of: TurnoutRailsOf) {
  return TURNOUT_LEGS.flatMap((leg) => railsOfLeg(geometry, leg, frogSideOf(hand, leg), of))
}

/** The side of a leg on which its frog lies, seen from the points. */
export function frogSideOf(hand: 'left' | 'right' | 'wye', leg: TurnoutRail['leg']): Turn {
  const towards: Turn = hand === 'right' ? 'right' : 'left'
  return leg === 'through' ? towards : opposite(towards)
}

function railsOfLeg(
  geometry: TurnoutGeometry,
  leg: TurnoutRail['leg'],
  frogSide: Turn,
  { gaugeMm, headWidthMm, flangewayMm }: TurnoutRailsOf,
): TurnoutRail[] {
  const { frog, pointLengthMm, toeLengthMm, legs } = geometry
  const own = legs[leg]
  const other = legs[leg === 'through' ? 'diverging' : 'through']
  const runningMm = railOffsetMm(gaugeMm, headWidthMm)
  const guardMm = gaugeMm / 2 - flangewayMm - headWidthMm / 2
  const signed = (mm: number, side: Turn) => (side === 'left' ? mm : -mm)
  const along = (side: Turn, mm = runningMm) => new OffsetLine(own, signed(mm, side))

  const frogMm = besideLeg(own, frog).stationMm
  // The straight switch rail of a leg that diverges is its first piece; the other leg's is as long.
  const heelMm = pointLengthMm === 0 ? 0 : leavesBent(own) ? own.pieces[0]!.lengthMm : pointLengthMm
  const beyond = new OffsetLine(other, signed(guardMm, opposite(frogSide)))
  const throat = throatOf(own, beyond, runningMm, besideLeg(other, frog).stationMm)
  const toeMm = frogMm - toeLengthMm
  const separateWing = toeLengthMm > 0 && toeMm < throat.ownMm
  const ofLeg = { leg, side: frogSide }
  const piece = (parts: TurnoutRailPart[], fromMm: number, toMm: number): TurnoutRail =>
    railOf({ ...ofLeg, parts }, fromMm, along(frogSide).between(fromMm, toMm))
  const wing = (parts: TurnoutRailPart[], fromMm: number): TurnoutRail => {
    const ahead = along(frogSide).between(fromMm, throat.ownMm)
    const wingEndMm = Math.min(other.lengthMm, throat.frogMm + behindFrogMm(gaugeMm))
    const behind = beyond.between(throat.otherMm, wingEndMm)
    const kink = { atMm: lengthOf(ahead), turnRad: throat.turnRad }
    return railOf({ ...ofLeg, parts }, fromMm, [...ahead, ...behind], [kink])
  }
  const toThroat: TurnoutRailPart[] = heelMm > 0 ? ['closure-rail'] : ['switch-rail', 'closure-rail']
  const guardFromMm = Math.max(0, frogMm - aheadOfFrogMm(gaugeMm))
  const guardToMm = Math.min(own.lengthMm, frogMm + behindFrogMm(gaugeMm))
  const stockSide = opposite(frogSide)
  return [
    railOf(
      { leg, side: stockSide, parts: ['stock-rail'] },
      0,
      along(stockSide).between(0, own.lengthMm),
      leavesBent(own) ? [{ atMm: 0, turnRad: bendOf(own) }] : [],
    ),
    ...(heelMm > 0 ? [piece(['switch-rail'], 0, heelMm)] : []),
    ...(separateWing
      ? [piece(toThroat, heelMm, toeMm), wing(['wing-rail'], toeMm)]
      : [wing([...toThroat, 'wing-rail'], heelMm)]),
    piece(['point-rail'], frogMm, own.lengthMm),
    railOf(
      { leg, side: stockSide, parts: ['guard-rail'] },
      guardFromMm,
      along(stockSide, guardMm).between(guardFromMm, guardToMm),
    ),
  ]
}

function railOf(
  of: Pick<TurnoutRail, 'leg' | 'side' | 'parts'>,
  fromMm: number,
  stretches: readonly RailStretch[],
  kinks: readonly Kink[] = [],
): TurnoutRail {
  return { ...of, fromMm, lengthMm: lengthOf(stretches), stretches, kinks }
}

function lengthOf(stretches: readonly RailStretch[]): number {
  return sum(stretches.map(({ lengthMm }) => lengthMm))
}

export function opposite(side: Turn): Turn {
  return side === 'left' ? 'right' : 'left'
}

/** How far a leg bends at the points without a curve. */
function bendOf({ pieces }: Leg): number {
  const { turnedRad, startCurvature, lengthMm } = pieces[0]!
  return turnedRad - startCurvature * lengthMm
}

function leavesBent(leg: Leg): boolean {
  return Math.abs(bendOf(leg)) > LEAST_BEND_RAD
}

const LEAST_BEND_RAD = 1e-9

/** A line parallel to a leg, at an offset to the left. */
class OffsetLine {
  private readonly leg: Leg
  private readonly offsetMm: number

  constructor(leg: Leg, offsetMm: number) {
    this.leg = leg
    this.offsetMm = offsetMm
  }

  at(stationMm: number): { readonly xMm: number; readonly yMm: number; readonly headingRad: number } {
    const { xMm, yMm, headingRad } = poseOnLeg(this.leg, stationMm)
    return {
      xMm: xMm - this.offsetMm * Math.sin(headingRad),
      yMm: yMm + this.offsetMm * Math.cos(headingRad),
      headingRad,
    }
  }

  /** What it is made of between two stations. */
  between(fromMm: number, toMm: number): RailStretch[] {
    let startMm = 0
    return this.leg.pieces.flatMap((piece): RailStretch[] => {
      const { lengthMm, startCurvature: trackCurvature, turnedRad } = piece
      const [a, b] = [Math.max(fromMm, startMm), Math.min(toMm, startMm + lengthMm)]
      // The bend at the start of a straight switch rail counts as its turn.
      const bendRad = a > startMm ? 0 : turnedRad - trackCurvature * lengthMm
      startMm += lengthMm
      if (!(b - a > SHORTEST_MM)) return []
      const perMm = 1 - this.offsetMm * trackCurvature
      const ownMm = (b - a) * perMm - this.offsetMm * bendRad
      return [{ lengthMm: ownMm, curvature: trackCurvature / perMm, trackCurvature }]
    })
  }
}

/** A shorter stretch is the rounding of where two pieces meet. */
const SHORTEST_MM = 1e-9

/** Halvings of a turnout's length until a place is as exact as a number can say. */
const HALVINGS = 60

/**
 * The throat: where the closure rail meets the line of its wing rail, which is parallel to the other leg. Found by
 * halving, since that line is an arc or a straight; checked against f and F of a straight frog in
 * tests/track/turnout/rails.test.ts.
 */
function throatOf(own: Leg, wing: OffsetLine, runningMm: number, frogMm: number) {
  const isBeyond = (mm: number) => Math.abs(besideLeg(own, wing.at(mm)).leftMm) > runningMm
  let [low, high] = [0, frogMm]
  for (let n = 0; n < HALVINGS; n++) {
    const middle = (low + high) / 2
    if (isBeyond(middle)) high = middle
    else low = middle
  }
  const at = wing.at(high)
  const ownMm = besideLeg(own, at).stationMm
  return { otherMm: high, ownMm, frogMm, turnRad: at.headingRad - poseOnLeg(own, ownMm).headingRad }
}
