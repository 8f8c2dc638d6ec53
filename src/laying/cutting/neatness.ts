import { exceeds } from '../../measure/counting.ts'
import type { PlannedStick } from './cut-plan.ts'

/** Of plans that cost the same and have as many joints, how well one cuts whole sticks. */
export interface Neatness {
  /** Ends of laid pieces that a saw made: a whole stick has none, the only piece of a longer stick one. */
  readonly sawnEnds: number
  /** The longest first. */
  readonly offcutsMm: readonly number[]
  /** The shortest piece of a divided run; infinite where none is divided. */
  readonly shortestMm: number
}

/** Lengths must differ by more than this for one plan to be neater. */
const WORTH_MM = 1e-3

export function neatnessOf(
  sticks: readonly Pick<PlannedStick, 'offcutMm' | 'kerfMm' | 'pieces'>[],
  kerfMm: number,
): Neatness {
  const piecesOf = new Map<number, number>()
  let sawnEnds = 0
  for (const { pieces, offcutMm, kerfMm: sawnMm } of sticks) {
    const beyondMm = offcutMm + sawnMm - kerfMm * (pieces.length - 1)
    for (const [n, { run, trimStartMm, trimEndMm }] of pieces.entries()) {
      piecesOf.set(run, (piecesOf.get(run) ?? 0) + 1)
      const last = n === pieces.length - 1
      if (n > 0 || trimStartMm > 0) sawnEnds++
      if (!last || trimEndMm > 0 || exceeds(beyondMm, 0)) sawnEnds++
    }
  }
  let shortestMm = Number.POSITIVE_INFINITY
  for (const { pieces } of sticks)
    for (const { run, lengthMm } of pieces) if (piecesOf.get(run)! > 1) shortestMm = Math.min(shortestMm, lengthMm)
  return { sawnEnds, offcutsMm: sticks.map(({ offcutMm }) => offcutMm).sort((a, b) => b - a), shortestMm }
}

/** Orders by fewest sawn ends, then the longest single offcuts, then the longest shortest piece: negative if a is neater. */
export function compareNeatness(a: Neatness, b: Neatness): number {
  if (a.sawnEnds !== b.sawnEnds) return a.sawnEnds - b.sawnEnds
  for (let n = 0; n < Math.max(a.offcutsMm.length, b.offcutsMm.length); n++) {
    const more = (a.offcutsMm[n] ?? 0) - (b.offcutsMm[n] ?? 0)
    if (Math.abs(more) > WORTH_MM) return -more
  }
  if (a.shortestMm === b.shortestMm || Math.abs(a.shortestMm - b.shortestMm) <= WORTH_MM) return 0
  return b.shortestMm - a.shortestMm
}
