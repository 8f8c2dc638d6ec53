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
import { accepted, type Read, refused } from '../../plan/fields/read.ts'
import { readChoice } from '../../plan/fields/words.ts'
import { leaf } from '../../plan/reading/schema.ts'
import { answerSchema } from '../answers/schema.ts'

/** No list of all names is longer. */
const LONGEST = 500

function read(value: unknown): Read<EstimatePart[]> {
  if (Array.isArray(value))
    return refused('repeated-parameter', `it is given ${value.length} times`, 'write the names with commas between')
  const text = String(value)
  if (text.length > LONGEST)
    return refused('too-long', `it has ${text.length} characters; at most ${LONGEST} are allowed`)
  const parts: EstimatePart[] = []
  for (const name of text.split(',')) {
    const part = readChoice(name.trim(), ESTIMATE_PARTS, 'a part of an estimate')
    if (!part.ok) return part
    parts.push(part.value)
  }
  return accepted(parts)
}

/** The query parameter that names the parts of an estimate to answer. */
export const FIELDS = leaf('EstimateFields', read, {
  type: 'array',
  items: { type: 'string', enum: [...ESTIMATE_PARTS] },
  example: ['bill', 'findings'],
})
  .optional()
  .openapi({
    param: {
      style: 'form',
      explode: false,
      description:
        'The parts of the estimate to answer, with commas between: bill,findings. Work that no other part needs is not done. The whole estimate when left out.',
    },
  })

/** The estimate, or the parts that `fields` names. */
export const ESTIMATE_ANSWER = answerSchema(either(ESTIMATE, PARTIAL_ESTIMATE))

/** What is answered of an estimate. */
export function answeredParts(estimate: Estimate, fields: readonly EstimatePart[] | undefined): Partial<Estimate> {
  return meant(fields === undefined ? estimate : partsOf(estimate, fields))
}
