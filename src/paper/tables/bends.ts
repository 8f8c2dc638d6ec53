import type { Bend, Estimate, Ordinates } from '../../estimate/answer.ts'
import { type ColumnOf, elementNumber, length, number, text } from '../table.ts'

interface Row {
  readonly bend: Bend
  /** Null where no chord fits the bend. */
  readonly chord: Ordinates | null
}

const COLUMNS: readonly ColumnOf<Row>[] = [
  text('track', 'Track', ({ bend }) => bend.track),
  elementNumber(({ bend }) => bend.element),
  text('rail', 'Rail', ({ bend }) => bend.rail),
  text('side', 'Side', ({ bend }) => bend.side),
  text('turn', 'Turn', ({ bend }) => bend.turn),
  length('radiusMm', 'Radius of the rail', ({ bend }) => bend.radiusMm),
  length('measuredRadiusMm', 'Radius of the face measured', ({ bend }) => bend.measuredRadiusMm),
  length('lengthMm', 'Length', ({ bend }) => bend.lengthMm),
  length('chordMm', 'Chord', ({ chord }) => chord?.chordMm ?? null),
  length('midMm', 'Middle ordinate', ({ chord }) => chord?.midMm ?? null),
  length('quarterMm', 'Ordinate at the quarters', ({ chord }) => chord?.quarterMm ?? null),
  length('threeEighthsMm', 'Ordinate 3/8 from an end', ({ chord }) => chord?.threeEighthsMm ?? null),
  length('eighthMm', 'Ordinate 1/8 from an end', ({ chord }) => chord?.eighthMm ?? null),
  number('radiusErrorPct', 'Radius is told to within (%)', ({ chord }) => chord?.radiusErrorPct ?? null),
  length('recommendedChordMm', 'Chord to use', ({ bend }) => bend.recommendedChordMm),
  text('method', 'Bent by', ({ bend }) => bend.forming.method),
  text('basis', 'Metal taken as', ({ bend }) => bend.forming.basis),
  length('formingRadiusMm', 'Bend to radius, under load', ({ bend }) => bend.forming.formingRadiusMm),
  length('formingLowMm', 'Bend to radius, at least', ({ bend }) => bend.forming.band.lowMm),
  length('formingHighMm', 'Bend to radius, at most', ({ bend }) => bend.forming.band.highMm),
  number('overbendRatio', 'Overbend (times as tight)', ({ bend }) => bend.forming.overbendRatio),
  number('momentNm', 'Bending moment (N·m)', ({ bend }) => bend.forming.momentNm),
  length('depthMm', 'Rollers: depth from just touching', ({ bend }) => bend.forming.machine?.depthMm ?? null),
  number('turns', 'Turns of the screw', ({ bend }) => bend.forming.machine?.turns ?? null),
  length('straightEndMm', 'Stays straight at each end', ({ bend }) => bend.forming.machine?.straightEndMm ?? null),
  length('trimLengthMm', 'Cut longer by, to trim the ends', ({ bend }) => bend.forming.machine?.trimLengthMm ?? null),
]

/** What tells how to bend; left blank for ready-made track, which comes bent. */
const HOW_TO_BEND: ReadonlySet<string> = new Set([
  'method',
  'basis',
  'formingRadiusMm',
  'formingLowMm',
  'formingHighMm',
  'overbendRatio',
  'momentNm',
  'depthMm',
  'turns',
  'straightEndMm',
  'trimLengthMm',
])

export const BEND_COLUMNS: readonly ColumnOf<Row>[] = [
  ...COLUMNS.map((column) =>
    HOW_TO_BEND.has(column.key)
      ? { ...column, value: (row: Row) => (row.bend.readyMade ? null : column.value(row)) }
      : column,
  ),
  text('readyMade', 'Comes bent', ({ bend }) => (bend.readyMade ? 'yes' : 'no')),
]

/** Each rail of each arc, with each chord that fits it. */
export function bendRows({ bends }: Estimate): Row[] {
  return bends.flatMap((bend): Row[] =>
    bend.ordinates.length === 0 ? [{ bend, chord: null }] : bend.ordinates.map((chord) => ({ bend, chord })),
  )
}
