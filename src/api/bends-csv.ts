import { BEND_FORMING, MACHINE_SETTING, ORDINATES, RADIUS_BAND } from '../bending/forming/types.ts'
import { columnsOf } from '../paper/columns.ts'
import { csvOf } from '../paper/csv.ts'
import { type LengthsIn, tableOf } from '../paper/table.ts'
import { BENT_RAIL, type Bends } from './answers/bends.ts'

interface Row {
  readonly rail: Bends['rails'][number]
  readonly chord: Bends['rails'][number]['ordinates'][number]
}

const ofRail = columnsOf(BENT_RAIL, ({ rail }: Row) => rail)
const ofChord = columnsOf(ORDINATES, ({ chord }: Row) => chord)
const ofForming = columnsOf(BEND_FORMING, ({ rail }: Row) => rail.forming)
const ofBand = columnsOf(RADIUS_BAND, ({ rail }: Row) => rail.forming?.band)
const ofMachine = columnsOf(MACHINE_SETTING, ({ rail }: Row) => rail.forming?.machine)

const COLUMNS = [
  ...ofRail('rail', 'radiusMm', 'measuredRadiusMm'),
  ...ofChord('chordMm', 'midMm', 'quarterMm', 'threeEighthsMm', 'eighthMm', 'radiusErrorPct'),
  ...ofRail('recommendedChordMm'),
  ...ofForming('method', 'formingRadiusMm'),
  ...ofBand({ of: 'lowMm', key: 'formingLowMm' }, { of: 'highMm', key: 'formingHighMm' }),
  ...ofForming('overbendRatio'),
  ...ofMachine('depthMm', 'turns'),
]

export const BENDS_CSV_HEADER = COLUMNS.map(({ key }) => key).join(',')

/** One row for each rail and chord. */
export function bendsCsv({ rails }: Bends, lengthsIn: LengthsIn): string {
  const rows = rails.flatMap((rail) => rail.ordinates.map((chord) => ({ rail, chord })))
  return csvOf(tableOf('bends', 'Bends', COLUMNS, rows, lengthsIn))
}
