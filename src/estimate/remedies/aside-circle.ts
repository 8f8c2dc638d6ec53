import type { Patch } from '../../fitting/json-patch.ts'
import { radiusLike, radiusOfSize } from '../../fitting/patches.ts'
import { lengthLike } from '../../measure/as-written.ts'
import type { Aside } from './aside.ts'
import { type Line, sentElements } from './line.ts'
import { movedStart } from './moved-start.ts'

/** Radii that differ by no more are one. */
const SAME_MM = 1e-6

/**
 * Another radius for a track that is one circle, or a part of one, about the same centre: its start moves out with it.
 *
 * R′ = R − s·b, and the start moves by s(R − R′) to its left; s = 1 where the circle turns to the left, b how far the track is to move
 * to its left. Range: tracks of arcs alone of one radius and turn, placed by their own start and held nowhere else.
 * Checked in tests/estimate/aside-remedies.test.ts.
 */
export function otherCircle({ track, byMm }: Aside, line: Line): Patch[] {
  const { placed, heldAt, closed, joinsExisting, start } = line.tracks[track]!
  const curvature = placed[0]!.startCurvature
  const isCircle = placed.every(
    ({ kind, startCurvature }) => kind === 'arc' && Math.abs(1 / startCurvature - 1 / curvature) < SAME_MM,
  )
  if (!isCircle || (heldAt && !closed) || joinsExisting.start || joinsExisting.end) return []
  const side = Math.sign(curvature)
  const radiusMm = Math.abs(1 / curvature)
  const wantedMm = radiusMm - side * byMm
  if (wantedMm < (line.plan.standards.minimumRadius ?? 0)) return []
  const sent = sentElements(line, track)
  const sizes = sent.map((element) => radiusLike(element, wantedMm, 1, wantedMm > radiusMm ? 'up' : 'down'))
  const [newMm, ...others] = sizes.map((size, index) => radiusOfSize(sent[index]!, size))
  if (newMm === undefined || others.some((other) => Math.abs(other - newMm) > SAME_MM)) return []
  const leftMm = side * (radiusMm - newMm)
  const moved = movedStart(line, track, {
    xMm: -leftMm * Math.sin(start.headingRad),
    yMm: leftMm * Math.cos(start.headingRad),
  })
  if (!moved) return []
  const at = `/tracks/${track}/elements`
  const steps = sent.flatMap(({ angle, length }, index): Patch => {
    const { field, value } = sizes[index]!
    const size: Patch[number] = { op: 'replace', path: `${at}/${index}/${field}`, value }
    if (angle !== undefined) return [size]
    const grown = lengthLike(length, (placed[index]!.lengthMm * newMm) / radiusMm, 3)
    return [size, { op: 'replace', path: `${at}/${index}/length`, value: grown }]
  })
  return [[...steps, ...moved]]
}
