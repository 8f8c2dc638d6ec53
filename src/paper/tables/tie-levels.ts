import type { Estimate } from '../../estimate/answer.ts'
import { TIE_LEVEL, type TieLevel } from '../../estimate/track/tie-levels.ts'
import { columnsOf } from '../columns.ts'
import type { ColumnOf } from '../table.ts'

const ofTie = columnsOf(TIE_LEVEL, (row: TieLevel) => row)

export const TIE_LEVEL_COLUMNS: readonly ColumnOf<TieLevel>[] = ofTie(
  'track',
  'tie',
  'atMm',
  'elevationMm',
  'undersideMm',
  'groundMm',
  'shimMm',
)

export function tieLevelRows({ tieLevels }: Estimate): readonly TieLevel[] {
  return tieLevels?.ties ?? []
}
