import {
  ESTIMATE,
  ESTIMATE_PARTS,
  type Estimate,
  type EstimatePart,
  PARTIAL_ESTIMATE,
  partsOf,
} from '../../estimate/answer.ts'
import { meant } from '../../measure/meant.ts'
import { either } from '../../plan/fields/answer.ts'
import { answerSchema } from '../answers/schema.ts'
import { namesParameter } from './query.ts'

/** No list of all names is longer. */
const LONGEST = 500

/** The query parameter that names the parts of an estimate to answer. */
export const FIELDS = namesParameter('EstimateFields', ESTIMATE_PARTS, {
  what: 'a part of an estimate',
  longest: LONGEST,
  example: ['bill', 'findings'],
  description:
    'The parts of the estimate to answer, with commas between: bill,findings. Work that no other part needs is not done. The whole estimate when left out.',
})

/** The estimate, or the parts that `fields` names. */
export const ESTIMATE_ANSWER = answerSchema(either(ESTIMATE, PARTIAL_ESTIMATE))

/** What is answered of an estimate. */
export function answeredParts(estimate: Estimate, fields: readonly EstimatePart[] | undefined): Partial<Estimate> {
  return meant(fields === undefined ? estimate : partsOf(estimate, fields))
}
