import { FINDING, type Finding } from '../../checking/finding.ts'
import { columnsOf } from '../columns.ts'

/** Measured values keep their own unit, whatever unit lengths have. */
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
