import { keyOf, type Layout, layoutsBeyond, neighboursOf, type Reach } from './layout.ts'
import { type Lined, type Survey, smallestThrow } from './smallest-throw.ts'

/** Layouts tried in any case. */
const MOST = 500
/** A layout that misses its conditions is worse than any that keeps them. */
const MISS_WEIGHT = 1000

interface Visited {
  readonly lined: Lined
  readonly merit: number
  /** Layouts next to it, the most promising first; null before the first is asked for. */
  next: Layout[] | null
}

/**
 * The layout whose smallest largest throw is smallest. From every guess the search goes downhill, across all the borders
 * at once that keep the throw from being smaller; the layout beyond shares the corner where they meet, so its throw
 * cannot be larger. Then it looks around, always from the best layout that has a neighbour left, for a while in case
 * there is a deeper place next door. That is no proof of the least. For one body it is held against all layouts there
 * are in tests/bending/bend-check/smallest-throw.test.ts; with more bodies it is near the least, not always at it.
 *
 * @param patience how many layouts to try without finding a better one before it stops
 * @returns null when no guess could be solved
 */
export function bestLayout(survey: Survey, guesses: readonly Layout[], reach: Reach, patience: number): Lined | null {
  const seen = new Set<string>()
  const open: Visited[] = []
  let best: Lined | null = null
  let bestMerit = Number.POSITIVE_INFINITY
  let idle = 0
  const visit = (layout: Layout): Visited | null => {
    const key = keyOf(layout)
    if (seen.has(key)) return null
    seen.add(key)
    idle++
    const lined = smallestThrow(survey, layout)
    if (!lined) return null
    const here: Visited = { lined, merit: lined.largestHalfThrow + MISS_WEIGHT * lined.missed, next: null }
    open.push(here)
    if (here.merit >= bestMerit * (1 - 1e-9) - 1e-9) return here
    best = lined
    bestMerit = here.merit
    idle = 0
    return here
  }
  const nextTo = (from: Visited): Layout[] => {
    const { layout, pressing } = from.lined
    from.next ??= [...layoutsBeyond(layout, pressing, reach), ...neighboursOf(layout, reach)]
    return from.next
  }

  for (const guess of guesses) {
    let here = visit(guess)
    while (here && here.lined.pressing.length > 0) {
      const beyond = visit(nextTo(here).shift()!)
      here = beyond && beyond.merit < here.merit ? beyond : null
    }
  }
  idle = 0
  while (open.length > 0 && idle < patience && seen.size < MOST) {
    let index = 0
    for (let n = 1; n < open.length; n++) if (open[n]!.merit <= open[index]!.merit) index = n
    const next = nextTo(open[index]!).shift()
    if (next) visit(next)
    else open.splice(index, 1)
  }
  return best
}
