import type { CutPiece, CutStick } from '../../../estimate/answer.ts'
import { PrintedPieces } from './printed-pieces.ts'

/** Sticks that are cut and bent in the same way, by their numbers in the cut plan. */
export interface IdenticalSticks {
  readonly numbers: number[]
  readonly sticks: CutStick[]
}

/** Groups sticks that are the same to within what can be measured at the bench. */
export function groupIdenticalSticks(
  sticks: readonly CutStick[],
  printed = new PrintedPieces(sticks),
): readonly IdenticalSticks[] {
  const groups = new Map<string, IdenticalSticks>()
  for (const [index, stick] of sticks.entries()) {
    const key = JSON.stringify([
      stick.lengthMm,
      stick.fromStock,
      stick.pieces.map((piece) => comparisonKey(piece, printed)),
    ])
    const group = groups.get(key)
    if (group) {
      group.numbers.push(index + 1)
      group.sticks.push(stick)
    } else groups.set(key, { numbers: [index + 1], sticks: [stick] })
  }
  return [...groups.values()]
}

/** What makes two pieces the same at the bench: alike to a tenth of a millimetre, and printed alike. */
export function comparisonKey(piece: CutPiece, printed: PrintedPieces): unknown {
  const { lengthMm, trimMm, bends } = piece
  const tenths = (mm: number | null | undefined) => (mm ? mm.toFixed(1) : null)
  return [
    tenths(lengthMm),
    tenths(trimMm),
    bends.map(({ fromMm, toMm, radiusMm, startRadiusMm, endRadiusMm, turn }) => [
      ...[fromMm, toMm, radiusMm, startRadiusMm, endRadiusMm].map(tenths),
      turn,
    ]),
    printed.keyOf(piece),
  ]
}
