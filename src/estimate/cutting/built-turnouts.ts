import type { BendingOfPlan } from '../../bending/bends.ts'
import { bentStretches } from '../../laying/bend-marks.ts'
import type { Run } from '../../laying/cutting/problem.ts'
import { RunTrim } from '../../laying/cutting/trim.ts'
import type { OpenJoint } from '../../laying/shortened-pieces.ts'
import { sum } from '../../measure/sum.ts'
import type { RailStretch } from '../../track/turnout/rails.ts'
import type { Plan } from '../plan.ts'
import { formingOf } from '../track/bends-of-built.ts'
import { type BuiltRail, builtRails } from '../track/built-rails.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import { gapsInBuilt, isJoinedAhead, openJointsOf } from './gaps-in-built.ts'

/** The turnouts of a plan that are built by hand, as rails to cut and bend. */
export interface BuiltTurnouts {
  readonly rails: readonly BuiltRail[]
  /** For the cut plan, one for each of the rails. */
  readonly runs: readonly Run[]
  /** Between their rails, if none of these is divided. */
  readonly joiners: number
  /** The gaps within them, by the numbers of their rails in the cut plan. */
  readonly open: readonly OpenJoint[]
}

export const NOTHING_BUILT: BuiltTurnouts = { rails: [], runs: [], joiners: 0, open: [] }

export function builtTurnouts(laid: readonly LaidTrack[], plan: Plan, bending: BendingOfPlan): BuiltTurnouts {
  const rails = builtRails(laid, plan)
  if (rails.length === 0) return NOTHING_BUILT
  const isBent = (stretch: RailStretch) => formingOf(stretch, bending).method !== 'spring-in'
  const runs = rails.map((rail) => runOfBuilt(rail, plan, isBent))
  const joiners = rails.filter(({ rail }) => isJoinedAhead(rail)).length
  return { rails, runs, joiners, open: openIn(rails, laid.length, plan) }
}

function openIn(rails: readonly BuiltRail[], tracks: number, plan: Plan): OpenJoint[] {
  const turnouts = [...new Set(rails.map(({ turnout }) => turnout))]
  const gaps = turnouts.flatMap((turnout) => {
    const own = rails.filter((each) => each.turnout === turnout).map(({ rail }) => rail)
    return gapsInBuilt(own, plan.turnoutTypes.find(({ id }) => id === turnout.type)!, plan)
  })
  return rails.flatMap(({ line }, index) => openJointsOf(gaps[index]!, 2 * tracks + index, line.lengthMm))
}

/**
 * Joiners within the turnouts of a track.
 *
 * @param pieces how many pieces each rail is made of
 */
export function joinersInBuilt({ rails }: BuiltTurnouts, track: number, pieces: readonly number[]): number {
  return sum(
    rails.map((rail, index) => (rail.track === track ? pieces[index]! - 1 + Number(isJoinedAhead(rail.rail)) : 0)),
  )
}

/** For the cut plan, with the trim of its bends. */
function runOfBuilt(
  { placed, line, rail }: BuiltRail,
  { bender: { roller, ends, fixedEnd } }: Pick<Plan, 'bender'>,
  isBent: (stretch: RailStretch) => boolean,
): Run {
  const { lengthMm } = line
  if (!roller || ends !== 'trim') return { lengthMm }
  const bends = bentStretches(placed, line).filter(({ element }) => isBent(rail.stretches[element.index]!))
  if (bends.length === 0) return { lengthMm }
  const creepAt = fixedEnd === 'start' ? 'end' : 'start'
  return { lengthMm, trim: new RunTrim({ bends, eachMm: roller.spanMm / 2, creepAt }) }
}
