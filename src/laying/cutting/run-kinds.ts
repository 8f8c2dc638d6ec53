import { isFree } from './arrange-chain.ts'
import { type Chain, NOWHERE, type Run } from './problem.ts'

/** Runs that are interchangeable. */
export interface RunKind {
  /** The least rail each of them needs. */
  readonly lengthMm: number
  readonly runs: readonly number[]
}

/** Runs of the same length are of one kind, where a joint may be anywhere or nowhere; the longest kind first. */
export function kindsOf(runs: readonly Run[], needsMm: readonly number[]): RunKind[] {
  const kinds = new Map<number | string, { lengthMm: number; runs: number[] }>()
  for (const [run, lengthMm] of needsMm.entries()) {
    const name = nameOf(runs[run]!, lengthMm) ?? `by itself: ${run}`
    const kind = kinds.get(name)
    if (kind) kind.runs.push(run)
    else kinds.set(name, { lengthMm, runs: [run] })
  }
  return [...kinds.values()].sort((a, b) => b.lengthMm - a.lengthMm || a.runs[0]! - b.runs[0]!)
}

function nameOf(run: Run, needMm: number): number | string | null {
  if (isFree(run)) return needMm
  return run.jointBy === NOWHERE && !run.beside && !run.trim ? `whole: ${needMm}` : null
}

/** A chain by kinds, each listed once per run of it in the chain. */
export interface ChainOfKinds {
  readonly kinds: readonly number[]
  readonly sticks: readonly number[]
}

/** Assigns actual runs to each chain. */
export function withRuns(kinds: readonly RunKind[], chains: readonly ChainOfKinds[]): Chain[] {
  const given = kinds.map(() => 0)
  return chains.map((chain) => ({
    runs: chain.kinds.map((kind) => kinds[kind]!.runs[given[kind]!++]!),
    sticks: chain.sticks,
  }))
}
