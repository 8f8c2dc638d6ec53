import { type Crossings, crossingsOf } from '../../network/crossings.ts'
import { type OverCrossing, overCrossings } from '../../network/over-crossings.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from './laid-track.ts'
import { roomOfPlan } from './room-of-plan.ts'

interface CrossingsOfPlan extends Crossings {
  /** One track over another, with the bridge there. */
  readonly bridges: readonly OverCrossing[]
}

/** The rules and the answer ask for the same. */
const KNOWN = new WeakMap<readonly LaidTrack[], CrossingsOfPlan>()

/** Where tracks that are not lifted cross. */
export function crossingsOfPlan(drawn: readonly LaidTrack[], plan: Plan): CrossingsOfPlan {
  const known = KNOWN.get(drawn)
  if (known) return known
  const crossings = crossingsOf(
    drawn.map((track) => ({
      ...track,
      gaugeMm: plan.gauge,
      placed: track.state === 'lifted' ? [] : track.placed,
    })),
  )
  const bridges =
    crossings.over.length === 0
      ? []
      : overCrossings(
          crossings.over,
          roomOfPlan(drawn, plan).lines,
          drawn.map(({ profile }) => profile),
          bridgeMm(plan),
        )
  const found = { ...crossings, bridges }
  KNOWN.set(drawn, found)
  return found
}

/** Own choices, no source. */
const USUAL_DECK_MM = 60
const OVER_HIGHEST_CAR_MM = 20
const USUAL_CLEARANCE_MM = 250

/** From the rail top on a bridge to its underside. */
export function bridgeMm(plan: Plan): number {
  return plan.section.heightMm + deckMm(plan)
}

export function deckMm({ standards }: Plan): number {
  return standards.deckThickness ?? USUAL_DECK_MM
}

/** What must be free over the rails under a bridge. */
export function clearanceMm({ standards, cars }: Plan): number {
  if (standards.clearance !== null) return standards.clearance
  const heights = cars.flatMap(({ height }) => height ?? [])
  return heights.length === 0 ? USUAL_CLEARANCE_MM : Math.max(...heights) + OVER_HIGHEST_CAR_MM
}
