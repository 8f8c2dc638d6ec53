import { csvOf } from '../paper/csv.ts'
import { type ColumnOf, number, tableOf, text } from '../paper/table.ts'
import type { Bends } from './answers/bends.ts'

interface Row {
  readonly rail: Bends['rails'][number]
  readonly chord: Bends['rails'][number]['ordinates'][number]
}

const COLUMNS: readonly ColumnOf<Row>[] = [
  text('rail', 'rail', ({ rail }) => rail.rail),
  number('radiusMm', 'radiusMm', ({ rail }) => rail.radiusMm),
  number('measuredRadiusMm', 'measuredRadiusMm', ({ rail }) => rail.measuredRadiusMm),
  number('chordMm', 'chordMm', ({ chord }) => chord.chordMm),
  number('midMm', 'midMm', ({ chord }) => chord.midMm),
  number('quarterMm', 'quarterMm', ({ chord }) => chord.quarterMm),
  number('threeEighthsMm', 'threeEighthsMm', ({ chord }) => chord.threeEighthsMm),
  number('eighthMm', 'eighthMm', ({ chord }) => chord.eighthMm),
  number('radiusErrorPct', 'radiusErrorPct', ({ chord }) => chord.radiusErrorPct),
  number('recommendedChordMm', 'recommendedChordMm', ({ rail }) => rail.recommendedChordMm),
  text('method', 'method', ({ rail }) => rail.forming?.method ?? null),
  number('formingRadiusMm', 'formingRadiusMm', ({ rail }) => rail.forming?.formingRadiusMm ?? null),
  number('formingLowMm', 'formingLowMm', ({ rail }) => rail.forming?.band.lowMm ?? null),
  number('formingHighMm', 'formingHighMm', ({ rail }) => rail.forming?.band.highMm ?? null),
  number('overbendRatio', 'overbendRatio', ({ rail }) => rail.forming?.overbendRatio ?? null),
  number('depthMm', 'depthMm', ({ rail }) => rail.forming?.machine?.depthMm ?? null),
  number('turns', 'turns', ({ rail }) => rail.forming?.machine?.turns ?? null),
]

export const BENDS_CSV_HEADER = COLUMNS.map(({ key }) => key).join(',')

/** One row a rail and chord. */
export function bendsCsv({ rails }: Bends): string {
  const rows = rails.flatMap((rail) => rail.ordinates.map((chord) => ({ rail, chord })))
  return csvOf(tableOf('bends', 'Bends', COLUMNS, rows, 'mm'))
}
