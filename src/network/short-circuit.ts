import type { Sections } from './sections.ts'

/** A section on a circle: the end by which the circle comes to it, and that by which it leaves, perhaps the same. */
export interface Step {
  readonly came: number
  readonly leaves: number
  /** Whether there is a break where it leaves. */
  readonly broken: boolean
}

interface Reached {
  readonly from: Reached | null
  /** The rail: twice the section, and one more for the right rail. */
  readonly rail: number
  readonly breaks: number
  readonly steps: number
  /** Ends by which the way left the rail before and came to this one. */
  readonly left: number
  readonly came: number
  readonly broken: boolean
}

/** Rails that may still be looked at. When none are left, the first circle that is found will do. */
export interface Work {
  left: number
}

/** Between breaks on both sides a section may be switched over. */
const MOST_BREAKS = 1

/**
 * The shortest circle of sections that leads from a left rail to the right rail of the same section over one break at
 * most; null where there is none.
 *
 * Where a section's last end meets another's first, left meets left; where two first or two last ends meet, left meets
 * right. The shortest such circle goes over no section twice, because of two circles that meet in one section one would
 * be such a circle by itself.
 */
export function shortestShort(sections: Sections, work: Work): Step[] | null {
  if (isSound(sections)) return null
  let best = null as Reached | null
  for (const section of sections.sections.keys()) {
    // Every such circle turns back somewhere, which takes an end with two others beyond it.
    if (![0, 1].some((end) => sections.beyond[2 * section + end]!.length > 1)) continue
    best = otherRail(section, sections, best?.steps ?? Number.POSITIVE_INFINITY, work) ?? best
    if (best && work.left <= 0) break
  }
  return best && stepsOf(best)
}

/** The shortest way from a left rail to its right rail, in fewer steps than a number; null where there is none. */
function otherRail(section: number, { beyond }: Sections, fewerThan: number, work: Work): Reached | null {
  const goal = 2 * section + 1
  const seen = new Set<number>()
  let open: Reached[] = [{ from: null, rail: 2 * section, breaks: 0, steps: 0, left: -1, came: -1, broken: false }]
  while (open.length > 0) {
    const next: Reached[] = []
    for (const at of open) {
      if (at.steps + 1 >= fewerThan) return null
      for (const left of [at.rail & ~1, at.rail | 1])
        for (const { end: came, broken } of beyond[left]!) {
          const breaks = at.breaks + Number(broken)
          if (breaks > MOST_BREAKS) continue
          const crosses = left % 2 === came % 2 ? 1 : 0
          const rail = (came & ~1) | ((at.rail ^ crosses) & 1)
          const key = 2 * rail + breaks
          if (seen.has(key)) continue
          seen.add(key)
          work.left--
          const reached = { from: at, rail, breaks, steps: at.steps + 1, left, came, broken }
          if (rail === goal) return reached
          next.push(reached)
        }
    }
    open = next
  }
  return null
}

function stepsOf(last: Reached): Step[] {
  const way: Reached[] = []
  for (let at: Reached | null = last; at?.from; at = at.from) way.unshift(at)
  return way.map(({ left, broken }, index) => ({ came: way.at(index - 1)!.came, leaves: left, broken }))
}

/** Whether no left rail leads to its own right rail over one break at most: tells at once that all is well. */
function isSound({ sections, beyond }: Sections): boolean {
  const side = new Array<number>(sections.length).fill(-1)
  const part = [...side]
  for (const first of sections.keys()) {
    if (side[first] !== -1) continue
    side[first] = 0
    const open = [first]
    for (let section = open.pop(); section !== undefined; section = open.pop()) {
      part[section] = first
      for (const left of [2 * section, 2 * section + 1])
        for (const { end, broken } of beyond[left]!) {
          if (broken) continue
          const other = end >> 1
          const expected = side[section]! ^ (left % 2 === end % 2 ? 1 : 0)
          if (side[other] === -1) {
            side[other] = expected
            open.push(other)
          } else if (side[other] !== expected) return false
        }
    }
  }
  return beyond.every((ends, left) =>
    ends.every(({ end, broken }) => {
      const [a, b] = [left >> 1, end >> 1]
      if (!broken || part[a] !== part[b]) return true
      return (side[a]! ^ (left % 2 === end % 2 ? 1 : 0)) === side[b]
    }),
  )
}
