import type { JointAnswer } from '../../estimate/answer.ts'
import { type ColumnOf, length, text } from '../table.ts'

export const JOINT_COLUMNS: readonly ColumnOf<JointAnswer>[] = [
  text('track', 'Track', ({ track }) => track),
  text('rail', 'Rail', ({ rail }) => rail),
  length('stationMm', 'Along the track', ({ stationMm }) => stationMm),
  length('atMm', 'Along the rail', ({ atMm }) => atMm),
  text('kind', 'Joint', ({ kind }) => kind),
  length('gapMm', 'Gap at laying', ({ gapMm }) => gapMm),
  text('gapInch64', 'Gap at laying, nearest 1/64 in', ({ gapInch64 }) => gapInch64),
  length('gapColdestMm', 'Gap at the coldest', ({ gapColdestMm }) => gapColdestMm),
  length('gapHottestMm', 'Gap at the hottest', ({ gapHottestMm }) => gapHottestMm),
]
