import type { Estimate, StandingAnswer } from '../../estimate/answer.ts'
import { STANDING } from '../../network/standing-answer.ts'
import { columnsOf } from '../columns.ts'
import { type ColumnOf, text } from '../table.ts'

const ofStanding = columnsOf(STANDING, (row: StandingAnswer) => row)

export const STANDING_COLUMNS: readonly ColumnOf<StandingAnswer>[] = [
  ...ofStanding('track', 'fromMm', 'toMm', 'clearMm', 'cars'),
  text('trains', 'Trains', ({ trains }) => trains.join(', ')),
  text('pairs', 'Two trains', ({ pairs }) => pairs.map(({ first, second }) => `${first} and ${second}`).join(', ')),
]

/** None of a plan without cars and without a spacing of tracks. */
export function standingRows({ standing = [] }: Estimate): readonly StandingAnswer[] {
  return standing
}
