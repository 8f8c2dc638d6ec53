import type { Estimate } from '../../estimate/answer.ts'
import { OVER_CROSSING, type OverCrossingAnswer } from '../../network/over-crossing-answer.ts'
import { columnsOf } from '../columns.ts'
import type { ColumnOf } from '../table.ts'

const ofCrossing = columnsOf(OVER_CROSSING, (row: OverCrossingAnswer) => row)

export const OVER_CROSSING_COLUMNS: readonly ColumnOf<OverCrossingAnswer>[] = ofCrossing(
  'over',
  'overAtMm',
  'under',
  'underAtMm',
  'angleDeg',
  'clearMm',
  'neededMm',
  'squareSpanMm',
  'abutmentFromMm',
  'abutmentToMm',
)

/** None where no track passes over another. */
export function overCrossingRows({ overCrossings = [] }: Estimate): readonly OverCrossingAnswer[] {
  return overCrossings
}
