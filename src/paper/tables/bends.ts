import { BEND } from '../../bending/bends.ts'
import { BEND_FORMING, MACHINE_SETTING, ORDINATES, RADIUS_BAND } from '../../bending/forming/types.ts'
import type { Bend, Estimate, Ordinates } from '../../estimate/answer.ts'
import { RAIL_OF_TURNOUT } from '../../track/turnout/rail-of-turnout.ts'
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

const OF_MEASURE = [
  ...ofBend('measuredRadiusMm', 'lengthMm'),
  ...ofChord('chordMm', 'midMm', 'quarterMm', 'threeEighthsMm', 'eighthMm', 'radiusErrorPct'),
  ...ofBend('recommendedChordMm'),
]

const OF_FORM = [
  ...ofForming('method', 'basis', 'formingRadiusMm'),
  ...ofBand({ of: 'lowMm', key: 'formingLowMm' }, { of: 'highMm', key: 'formingHighMm' }),
  ...ofForming('overbendRatio', 'momentNm'),
  ...ofMachine('depthMm', 'turns', 'straightEndMm', 'trimLengthMm'),
]

/** Of rails of turnouts that are built by hand. */
const OF_TURNOUT = columnsOf(RAIL_OF_TURNOUT, ({ bend }: Row) => bend.turnout)(
  { of: 'name', key: 'turnout' },
  { of: 'rail', key: 'turnoutRail' },
)

const WHICH = ofBend('track', 'element', 'rail', 'side', 'turn', 'radiusMm')

export const BEND_COLUMNS = [...WHICH, ...OF_MEASURE, ...OF_FORM, ...ofBend('readyMade'), ...OF_TURNOUT]

/** The same in two: how to measure a bend, and how to make it. */
export const MEASURE_COLUMNS = [...WHICH, ...OF_MEASURE, ...OF_TURNOUT]
export const FORM_COLUMNS = [...WHICH, ...OF_FORM, ...OF_TURNOUT]

/** Each rail of each arc, with each chord that fits it. */
export function bendRows({ bends }: Estimate): Row[] {
  return bends.flatMap((bend): Row[] =>
    bend.ordinates.length === 0 ? [{ bend, chord: null }] : bend.ordinates.map((chord) => ({ bend, chord })),
  )
}

/** Each rail of each arc that a chord fits, with each of these chords. */
export function measureRows(estimate: Estimate): Row[] {
  return bendRows(estimate).filter(({ chord }) => chord !== null)
}

/** Each rail of each arc that has to be bent. */
export function bendFormRows({ bends }: Estimate): Row[] {
  return bends.flatMap((bend) => (bend.readyMade ? [] : [{ bend, chord: null }]))
}
