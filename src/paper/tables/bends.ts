import { BEND } from '../../bending/bends.ts'
import { BEND_FORMING, MACHINE_SETTING, ORDINATES, RADIUS_BAND } from '../../bending/forming/types.ts'
import type { Bend, Estimate, Ordinates } from '../../estimate/answer.ts'
import { columnsOf } from '../columns.ts'

interface Row {
  readonly bend: Bend
  /** Null where no chord fits the bend. */
  readonly chord: Ordinates | null
}

/** How to bend; null for ready-made track, which is already bent. */
const formingOf = ({ bend }: Row) => (bend.readyMade ? null : bend.forming)

const ofBend = columnsOf(BEND, ({ bend }: Row) => bend)
const ofChord = columnsOf(ORDINATES, ({ chord }: Row) => chord)
const ofForming = columnsOf(BEND_FORMING, formingOf)
const ofBand = columnsOf(RADIUS_BAND, (row: Row) => formingOf(row)?.band)
const ofMachine = columnsOf(MACHINE_SETTING, (row: Row) => formingOf(row)?.machine)

export const BEND_COLUMNS = [
  ...ofBend('track', 'element', 'rail', 'side', 'turn', 'radiusMm', 'measuredRadiusMm', 'lengthMm'),
  ...ofChord('chordMm', 'midMm', 'quarterMm', 'threeEighthsMm', 'eighthMm', 'radiusErrorPct'),
  ...ofBend('recommendedChordMm'),
  ...ofForming('method', 'basis', 'formingRadiusMm'),
  ...ofBand({ of: 'lowMm', key: 'formingLowMm' }, { of: 'highMm', key: 'formingHighMm' }),
  ...ofForming('overbendRatio', 'momentNm'),
  ...ofMachine('depthMm', 'turns', 'straightEndMm', 'trimLengthMm'),
  ...ofBend('readyMade'),
]

/** Each rail of each arc, with each chord that fits it. */
export function bendRows({ bends }: Estimate): Row[] {
  return bends.flatMap((bend): Row[] =>
    bend.ordinates.length === 0 ? [{ bend, chord: null }] : bend.ordinates.map((chord) => ({ bend, chord })),
  )
}
