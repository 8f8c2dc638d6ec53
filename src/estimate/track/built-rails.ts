import { sum } from '../../measure/sum.ts'
import type { WholePlan } from '../../plan/rows/plan.ts'
import { layRail, type RailLine, railDistanceAt } from '../../track/rails.ts'
import { type RailStretch, type TurnoutRail, turnoutRails } from '../../track/turnout/rails.ts'
import type { PlacedElement } from '../../track/types.ts'
import type { Plan } from '../plan.ts'
import type { CoveredStretch } from '../ready-made/coverage.ts'
import { isBought, stretchUnder } from './bought-turnouts.ts'
import type { LaidTrack } from './laid-track.ts'
import type { LaidTurnout } from './turnouts-of-plan.ts'

/**
 * Clear width of flangeways, in gauges: 0.106 in on a gauge of 45 mm, the widest of NMRA S-3.2 for No. 1 gauge. A plan may
 * give its own.
 */
const FLANGEWAY_GAUGES = 0.06

export function flangewayMm({ gauge, standards }: Pick<WholePlan, 'gauge' | 'standards'>): number {
  return standards.flangeway ?? FLANGEWAY_GAUGES * gauge
}

/** A rail of a turnout that is built by hand, to be cut and bent as a rail of its own. */
export interface BuiltRail {
  /** Index of the track that its turnout lies on. */
  readonly track: number
  readonly turnout: LaidTurnout
  /** Its number among the rails of its turnout, from 0. */
  readonly index: number
  readonly rail: TurnoutRail
  readonly placed: readonly PlacedElement[]
  readonly line: RailLine
}

/** The turnouts of a track that are built by hand. */
export function builtByHand(
  { turnouts }: Pick<LaidTrack, 'turnouts'>,
  { turnoutTypes }: Pick<WholePlan, 'turnoutTypes'>,
): LaidTurnout[] {
  const byHand = new Set(turnoutTypes.filter((type) => !isBought(type)).map(({ id }) => id))
  return turnouts.filter(({ type }) => byHand.has(type))
}

/** All rails of the turnouts of new tracks that are built by hand, turnout by turnout. */
export function builtRails(laid: readonly LaidTrack[], plan: Plan): BuiltRail[] {
  return laid.flatMap((track, index) =>
    builtByHand(track, plan).flatMap((turnout) =>
      railsOf(turnout, track, plan).map((rail, number): BuiltRail => {
        const placed = endToEnd(rail.stretches)
        return { track: index, turnout, index: number, rail, placed, line: layRail(placed, [], 0) }
      }),
    ),
  )
}

/** The rails of one turnout on the grade of its track; its legs rise together. */
export function railsOf(turnout: LaidTurnout, track: Pick<LaidTrack, 'placed' | 'grades'>, plan: Plan): TurnoutRail[] {
  const type = plan.turnoutTypes.find(({ id }) => id === turnout.type)!
  const level = turnoutRails(turnout.geometry, type.hand, {
    gaugeMm: plan.gauge,
    headWidthMm: plan.section.headWidthMm,
    flangewayMm: flangewayMm(plan),
  })
  const longer = slopeOf(turnout, track)
  if (longer === 1) return level
  return level.map((rail) => ({
    ...rail,
    lengthMm: rail.lengthMm * longer,
    stretches: rail.stretches.map((each) => ({ ...each, lengthMm: each.lengthMm * longer })),
    kinks: rail.kinks.map((kink) => ({ ...kink, atMm: kink.atMm * longer })),
  }))
}

/** How much longer the centre line of a turnout is as laid than in plan: √(1 + g²) on a grade g. */
function slopeOf({ element, fromMm, toMm }: LaidTurnout, { placed, grades }: Pick<LaidTrack, 'placed' | 'grades'>) {
  if (grades.every(({ grade, endGrade = grade }) => grade === 0 && endGrade === 0)) return 1
  const centre = layRail(placed.slice(0, element + 1), grades, 0)
  return (railDistanceAt(centre, toMm) - railDistanceAt(centre, fromMm)) / (toMm - fromMm)
}

/** Its straights and arcs as elements, so that it is marked and bent as every rail; where they lie does not matter. */
function endToEnd(stretches: readonly RailStretch[]): PlacedElement[] {
  const nowhere = { xMm: 0, yMm: 0, headingRad: 0 }
  let fromMm = 0
  return stretches.map(({ lengthMm, curvature }, index): PlacedElement => {
    const stations = { fromMm, toMm: fromMm + lengthMm, lengthMm }
    fromMm += lengthMm
    return {
      index,
      kind: curvature === 0 ? 'tangent' : 'arc',
      ...stations,
      startCurvature: curvature,
      endCurvature: curvature,
      turnedRad: curvature * lengthMm,
      start: nowhere,
      end: nowhere,
    }
  })
}

/** Where they lie: their tracks are not cut there. */
export function builtStretches(laid: readonly LaidTrack[], plan: Pick<WholePlan, 'turnoutTypes'>): CoveredStretch[] {
  return laid.flatMap((track, index) => builtByHand(track, plan).map((turnout) => stretchUnder(turnout, index, false)))
}

/** How much rail they take beyond what their tracks would take there. */
export function moreRailMm(built: readonly BuiltRail[], laid: readonly LaidTrack[]): number {
  const turnouts = new Map(built.map(({ turnout, track }) => [turnout, laid[track]!] as const))
  const alongTracks = [...turnouts].map(([{ element }, { rails }]) =>
    sum([rails.left, rails.right].map(({ elements }) => elements[element]!.lengthMm)),
  )
  return sum(built.map(({ rail }) => rail.lengthMm)) - sum(alongTracks)
}
