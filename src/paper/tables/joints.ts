import { JOINT, type JointAnswer } from '../../estimate/track/joints-answer.ts'
import { columnsOf } from '../columns.ts'

export const JOINT_COLUMNS = columnsOf(JOINT, (joint: JointAnswer) => joint)(
  'track',
  'rail',
  'stationMm',
  'atMm',
  'kind',
  'gapMm',
  'gapInch64',
  'gapColdestMm',
  'gapHottestMm',
)
