import {
  type Answer,
  component,
  flag,
  length,
  list,
  nullable,
  optional,
  part,
  text,
  word,
} from '../plan/fields/answer.ts'
import { TURNS, type Turn } from '../plan/rows/track.ts'
import { RAIL_OF_TURNOUT } from '../track/turnout/rail-of-turnout.ts'
import { ELEMENT_NUMBER, type PlacedElement } from '../track/types.ts'
import type { BendFormer } from './forming/form-bend.ts'
import { BEND_FORMING, ORDINATES, type SheetOrdinates } from './forming/types.ts'
import { measuringSheet } from './setting-out/chord-choice.ts'

export type { SheetOrdinates as Ordinates } from './forming/types.ts'

/** A rail of a curve, and the chords to measure it with. */
export const BENT_RAIL_FIELDS = {
  rail: word(['outer', 'inner'], { title: 'Rail' }),
  radiusMm: length({ says: 'Radius of the middle line of the rail head, mm.', title: 'Radius of the rail' }),
  measuredRadiusMm: length({
    says: 'Radius of the concave side of the head, against which the chord is held, mm; ordinates refer to it.',
    title: 'Radius of the measured face',
  }),
  ordinates: list(ORDINATES),
  recommendedChordMm: nullable(
    length({
      says: 'The shortest of the given chords that fits and measures the radius well enough, mm; if none does, smallestChordMm rounded up to whole centimetres; null if that does not fit either.',
      title: 'Chord to use',
    }),
  ),
  smallestChordMm: nullable(
    length('The shortest chord that would measure the radius well enough, mm, whether it fits or not.'),
  ),
}

export const BEND = component('Bend', 'One rail of one arc, to bend and measure.', {
  track: text({ title: 'Track' }),
  element: ELEMENT_NUMBER,
  turnout: optional(
    part(
      RAIL_OF_TURNOUT,
      'Only of a rail of a turnout that is built by hand: then side is that of its leg, seen from the points.',
    ),
  ),
  ...BENT_RAIL_FIELDS,
  side: word(TURNS, { title: 'Side' }),
  turn: word(TURNS, { title: 'Turn' }),
  lengthMm: length({ title: 'Length' }),
  forming: BEND_FORMING,
  readyMade: flag({
    says: 'True if ready-made pieces cover it: it comes bent, and the ordinates are for checking.',
    title: 'Already bent',
  }),
})

export type Bend = Answer<typeof BEND>

/** A chord that does not fit a bend: the arc over it is longer than the bend, or it is longer than the diameter. */
export interface ChordLeftOut {
  readonly element: number
  readonly rail: 'outer' | 'inner'
  readonly chordMm: number
  readonly bendLengthMm: number
}

/**
 * Radii of the two rails of a curve, mm.
 *
 * outer R + (gauge + headWidth)/2, inner R − (gauge + headWidth)/2; a chord is held against the concave side of the
 * head, headWidth/2 nearer to the centre.
 *
 * @param trackRadiusMm R of the centre line, > (gauge + 2·headWidth)/2
 */
export function railRadii(
  trackRadiusMm: number,
  rail: 'outer' | 'inner',
  gaugeMm: number,
  headWidthMm: number,
): { radiusMm: number; measuredRadiusMm: number } {
  const radiusMm = trackRadiusMm + ((rail === 'outer' ? 1 : -1) * (gaugeMm + headWidthMm)) / 2
  return { radiusMm, measuredRadiusMm: radiusMm - headWidthMm / 2 }
}

/** How accurately a reading has to give the radius, percent; the same as for a bend check. */
const RADIUS_TOLERANCE_PCT = 5

/** What the bends of one plan have in common. */
export interface BendingOfPlan {
  readonly former: BendFormer
  readonly gaugeMm: number
  readonly headWidthMm: number
  readonly chordsMm: readonly number[]
  readonly resolutionMm: number
}

/** One rail of an arc as laid: its length and the joints of its pieces within the arc. */
export interface RailOfArc {
  readonly lengthMm: number
  readonly joints: number
}

/** The ordinates of the chords that fit a bend, and which chord to measure it with. */
export function sheetOf(
  measuredRadiusMm: number,
  lengthMm: number | null,
  { chordsMm, resolutionMm }: Pick<BendingOfPlan, 'chordsMm' | 'resolutionMm'>,
): Pick<Bend, 'ordinates' | 'recommendedChordMm' | 'smallestChordMm'> & { readonly leftOutMm: number[] } {
  const measuring = { radiusMm: measuredRadiusMm, lengthMm, resolutionMm, tolerancePct: RADIUS_TOLERANCE_PCT }
  const { chords, recommendedChordMm, smallestChordMm } = measuringSheet(measuring, chordsMm)
  const ordinates: SheetOrdinates[] = []
  const leftOutMm: number[] = []
  for (const { chordMm, midMm, quarterMm, threeEighthsMm, eighthMm, errorPct, fits } of chords) {
    if (!fits || midMm === null || quarterMm === null || threeEighthsMm === null || eighthMm === null)
      leftOutMm.push(chordMm)
    else ordinates.push({ chordMm, midMm, quarterMm, threeEighthsMm, eighthMm, radiusErrorPct: errorPct })
  }
  return { ordinates, recommendedChordMm, smallestChordMm, leftOutMm }
}

/** The two bends of an arc, outer rail first, with the ordinates of every chord that fits and how to form them. */
export function bendsOfArc(
  track: string,
  arc: PlacedElement,
  rails: { readonly left: RailOfArc; readonly right: RailOfArc },
  plan: BendingOfPlan,
  readyMade: boolean,
): { bends: Bend[]; leftOut: ChordLeftOut[] } {
  const { gaugeMm, headWidthMm, former } = plan
  const turn: Turn = arc.startCurvature > 0 ? 'left' : 'right'
  const outerSide: Turn = turn === 'left' ? 'right' : 'left'
  const trackRadiusMm = 1 / Math.abs(arc.startCurvature)
  const turnedRad = Math.abs(arc.turnedRad)
  const leftOut: ChordLeftOut[] = []
  const bends = (['outer', 'inner'] as const).map((rail): Bend => {
    const side = rail === 'outer' ? outerSide : turn
    const { lengthMm, joints } = rails[side]
    const radii = railRadii(trackRadiusMm, rail, gaugeMm, headWidthMm)
    const { leftOutMm, ...sheet } = sheetOf(radii.measuredRadiusMm, lengthMm, plan)
    for (const chordMm of leftOutMm) leftOut.push({ element: arc.index, rail, chordMm, bendLengthMm: lengthMm })
    const { radiusMm } = radii
    const forming = former.form({ rail, radiusMm, trackRadiusMm, gaugeMm, turnedRad, jointsInBend: joints })
    return { track, element: arc.index, rail, side, turn, ...radii, lengthMm, ...sheet, forming, readyMade }
  })
  return { bends, leftOut }
}
