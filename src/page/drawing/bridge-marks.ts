import type { Estimate } from '../../estimate/answer.ts'
import { poseOn } from '../../track/place.ts'
import type { PlacedElement, Pose } from '../../track/types.ts'
import { type Html, html } from '../html.ts'
import type { BridgeToDraw, PlanToDraw, TrackToDraw } from './drawn-plan.ts'
import type { Sheet } from './sheet.ts'
import { pathThrough, px } from './view.ts'

const PIECES = 12
/** A parapet turns outwards at its ends by so much. */
const WING = 7

/** Where each bridge carries its track. */
export function bridgesToDraw(tracks: readonly TrackToDraw[], { overCrossings = [] }: Estimate): BridgeToDraw[] {
  return overCrossings.flatMap(({ over, abutmentFromMm, abutmentToMm }): BridgeToDraw[] => {
    const upper = tracks.find(({ name }) => name === over)
    if (!upper || abutmentFromMm === null || abutmentToMm === null) return []
    const stations = Array.from(
      { length: PIECES + 1 },
      (_, piece) => abutmentFromMm + ((abutmentToMm - abutmentFromMm) * piece) / PIECES,
    )
    return [{ poses: stations.map((mm) => poseAt(upper, mm)) }]
  })
}

/** A bridge of a closed track may lie over its start. */
function poseAt({ placed, closed }: TrackToDraw, mm: number): Pose {
  const lengthMm = placed.at(-1)!.toMm
  const atMm = closed ? mm - lengthMm * Math.floor(mm / lengthMm) : mm
  const element = placed.find(({ toMm }) => toMm >= atMm) ?? (placed.at(-1) as PlacedElement)
  return poseOn(element, atMm)
}

/** Over the tracks: the bed of the upper one with its rails, and a parapet on either side with its ends turned out. */
export function bridgeMarks({ view, bandWidth }: Sheet, plan: PlanToDraw): Html[] {
  const apart = (plan.gaugeMm + plan.headWidthMm) * view.scale
  return (plan.bridges ?? []).map(({ poses }) => {
    const beside = (aside: number, ahead = 0) =>
      poses.map((pose, index) => {
        const { x, y } = view.spotOf(pose)
        const [cos, sin] = [Math.cos(pose.headingRad), Math.sin(pose.headingRad)]
        const wing = index === 0 ? -ahead : index === PIECES ? ahead : 0
        return { x: x + cos * wing - sin * aside, y: y - sin * wing - cos * aside }
      })
    const parapet = (side: 1 | -1) => {
      const line = beside((side * (bandWidth + 3)) / 2)
      const ends = beside(side * ((bandWidth + 3) / 2 + WING), WING)
      return pathThrough([ends[0]!, ...line, ends.at(-1)!])
    }
    return html`<g class="bridge"><path class="bed" d="${pathThrough(beside(0))}" stroke-width="${px(bandWidth)}"/><path class="rail" d="${pathThrough(beside(apart / 2))}"/><path class="rail" d="${pathThrough(beside(-apart / 2))}"/><path class="parapet" d="${parapet(1)}${parapet(-1)}"/></g>`
  })
}
