import type { BendingOfPlan } from '../../bending/bends.ts'
import { sum } from '../../measure/sum.ts'
import type { RailSummary } from '../answer.ts'
import { railSummary } from '../bill/rail-summary.ts'
import { builtTurnouts } from '../cutting/built-turnouts.ts'
import { type Site, siteOf } from '../cutting/site.ts'
import { sprungInBy } from '../cutting/sprung-in.ts'
import type { Plan } from '../plan.ts'
import { moreRailMm } from '../track/built-rails.ts'
import { joinsOf } from '../track/joins.ts'
import { type LaidTrack, layTrack } from '../track/laid-track.ts'
import { salvageOf, together, withSalvage } from '../track/lifted.ts'

/** A plan whose tracks lie in their place: what is there already, what is lifted and what is new. */
export interface Laid {
  /** The plan, with what is lifted counted among what is on hand. */
  readonly plan: Plan
  /** Every track, in the plan's order. */
  readonly drawn: readonly LaidTrack[]
  /** The rail of new track. */
  readonly rail: RailSummary
  /** New track. */
  readonly site: Site
}

export function layTracks(completed: Plan, bending: BendingOfPlan): Laid {
  const drawn = completed.tracks.map((track) => layTrack(track, completed))
  const salvage = together(drawn.map((track) => salvageOf(track, completed)))
  const plan: Plan = { ...completed, supplies: withSalvage(completed.supplies, salvage) }
  const joins = joinsOf(drawn, plan)
  const laid = joins.map(({ track }) => track)
  const built = builtTurnouts(laid, plan, bending)
  const alongTracksMm = sum(laid.map(({ rails }) => rails.left.lengthMm + rails.right.lengthMm))
  const rail = railSummary(plan, alongTracksMm + moreRailMm(built.rails, laid))
  const railName = `${plan.section.name.toLowerCase()} ${plan.metal.name.toLowerCase()}`
  const ofBill = { name: railName, massPerMetreKg: rail.massPerMetreKg }
  const site = siteOf(plan, joins, ofBill, sprungInBy(bending), built)
  return { plan, drawn, rail, site }
}
