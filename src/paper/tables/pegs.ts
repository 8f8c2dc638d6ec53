import type { Estimate } from '../../estimate/answer.ts'
import { PEGGED_PLACE, type PeggedPlace } from '../../estimate/pegs/answer.ts'
import { columnsOf } from '../columns.ts'
import { type ColumnOf, length, text } from '../table.ts'

const ofPlace = columnsOf(PEGGED_PLACE, (row: PeggedPlace) => row)

export const PEG_COLUMNS: readonly ColumnOf<PeggedPlace>[] = [
  ...ofPlace('track', 'what', 'element', 'atMm', 'xMm', 'yMm', 'elevationMm'),
  text('firstPeg', 'First peg', ({ pegOut }) => pegOut?.first.peg ?? null),
  length('firstLevelMm', 'From the first, level', ({ pegOut }) => pegOut?.first.levelMm ?? null),
  length('firstSlopeMm', 'From the first, along the slope', ({ pegOut }) => pegOut?.first.slopeMm ?? null),
  text('secondPeg', 'Second peg', ({ pegOut }) => pegOut?.second.peg ?? null),
  length('secondLevelMm', 'From the second, level', ({ pegOut }) => pegOut?.second.levelMm ?? null),
  length('secondSlopeMm', 'From the second, along the slope', ({ pegOut }) => pegOut?.second.slopeMm ?? null),
  text('side', 'Side of the line between them', ({ pegOut }) => pegOut?.side ?? null),
  length('errorMm', 'Error of the tapes', ({ pegOut }) => pegOut?.errorMm ?? null),
]

/** Every place that is marked from pegs; none for a plan without any. */
export function pegRows({ pegOuts = [] }: Estimate): readonly PeggedPlace[] {
  return pegOuts
}
