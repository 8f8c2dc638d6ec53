import type { Estimate } from '../../estimate/answer.ts'
import { ENVELOPE, type EnvelopeAnswer } from '../../network/envelope-answer.ts'
import { columnsOf } from '../columns.ts'
import type { ColumnOf } from '../table.ts'

const ofEnvelope = columnsOf(ENVELOPE, (row: EnvelopeAnswer) => row)

export const ENVELOPE_COLUMNS: readonly ColumnOf<EnvelopeAnswer>[] = ofEnvelope(
  'track',
  'atMm',
  'leftMm',
  'leftCar',
  'rightMm',
  'rightCar',
)

/** None of a plan without cars. */
export function envelopeRows({ envelope = [] }: Estimate): readonly EnvelopeAnswer[] {
  return envelope
}
