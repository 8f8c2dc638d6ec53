import type { Bender } from '../bending/forming/types.ts'
import { completePlan } from '../plan/completing/plan.ts'
import type { Assumption } from '../plan/fields/complete.ts'
import type { PlanInput, WholePlan } from '../plan/rows/plan.ts'
import { benderOf } from './bender.ts'
import { metalOf, type PlanMetal, type PlanSection, sectionOf } from './rail.ts'
import { placedTracks } from './track/placed-tracks.ts'

/** A completed plan, with the places of its tracks and the properties of its rail and its bender. */
export interface Plan extends Omit<WholePlan, 'bender'> {
  readonly section: PlanSection
  readonly metal: PlanMetal
  readonly bender: Bender
}

/** @param input a plan without faults (see reading.ts) */
export function preparePlan(input: PlanInput): { plan: Plan; assumptions: Assumption[] } {
  const { plan, assumptions } = completePlan(input)
  const { rail, bender, supplies, tracks } = plan
  return {
    plan: {
      ...plan,
      tracks: placedTracks(tracks),
      section: sectionOf(rail.section),
      metal: metalOf(rail),
      bender: benderOf(bender),
      supplies: { ...supplies, joiners: singly(supplies.joiners) },
    },
    assumptions,
  }
}

/** Joiners are needed and counted one by one, also where a pack holds pairs of them. */
function singly(joiners: WholePlan['supplies']['joiners']): WholePlan['supplies']['joiners'] {
  return { ...joiners, packSize: joiners.packSize * joiners.pieces, pieces: 1 }
}
