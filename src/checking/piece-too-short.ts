import { formatMm } from '../measure/length.ts'
import type { Finding } from './finding.ts'

/** A rail, or what remains of it, that is shorter than the minimum piece: it is cut as it is. */
export function pieceTooShort(track: string, rail: string, lengthMm: number, minimumPieceMm: number): Finding {
  return {
    rule: 'piece-too-short',
    severity: 'warn',
    track,
    element: null,
    message: `The ${rail} rail has a piece of ${formatMm(lengthMm)}; pieces under ${formatMm(minimumPieceMm)} do not stay in line.`,
    measured: lengthMm,
    limit: minimumPieceMm,
    unit: 'mm',
    cure: 'Make it one piece with the rail of the neighbouring track, or cut that rail a little shorter.',
  }
}
