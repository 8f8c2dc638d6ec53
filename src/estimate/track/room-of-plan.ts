import { type Network, networkOf } from '../../network/network.ts'
import { type SweptLine, sweptLines } from '../../network/swept-lines.ts'
import type { PlacedObstacle } from '../../network/touched.ts'
import type { Obstacle } from '../../plan/rows/obstacles.ts'
import { elevationOn } from '../../track/grade.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from './laid-track.ts'

/** The lines of a plan with the room that its cars take along them. */
export interface RoomOfPlan {
  readonly network: Network
  readonly lines: readonly SweptLine[]
  /** Height of the rails. */
  railAt(track: number, atMm: number): number
}

/** The rules, the answer and the drawing ask for the same. */
const KNOWN = new WeakMap<readonly LaidTrack[], RoomOfPlan>()

export function roomOfPlan(drawn: readonly LaidTrack[], { fleet, standards }: Plan): RoomOfPlan {
  const known = KNOWN.get(drawn)
  if (known) return known
  const network = networkOf(drawn, standards)
  const railAt = (track: number, atMm: number) => elevationOn(drawn[track]!.profile, atMm)
  const room = { network, lines: sweptLines(network, fleet.cars), railAt }
  KNOWN.set(drawn, room)
  return room
}

/** What the cars must not touch; where the plan has an outline, whatever is beyond it too. */
export function placedObstacles({ obstacles, outline }: Pick<Plan, 'obstacles' | 'outline'>): PlacedObstacle[] {
  const corners = outline.map(({ x, y }) => ({ xMm: x, yMm: y }))
  const beyond = { name: 'what lies outside', topMm: null, outline: { corners, isOutside: true } }
  return [...standing(obstacles), ...(corners.length > 0 ? [beyond] : [])]
}

function standing(obstacles: readonly Obstacle[]): PlacedObstacle[] {
  return obstacles.map(({ name, circle, polygon, height }) => ({
    name,
    topMm: height,
    outline: circle
      ? { centre: { xMm: circle.x, yMm: circle.y }, radiusMm: circle.radius }
      : { corners: polygon.map(({ x, y }) => ({ xMm: x, yMm: y })) },
  }))
}
