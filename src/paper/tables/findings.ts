import { FINDING, type Finding } from '../../checking/finding.ts'
import { columnsOf } from '../columns.ts'

/** What is measured stands in its own unit, whatever lengths are asked in. */
export const FINDING_COLUMNS = columnsOf(FINDING, (finding: Finding) => finding)(
  'rule',
  'severity',
  'track',
  'element',
  'message',
  'measured',
  'limit',
  'unit',
  'cure',
)
