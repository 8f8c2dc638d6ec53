import type { Bender } from '../bending/forming/types.ts'
import { inPlaces, type Money, placesOf } from '../measure/money.ts'
import { completePlan } from '../plan/completing/plan.ts'
import type { Assumption } from '../plan/fields/complete.ts'
import type { PlanInput, WholePlan } from '../plan/rows/plan.ts'
import { type SpecialTrack, specialTrackOf } from '../track/turnout/special-track.ts'
import { benderOf } from './bender.ts'
import { type Fleet, fleetOf } from './fleet.ts'
import { metalOf, type PlanMetal, type PlanSection, sectionOf } from './rail.ts'
import { placedTracks } from './track/placed-tracks.ts'

/** A completed plan, with the places of its tracks and the properties of its rail and its bender. */
export interface Plan extends Omit<WholePlan, 'bender'> {
  readonly section: PlanSection
  readonly metal: PlanMetal
  readonly bender: Bender
  readonly special: SpecialTrack
  readonly fleet: Fleet
}

/** @param input a plan without faults (see reading.ts) */
export function preparePlan(input: PlanInput): { plan: Plan; assumptions: Assumption[] } {
  const { plan, assumptions } = completePlan(input)
  const { rail, bender, supplies, tracks } = plan
  const special = specialTrackOf(plan.turnoutTypes, plan.gauge)
  return {
    plan: {
      ...plan,
      tracks: placedTracks(tracks, special),
      special,
      fleet: fleetOf(plan),
      section: sectionOf(rail.section),
      metal: metalOf(rail),
      bender: benderOf(bender),
      supplies: pricedIn(placesOf(supplies.currency), { ...supplies, joiners: singly(supplies.joiners) }),
    },
    assumptions,
  }
}

/**
 * The prices that decide on the cut plan and on what ready-made pieces are used, with the places of the currency: as whole
 * numbers of its smallest unit.
 */
function pricedIn(places: number, supplies: WholePlan['supplies']): WholePlan['supplies'] {
  const priced = (price: Money | null) => price && inPlaces(price, places)
  return {
    ...supplies,
    sticks: supplies.sticks.map((stick) => ({ ...stick, price: priced(stick.price) })),
    panels: supplies.panels.map((panel) => ({ ...panel, price: priced(panel.price) })),
    joiners: { ...supplies.joiners, pricePerPack: priced(supplies.joiners.pricePerPack) },
  }
}

/** Joiners are needed and counted one by one, also where a pack holds pairs of them. */
function singly(joiners: WholePlan['supplies']['joiners']): WholePlan['supplies']['joiners'] {
  return { ...joiners, packSize: joiners.packSize * joiners.pieces, pieces: 1 }
}
