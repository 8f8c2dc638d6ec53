import type { ElementAnswer, Estimate, TrackAnswer } from '../../estimate/answer.ts'

/** What became of an element, or of a whole track, between two revisions. */
export interface ElementChange {
  /** `moved`: as long and as curved as before, but elsewhere. */
  readonly is: 'changed' | 'added' | 'removed' | 'moved'
  /** Null for what is not in that revision. */
  readonly before: Placed | null
  readonly after: Placed | null
}

interface Placed {
  /** In the order of the plan's tracks. */
  readonly track: number
  readonly name: string
  readonly element: ElementAnswer
}

/** Differences up to this are those of rounding, in mm and degrees. */
const SLACK = 1e-6
/** An element that begins and ends this near to where it was has not moved, mm and degrees. */
const NEAR = 0.01

/**
 * What differs between the tracks of two estimates. Tracks are the same by their names. In a track, elements are paired from
 * both ends as long as they are the same; what is left between is paired in its order, and the rest is added or removed.
 */
export function elementChanges(before: Estimate, after: Estimate): ElementChange[] {
  const names = new Set([...after.tracks, ...before.tracks].map(({ name }) => name))
  return [...names].flatMap((name) => trackChanges(placedIn(before, name), placedIn(after, name)))
}

function placedIn({ tracks }: Estimate, name: string): Placed[] {
  const track = tracks.findIndex((each: TrackAnswer) => each.name === name)
  return (tracks[track]?.elements ?? []).map((element) => ({ track, name, element }))
}

function trackChanges(before: readonly Placed[], after: readonly Placed[]): ElementChange[] {
  const shorter = Math.min(before.length, after.length)
  let head = 0
  while (head < shorter && isAlike(before[head]!, after[head]!)) head++
  let tail = 0
  while (tail < shorter - head && isAlike(before.at(-1 - tail)!, after.at(-1 - tail)!)) tail++
  const pairs = [
    ...after.slice(0, head).map((each, at) => [before[at]!, each] as const),
    ...paired(before.slice(head, before.length - tail), after.slice(head, after.length - tail)),
    ...after.slice(after.length - tail).map((each, at) => [before[before.length - tail + at]!, each] as const),
  ]
  return pairs.flatMap(([was, is]): ElementChange[] => {
    if (was === null) return [{ is: 'added', before: null, after: is }]
    if (is === null) return [{ is: 'removed', before: was, after: null }]
    if (!isAlike(was, is)) return [{ is: 'changed', before: was, after: is }]
    return isNear(was, is) ? [] : [{ is: 'moved', before: was, after: is }]
  })
}

function paired(before: readonly Placed[], after: readonly Placed[]): (readonly [Placed | null, Placed | null])[] {
  return Array.from({ length: Math.max(before.length, after.length) }, (_, at) => [
    before[at] ?? null,
    after[at] ?? null,
  ])
}

/** What an element is like wherever it lies. */
const MEASURES = ['lengthMm', 'radiusMm', 'angleDeg', 'startRadiusMm', 'endRadiusMm'] as const

function isAlike({ element: a }: Placed, { element: b }: Placed): boolean {
  if (a.kind !== b.kind || a.turn !== b.turn || a.turnout?.type !== b.turnout?.type) return false
  return MEASURES.every((measure) => Math.abs((a[measure] ?? 0) - (b[measure] ?? 0)) <= SLACK)
}

function isNear({ element: a }: Placed, { element: b }: Placed): boolean {
  return (['start', 'end'] as const).every((end) => {
    const turned = Math.abs(a[end].headingDeg - b[end].headingDeg)
    return (
      Math.hypot(a[end].xMm - b[end].xMm, a[end].yMm - b[end].yMm) <= NEAR && Math.min(turned, 360 - turned) <= NEAR
    )
  })
}
