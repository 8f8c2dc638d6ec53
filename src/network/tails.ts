import type { HillPart } from '../hauling/hill.ts'
import type { Network } from './network.ts'

/** The runs on which a train may stand behind the first of its front, in the order in which it has come over them. */
export interface Tails {
  readonly tails: readonly (readonly number[])[]
  /** False where there are more than are looked for. */
  readonly complete: boolean
}

/** A train long enough to stand on more is not followed further: so stretches of no length that lead round end somewhere. */
const MOST_BEHIND = 1000

/** The runs from which a train may come to a run. */
export function runsBefore(run: number, { links }: Pick<Network, 'links'>): number[] {
  return links[run]!.map((end) => end ^ 1)
}

/**
 * Every way by which a train of a length can have come to a run, back to its rear, its own track first. It is on no stretch
 * twice while there is another; where there is none, as round a loop shorter than itself, it goes on over its own track.
 *
 * @param most runs of all ways together; beyond them only one more way is followed to its end
 */
export function tailsBehind(
  first: number,
  trainMm: number,
  network: Network,
  parts: readonly HillPart[],
  most: number,
): Tails {
  const tails: number[][] = []
  let left = most
  let complete = true
  const open: { run: number; leftMm: number; behind: readonly number[] }[] = [
    { run: first, leftMm: trainMm, behind: [] },
  ]
  for (let next = open.pop(); next; next = open.pop()) {
    const { run, leftMm, behind } = next
    const before = leftMm > 0 && behind.length < MOST_BEHIND ? choices(run, behind, network) : []
    if (before.length === 0) {
      tails.push(behind.toReversed())
      continue
    }
    const taken = left > 0 ? before : before.slice(0, 1)
    complete &&= taken.length === before.length
    left -= taken.length
    for (const each of taken.toReversed())
      open.push({ run: each, leftMm: leftMm - parts[each]!.lengthMm, behind: [...behind, each] })
    // What was put off for want of room is left out as well.
    if (left <= 0 && open.length > 1) {
      open.splice(0, open.length - 1)
      complete = false
    }
  }
  return { tails, complete }
}

/** The runs before one, that of its own track first. */
function choices(run: number, behind: readonly number[], network: Network): number[] {
  const { stretches } = network
  const trackOf = (each: number) => stretches[each >> 1]!.track
  const before = runsBefore(run, network)
  const ownFirst = before.toSorted((a, b) => Number(trackOf(a) !== trackOf(run)) - Number(trackOf(b) !== trackOf(run)))
  const free = ownFirst.filter((each) => !behind.includes(each) && !behind.includes(each ^ 1))
  return free.length > 0 ? free : ownFirst.slice(0, 1)
}
