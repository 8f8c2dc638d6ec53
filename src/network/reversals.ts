import { exceeds } from '../measure/counting.ts'
import { Curves, type Reversal } from './curves.ts'
import type { Network, Stretch } from './network.ts'

/** A reversal as a train comes to it. */
export interface PassedReversal extends Reversal {
  /** From that with the first curve to that with the second. */
  readonly runs: readonly number[]
}

/** Whether the straight between two curves is too short; where no limit is known, whether there is none. */
function isTooShort({ straightMm, eased }: Reversal, limitMm: number | null): boolean {
  return !eased && (limitMm === null ? straightMm === 0 : exceeds(limitMm, straightMm))
}

/** The curves along a way that reverse with too short a straight, in its order. Easements on both sides excuse them. */
export function reversalsAlong(
  { runs, loop }: { readonly runs: readonly number[]; readonly loop: boolean },
  curves: Curves,
  limitMm: number | null,
): PassedReversal[] {
  let left: ReturnType<Curves['after']>['left'] = null
  // The last curve of a loop comes before its first.
  if (loop) for (const run of runs) left = curves.after(left, run).left
  return runs.flatMap((run, index) => {
    const passed = curves.after(left, run)
    left = passed.left
    return passed.reversals
      .filter((reversal) => isTooShort(reversal, limitMm))
      .map((reversal) => ({ ...reversal, runs: since(reversal.first.stretch, index, runs) }))
  })
}

/** The runs up to one of them, from the last over a stretch on; of a loop, its end may come before its beginning. */
function since(stretch: number, index: number, runs: readonly number[]): readonly number[] {
  const before = [...runs.slice(index + 1), ...runs.slice(0, index + 1)]
  return before.slice(before.findLastIndex((run) => run >> 1 === stretch))
}

/** Runs entered while searching; a garden's plan takes some hundreds. */
const MOST_STEPS = 100_000

/**
 * The reversals that no track has by itself: across joins of tracks and through turnouts. Each is found once, although
 * it is met in both directions and on many ways.
 */
export function reversalsAcross(network: Network, limitMm: number): PassedReversal[] {
  const curves = new Curves(network)
  const found = new Map<string, PassedReversal>()
  let steps = MOST_STEPS
  for (const first of network.links.keys()) {
    const { last } = curves.of(first)
    if (!last) continue
    const open = [{ runs: [first], left: last }]
    for (let at = open.pop(); at && steps-- > 0; at = open.pop())
      for (const run of network.links[at.runs.at(-1)! ^ 1]!) {
        if (at.runs.includes(run)) continue
        const runs = [...at.runs, run]
        const { left, reversals } = curves.after(at.left, run)
        const next = curves.of(run).first
        if (!next) {
          if (left && exceeds(limitMm, left.straightMm)) open.push({ runs, left })
        } else if (next.sign === -at.left.sign && isFirstDirection(runs) && !isOneTrack(runs, network)) {
          const key = placesOf(reversals[0]!)
          const known = found.get(key)
          if (isTooShort(reversals[0]!, limitMm) && !(known && known.straightMm <= reversals[0]!.straightMm))
            found.set(key, { ...reversals[0]!, runs })
        }
      }
  }
  return [...found.values()]
}

/** The same two curves may have more than one straight between them. */
function placesOf({ first, second }: Reversal): string {
  return [first, second]
    .map(({ stretch, element }) => `${stretch}/${element}`)
    .sort()
    .join()
}

/** That in which the second curve lies ahead along its track, so that a straight put in before it lies between them. */
function isFirstDirection(runs: readonly number[]): boolean {
  const back = runs.map((run) => run ^ 1).reverse()
  const [ahead, aheadBack] = [runs, back].map((way) => way.at(-1)! % 2 === 0)
  if (ahead !== aheadBack) return ahead!
  const at = runs.findIndex((run, index) => run !== back[index])
  return at < 0 || runs[at]! < back[at]!
}

/** Stretches of one track that follow each other, whose curves are compared where the track is checked by itself. */
function isOneTrack(runs: readonly number[], { stretches, tracks }: Network): boolean {
  return runs.every((run, index) => {
    const stretch = stretches[run >> 1]!
    if (stretch.legOf !== null) return false
    return index === 0 || follows(stretches[runs[index - 1]! >> 1]!, stretch, tracks[stretch.track]!.closed)
  })
}

function follows(a: Stretch, b: Stretch, closed: boolean): boolean {
  return a.track === b.track && (a.toMm === b.fromMm || b.toMm === a.fromMm || closed)
}
