import { tooClose } from '../../network/beside.ts'
import { touchedOn } from '../../network/touched.ts'
import type { Plan } from '../plan.ts'
import { clearanceMm } from './crossings-of-plan.ts'
import type { LaidTrack } from './laid-track.ts'
import { placedObstacles, roomOfPlan } from './room-of-plan.ts'
import { standingOfPlan } from './standing-of-plan.ts'

/** What cars of a plan touch beside them. */
export interface BesideOfPlan {
  readonly obstacles: ReturnType<typeof touchedOn>
  readonly tracks: ReturnType<typeof tooClose>
}

const NOTHING: BesideOfPlan = { obstacles: { touched: [], complete: true }, tracks: { found: [], complete: true } }

/** The rules and the remedies ask for the same. */
const KNOWN = new WeakMap<readonly LaidTrack[], BesideOfPlan>()

/** Which obstacles cars touch, and where they touch each other as they pass; nothing without cars. */
export function besideOfPlan(drawn: readonly LaidTrack[], plan: Plan): BesideOfPlan {
  if (plan.cars.length === 0) return NOTHING
  const known = KNOWN.get(drawn)
  if (known) return known
  const { lines, railAt } = roomOfPlan(drawn, plan)
  const fouled = standingOfPlan(drawn, plan)?.room.fouling.fouled ?? []
  const found = {
    obstacles: touchedOn(lines, placedObstacles(plan), railAt),
    tracks: tooClose(lines, { fouled, railAt, overMm: clearanceMm(plan) }),
  }
  KNOWN.set(drawn, found)
  return found
}
