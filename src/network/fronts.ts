import type { Network } from './network.ts'
import { runsBefore } from './tails.ts'

/** Runs of one track, one after the other, onto which a train comes at the first only. */
export interface Front {
  readonly track: number
  readonly runs: readonly number[]
  /** Whether the last leads to the first, and no other run does: a closed track. */
  readonly isCircle: boolean
}

/** Every run of a network once. */
export function frontsOf(network: Network): Front[] {
  const { stretches } = network
  const next = new Map<number, number>()
  const followed = new Set<number>()
  for (let run = 0; run < 2 * stretches.length; run++) {
    const [before, ...others] = runsBefore(run, network)
    if (before === undefined || others.length > 0 || next.has(before) || !areOfOneTrack(before, run, network)) continue
    next.set(before, run)
    followed.add(run)
  }
  const fronts: Front[] = []
  const done = new Set<number>()
  const take = (first: number, isCircle: boolean) => {
    const runs: number[] = []
    for (let run: number | undefined = first; run !== undefined && !done.has(run); run = next.get(run)) {
      runs.push(run)
      done.add(run)
    }
    fronts.push({ track: stretches[first >> 1]!.track, runs, isCircle })
  }
  for (let run = 0; run < 2 * stretches.length; run++) if (!followed.has(run)) take(run, false)
  for (let run = 0; run < 2 * stretches.length; run++) if (!done.has(run)) take(run, true)
  return fronts
}

function areOfOneTrack(a: number, b: number, { stretches }: Network): boolean {
  const [one, other] = [stretches[a >> 1]!, stretches[b >> 1]!]
  return one.track === other.track && one.legOf === null && other.legOf === null
}
