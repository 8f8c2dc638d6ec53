import type { Patch } from '../../fitting/json-patch.ts'
import { mmOf } from '../../fitting/patches.ts'
import { lengthLike } from '../../measure/as-written.ts'
import { valueAt } from '../../plan/reading/value-at.ts'
import type { PlacedElement, Pose } from '../../track/types.ts'
import { type Line, sentElements, unitOf } from './line.ts'

/** A track that has to lie elsewhere at a station. */
export interface Aside {
  readonly track: number
  /** The stretch, and the station where it has to move furthest. */
  readonly fromMm: number
  readonly toMm: number
  readonly atMm: number
  /** Index of the element there. */
  readonly element: number
  readonly pose: Pose
  /** To the left; negative: to the right. */
  readonly byMm: number
}

/** No straight is left shorter. */
export const LEAST_STRAIGHT_MM = 10
/** A straight that moves what follows it by less than this share of what it grows by is not used for it. */
const LEAST_SHARE = 0.2
const MOST_STRAIGHTS = 2
const PARALLEL_RAD = 1e-4

/** The whole track, where nothing but its own coordinates says where it is. */
export function movedAsWhole({ track, pose, byMm }: Aside, line: Line): Patch[] {
  const { closed, heldAt, joinsExisting } = line.tracks[track]!
  const start = valueAt(line.sent, ['tracks', track, 'start'])
  const isBound = ['after', 'from'].some((key) => start !== undefined && valueAt(start, [key]) !== undefined)
  if (isBound || (heldAt && !closed) || joinsExisting.start || joinsExisting.end) return []
  const { x, y } = line.plan.tracks[track]!.start
  const moved = { x: x - byMm * Math.sin(pose.headingRad), y: y + byMm * Math.cos(pose.headingRad) }
  const path = `/tracks/${track}/start`
  const unit = unitOf(sentElements(line, track))
  const steps = (['x', 'y'] as const).flatMap((axis): Patch => {
    const given = start === undefined ? undefined : valueAt(start, [axis])
    const before = axis === 'x' ? x : y
    if (Math.abs(moved[axis] - before) < 0.01) return []
    const value = lengthLike(given ?? unit, moved[axis], 1, moved[axis] < before ? 'down' : 'up')
    return [{ op: given === undefined ? 'add' : 'replace', path: `${path}/${axis}`, value }]
  })
  return [start === undefined ? [{ op: 'add', path, value: {} }, ...steps] : steps]
}

/** A straight before it made longer or shorter, where the end of the track may move as well. */
export function byOneStraight({ track, element, pose, byMm }: Aside, line: Line): Patch[] {
  const { closed, heldAt, placed } = line.tracks[track]!
  if (closed || heldAt) return []
  return placed
    .slice(0, element)
    .filter((each) => each.kind === 'tangent')
    .flatMap((straight) => {
      const share = Math.sin(straight.start.headingRad - pose.headingRad)
      return Math.abs(share) < LEAST_SHARE ? [] : lengthened([[straight, byMm / share]], line, track)
    })
    .slice(-MOST_STRAIGHTS)
    .reverse()
}

/**
 * A straight before it and one behind it made longer together, or the one longer and the other shorter, so that whatever
 * lies between them moves and the rest stays.
 */
export function byTwoStraights({ track, element, pose, byMm }: Aside, line: Line): Patch[] {
  const { placed } = line.tracks[track]!
  const straights = placed.filter(({ kind }) => kind === 'tangent')
  const before = straights.filter(({ index }) => index < element).reverse()
  const behind = straights.filter(({ index }) => index > element)
  return before
    .flatMap((one) =>
      behind
        .filter((other) => Math.abs(Math.sin(one.start.headingRad - other.start.headingRad)) < PARALLEL_RAD)
        .flatMap((other) => {
          const share = Math.sin(one.start.headingRad - pose.headingRad)
          const along = Math.cos(one.start.headingRad - other.start.headingRad)
          if (Math.abs(share) < LEAST_SHARE) return []
          const growMm = byMm / share
          return lengthened(
            [
              [one, growMm],
              [other, -Math.sign(along) * growMm],
            ],
            line,
            track,
          )
        }),
    )
    .slice(0, MOST_STRAIGHTS)
}

/** Straights that get longer by so much; a number grows by exactly that, and all of them in the same steps. */
function lengthened(changes: readonly (readonly [PlacedElement, number])[], line: Line, track: number): Patch[] {
  const sent = sentElements(line, track)
  const steps = changes.map(([{ index, lengthMm }, growMm]): Patch[number] | null => {
    if (lengthMm + growMm < LEAST_STRAIGHT_MM) return null
    const given = sent[index]!.length
    const outwards = growMm < 0 ? 'down' : 'up'
    const grown = mmOf(lengthLike(given, Math.abs(growMm), 2, 'up')) * Math.sign(growMm)
    const value =
      typeof given === 'number'
        ? Number((given + grown).toFixed(6))
        : lengthLike(given, lengthMm + grown, 3, changes.length > 1 ? 'nearest' : outwards)
    return { op: 'replace', path: `/tracks/${track}/elements/${index}/length`, value }
  })
  return steps.every((step) => step !== null) ? [steps] : []
}
