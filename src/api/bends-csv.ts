import { type Column, csvOf } from './csv.ts'
import type { Bends } from './schemas/bends.ts'

interface Row {
  readonly rail: Bends['rails'][number]
  readonly chord: Bends['rails'][number]['ordinates'][number]
}

const COLUMNS: readonly Column<Row>[] = [
  ['rail', ({ rail }) => rail.rail],
  ['radiusMm', ({ rail }) => rail.radiusMm],
  ['measuredRadiusMm', ({ rail }) => rail.measuredRadiusMm],
  ['chordMm', ({ chord }) => chord.chordMm],
  ['midMm', ({ chord }) => chord.midMm],
  ['quarterMm', ({ chord }) => chord.quarterMm],
  ['threeEighthsMm', ({ chord }) => chord.threeEighthsMm],
  ['eighthMm', ({ chord }) => chord.eighthMm],
  ['radiusErrorPct', ({ chord }) => chord.radiusErrorPct],
  ['recommendedChordMm', ({ rail }) => rail.recommendedChordMm],
  ['method', ({ rail }) => rail.forming?.method ?? null],
  ['formingRadiusMm', ({ rail }) => rail.forming?.formingRadiusMm ?? null],
  ['formingLowMm', ({ rail }) => rail.forming?.band.lowMm ?? null],
  ['formingHighMm', ({ rail }) => rail.forming?.band.highMm ?? null],
  ['overbendRatio', ({ rail }) => rail.forming?.overbendRatio ?? null],
  ['depthMm', ({ rail }) => rail.forming?.machine?.depthMm ?? null],
  ['turns', ({ rail }) => rail.forming?.machine?.turns ?? null],
]

export const BENDS_CSV_HEADER = COLUMNS.map(([name]) => name).join(',')

/** One row a rail and chord. */
export function bendsCsv({ rails }: Bends): string {
  return csvOf(
    COLUMNS,
    rails.flatMap((rail) => rail.ordinates.map((chord) => ({ rail, chord }))),
  )
}
