import { formatMm } from '../measure/length.ts'
import type { Finding } from './finding.ts'

/** A rail, or what remains of it, too short to be a piece of at least the minimum: it is cut as it is. */
export function pieceTooShort(track: string, rail: string, lengthMm: number, minimumPieceMm: number): Finding {
  return {
    rule: 'piece-too-short',
    severity: 'warn',
    track,
    element: null,
    message: `The ${rail} rail has a piece of ${formatMm(lengthMm)}; pieces under ${formatMm(minimumPieceMm)} hold no line.`,
    measured: lengthMm,
    limit: minimumPieceMm,
    unit: 'mm',
    cure: 'Join it to the neighbouring track as one piece, or take the rail of the neighbouring track a little shorter.',
  }
}
