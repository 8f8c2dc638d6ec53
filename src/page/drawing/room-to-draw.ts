import type { EnvelopeAnswer } from '../../network/envelope-answer.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import { poseOn } from '../../track/place.ts'
import type { Point } from '../../track/sample.ts'
import type { PlacedElement } from '../../track/types.ts'
import type { ObstacleToDraw } from './drawn-plan.ts'

/** No chord of the outline is longer, so that it follows curves along which the reach stays the same. */
const MOST_CHORD_MM = 100
const CORNERS_OF_CIRCLE = 32

/** The room of the cars along a track, down its left side and back along its right. */
export function sweptOutline(placed: readonly PlacedElement[], rows: readonly EnvelopeAnswer[]): Point[] {
  const stations = rows.flatMap((row, index) => {
    const next = rows[index + 1]
    if (!next) return [row]
    const chords = Math.max(1, Math.ceil((next.atMm - row.atMm) / MOST_CHORD_MM))
    return Array.from({ length: chords }, (_, chord) => {
      const part = chord / chords
      const between = (a: number, b: number) => a + (b - a) * part
      return {
        atMm: between(row.atMm, next.atMm),
        leftMm: between(row.leftMm, next.leftMm),
        rightMm: between(row.rightMm, next.rightMm),
      }
    })
  })
  const sides = stations.map(({ atMm, leftMm, rightMm }) => {
    const element = placed.find(({ toMm }) => atMm <= toMm) ?? placed.at(-1)!
    const { xMm, yMm, headingRad } = poseOn(element, atMm)
    const beside = (mm: number) => ({ xMm: xMm - mm * Math.sin(headingRad), yMm: yMm + mm * Math.cos(headingRad) })
    return [beside(leftMm), beside(-rightMm)] as const
  })
  return [...sides.map(([left]) => left), ...sides.map(([, right]) => right).reverse()]
}

export function obstaclesToDraw({ obstacles = [] }: Pick<PlanInput, 'obstacles'>): ObstacleToDraw[] {
  return obstacles.map(({ name, circle, polygon = [] }) => ({
    name,
    outline: circle
      ? Array.from({ length: CORNERS_OF_CIRCLE }, (_, corner) => {
          const turn = (2 * Math.PI * corner) / CORNERS_OF_CIRCLE
          return { xMm: circle.x + circle.radius * Math.cos(turn), yMm: circle.y + circle.radius * Math.sin(turn) }
        })
      : polygon.map(({ x, y }) => ({ xMm: x, yMm: y })),
  }))
}
