import { keyOf, type Layout, layoutsBeyond, neighboursOf, type Reach } from './layout.ts'
import type { Effort } from './linear-program.ts'
import { conditionsOf, type Lined, type Survey, smallestThrow } from './smallest-throw.ts'

/** A layout that violates its conditions is worse than any that keeps them. */
const MISS_WEIGHT = 1000

interface Visited {
  readonly lined: Lined
  readonly merit: number
  /** Layouts next to it, the most promising first; null before they are needed. */
  next: Layout[] | null
}

/** A search for the best layout, and what it may cost. */
export interface Search {
  readonly reach: Reach
  /** How many layouts to try without finding a better one before it stops. */
  readonly patience: number
  readonly effort: Effort
  /** It ends early when no more than this is left of the effort. */
  readonly reserve: number
}

export interface Found {
  readonly lined: Lined
  /** Whether the search was complete: no layout one step away has a smaller largest throw. */
  readonly isLocallyLeast: boolean
}

/**
 * The layout whose smallest largest throw is smallest. From every guess, the best first, the search goes downhill,
 * across all the borders at once that limit the throw; the layout beyond shares the corner where they meet, so its
 * throw cannot be larger. Then it tries neighbours, always of the best layout that has any left, for a while in case
 * there is a better one nearby, and finally every neighbour of the best.
 *
 * How sure that is: within its layout the throw is the least there is (a linear programme), and no layout that one step
 * leads to (`neighboursOf`) has a smaller one, unless the effort ran out. That is a local minimum,
 * not a proof of the global one. For one body it is compared with all layouts, for two and three with
 * all neighbours, in tests/bending/bend-check/smallest-throw.test.ts.
 *
 * @returns null when no guess could be solved, or there was no effort left to try one
 */
export function bestLayout(survey: Survey, guesses: readonly Layout[], search: Search): Found | null {
  const { reach, patience, effort, reserve } = search
  const conditions = conditionsOf(survey)
  const seen = new Set<string>()
  const open: Visited[] = []
  let best = null as Visited | null
  let idle = 0
  const isSpent = () => effort.left <= reserve
  const visit = (layout: Layout, like?: Lined): Visited | null => {
    const key = keyOf(layout)
    if (seen.has(key)) return null
    seen.add(key)
    idle++
    const lined = smallestThrow(survey, layout, effort, like, conditions)
    if (!lined) return null
    const here: Visited = { lined, merit: lined.largestHalfThrow + MISS_WEIGHT * lined.missed, next: null }
    open.push(here)
    if (best && here.merit >= best.merit * (1 - 1e-9) - 1e-9) return here
    best = here
    idle = 0
    return here
  }
  const nextTo = (from: Visited): Layout[] => {
    const { layout, pressing } = from.lined
    from.next ??= [...layoutsBeyond(layout, pressing, reach), ...neighboursOf(layout, reach)]
    return from.next
  }

  /** Downhill by steps that double while they improve, and restart at a single station when one does not. */
  const descend = (begin: Visited) => {
    let here = begin
    let stride = 1
    while (here.lined.pressing.length > 0 && !isSpent()) {
      const { layout, pressing } = here.lined
      const borders = pressing.map(({ cut, step }) => ({ cut, step: step * stride }))
      const next = stride === 1 ? nextTo(here).shift()! : layoutsBeyond(layout, borders, reach)[0]!
      const beyond = visit(next, here.lined)
      if (beyond && beyond.merit < here.merit) {
        here = beyond
        stride *= 2
      } else if (stride > 1) stride = 1
      else return
    }
  }

  for (const guess of guesses) if (!isSpent()) visit(guess, best?.lined)
  for (const begin of open.toSorted((a, b) => a.merit - b.merit)) descend(begin)
  idle = 0
  while (open.length > 0 && !isSpent()) {
    let index = 0
    for (let n = 1; n < open.length; n++) if (open[n]!.merit <= open[index]!.merit) index = n
    // Among equals the search moves on; before it ends, it returns to the best.
    if (idle >= patience) index = open.indexOf(best!)
    if (index < 0) break
    const from = open[index]!
    const next = nextTo(from).shift()
    if (next) visit(next, from.lined)
    else open.splice(index, 1)
  }

  return best && { lined: best.lined, isLocallyLeast: !open.includes(best) }
}
