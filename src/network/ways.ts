import { circlesThrough } from './circles.ts'

/** A way as the runs it consists of (see network.ts). A loop joins its own beginning. */
export interface Way {
  readonly runs: readonly number[]
  readonly loop: boolean
}

export interface Ways {
  readonly ways: readonly Way[]
  /** False where the limits below ended the search. */
  readonly complete: boolean
}

/** Twenty passing sidings in a row already have a million ways, which nobody would read. */
export const MOST_WAYS = 500
/** Runs of all ways together. */
const MOST_RUNS = 20_000
/** Runs entered while searching, of open ways and of loops each. */
const MOST_STEPS = 100_000

/**
 * Every way a train can take through a network without reversing, once. A way goes over no stretch twice in the same
 * direction (over a reverse loop's approach it goes out and back). It is either
 * - a loop: it joins its own beginning in the same direction; or
 * - as long as it can be: at neither end is there any stretch by which it could go on. That is the end of a track, or
 *   where it would begin again with what it has been over.
 *
 * A way and the same in the other direction are one, and so are loops that begin at other places.
 *
 * @param links by end, the ends at which a train goes on
 */
export function waysThrough(links: readonly (readonly number[])[]): Ways {
  const found = new Map<string, Way>()
  let runsLeft = MOST_RUNS
  /** False when there is no more room. */
  const add = (way: Way): boolean => {
    const key = (way.loop ? '(' : '[') + way.runs.join()
    if (found.has(key)) return true
    runsLeft -= way.runs.length
    if (found.size >= MOST_WAYS || runsLeft < 0) return false
    found.set(key, way)
    return true
  }
  const circle = circlesThrough(links)
  const openDone = openWays(links, circle, (runs) => add({ runs: oneDirection(runs), loop: false }))
  const loopsDone = loops(links, circle, (runs) => add({ runs: oneBeginning(runs), loop: true }))
  return { ways: [...found.values()], complete: openDone && loopsDone }
}

type Take = (runs: readonly number[]) => boolean

function openWays(links: readonly (readonly number[])[], circle: readonly number[], take: Take): boolean {
  let steps = MOST_STEPS
  for (const first of links.keys()) {
    const before = links[first]!.map((end) => end ^ 1)
    // What leads here and cannot be reached from here would make every way from here longer.
    if (before.some((run) => circle[run] !== circle[first])) continue
    const done = search(
      first,
      links,
      () => true,
      (runs, on, isEnd) => {
        if (steps-- <= 0) return false
        if (!isEnd || !before.every((run) => on.has(run))) return true
        return before.includes(runs.at(-1)!) || take(runs)
      },
    )
    if (!done) return false
  }
  return true
}

function loops(links: readonly (readonly number[])[], circle: readonly number[], take: Take): boolean {
  let steps = MOST_STEPS
  for (const first of links.keys()) {
    const before = links[first]!.map((end) => end ^ 1)
    const within = (run: number) => run > first && circle[run] === circle[first]
    if (!before.some((run) => run >= first && circle[run] === circle[first])) continue
    const done = search(first, links, within, (runs) => {
      if (steps-- <= 0) return false
      return !before.includes(runs.at(-1)!) || take(runs)
    })
    if (!done) return false
  }
  return true
}

/**
 * Goes over every way from a run on that takes no run twice. Not recursive: a way may be long.
 *
 * @param visit is given the way so far, and whether it can go no further; it answers whether to look on
 */
function search(
  first: number,
  links: readonly (readonly number[])[],
  within: (run: number) => boolean,
  visit: (runs: readonly number[], on: ReadonlySet<number>, isEnd: boolean) => boolean,
): boolean {
  const runs = [first]
  const on = new Set(runs)
  const next = (): number[] => links[runs.at(-1)! ^ 1]!.filter((run) => !on.has(run) && within(run))
  const open = [next()]
  if (!visit(runs, on, open[0]!.length === 0)) return false
  while (open.length > 0) {
    const run = open.at(-1)!.shift()
    if (run === undefined) {
      open.pop()
      on.delete(runs.pop()!)
      continue
    }
    runs.push(run)
    on.add(run)
    const further = next()
    open.push(further)
    if (!visit(runs, on, further.length === 0)) return false
  }
  return true
}

/** Of a way and its reverse, that which comes first in the plan. */
function oneDirection(runs: readonly number[]): readonly number[] {
  const back = reversedRuns(runs)
  return comesBefore(back, runs) ? back : [...runs]
}

function oneBeginning(runs: readonly number[]): readonly number[] {
  const [there, back] = [fromLeast(runs), fromLeast(reversedRuns(runs))]
  return comesBefore(back, there) ? back : there
}

function reversedRuns(runs: readonly number[]): number[] {
  return runs.map((run) => run ^ 1).reverse()
}

function fromLeast(runs: readonly number[]): number[] {
  const at = runs.indexOf(Math.min(...runs))
  return [...runs.slice(at), ...runs.slice(0, at)]
}

function comesBefore(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((run, index) => run !== b[index])
  return at >= 0 && a[at]! < b[at]!
}
