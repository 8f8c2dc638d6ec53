import type { BendingOfPlan } from '../../bending/bends.ts'
import { bentStretches } from '../../laying/bend-marks.ts'
import type { Run } from '../../laying/cutting/problem.ts'
import { RunTrim } from '../../laying/cutting/trim.ts'
import { sum } from '../../measure/sum.ts'
import type { RailStretch } from '../../track/turnout/rails.ts'
import type { Plan } from '../plan.ts'
import { formingOf } from '../track/bends-of-built.ts'
import { type BuiltRail, builtRails } from '../track/built-rails.ts'
import type { LaidTrack } from '../track/laid-track.ts'

/** The turnouts of a plan that are built by hand, as rails to cut and bend. */
export interface BuiltTurnouts {
  readonly rails: readonly BuiltRail[]
  /** For the cut plan, one for each of the rails. */
  readonly runs: readonly Run[]
  /** Between their rails, if none of these is divided. */
  readonly joiners: number
}

export const NOTHING_BUILT: BuiltTurnouts = { rails: [], runs: [], joiners: 0 }

export function builtTurnouts(laid: readonly LaidTrack[], plan: Plan, bending: BendingOfPlan): BuiltTurnouts {
  const rails = builtRails(laid, plan)
  if (rails.length === 0) return NOTHING_BUILT
  const isBent = (stretch: RailStretch) => formingOf(stretch, bending).method !== 'spring-in'
  const runs = rails.map((rail) => runOfBuilt(rail, plan, isBent))
  return { rails, runs, joiners: rails.filter(isJoinedAhead).length }
}

/**
 * Whether another rail of the turnout begins where a rail ends: at the heel of the switch, and where the wing rail begins
 * at the toe of the frog. Each such place takes a joiner: common practice, no source.
 */
function isJoinedAhead({ rail: { parts } }: BuiltRail): boolean {
  return parts.at(-1) === 'switch-rail' || parts.at(-1) === 'closure-rail'
}

/**
 * Joiners within the turnouts of a track.
 *
 * @param pieces how many pieces each rail is made of
 */
export function joinersInBuilt({ rails }: BuiltTurnouts, track: number, pieces: readonly number[]): number {
  return sum(rails.map((rail, index) => (rail.track === track ? pieces[index]! - 1 + Number(isJoinedAhead(rail)) : 0)))
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
