import { type Answer, component, list, nullable, object, text, word } from '../plan/fields/answer.ts'
import { fieldAt } from '../plan/fields/at.ts'
import type { Field } from '../plan/fields/field.ts'
import { SEVERITIES } from '../plan/finding.ts'
import { PLAN } from '../plan/rows/plan.ts'
import { FINDINGS, type RuleRow } from './finding-catalogue.ts'

const RULE = component('Rule', 'A rule that plans, curves and bends are checked against.', {
  rule: text({ says: 'As findings name it.', vocabulary: 'rules' }),
  severities: list(word(SEVERITIES), 'How severe its findings can be, the most severe first.'),
  when: text('When there is a finding.'),
  source: text('Where the rule, or its limit, comes from.'),
  limits: list(
    object({
      field: text('The field of a plan, by its place; [] for each of a list.'),
      unlessGiven: nullable(text('What holds where the plan leaves it out.')),
    }),
    'The fields of a plan that set its limit or decide whether it is checked.',
  ),
})

export const RULES = component('Rules', 'The rules of findings.', { items: list(RULE) })

/** Every rule with its source and the fields that its limit follows. */
export function rulesAnswer(): Answer<typeof RULES> {
  const items = Object.entries<RuleRow>(FINDINGS).map(([rule, { severities, when, source, fields = [] }]) => ({
    rule,
    severities: [...severities],
    when,
    source,
    limits: fields.map((field) => ({ field, unlessGiven: unlessGiven(planField(field)) })),
  }))
  return { items }
}

/** Throws if a plan has no such field. */
function planField(place: string): Field {
  const field = fieldAt(PLAN, place.replaceAll('[]', '.0').split('.'))
  if (!field) throw new Error(`a plan has no field ${place}`)
  return field
}

function unlessGiven(field: Field): string | null {
  if (field.is !== 'value') return null
  const { usual, show, blank } = field
  if (!usual) return blank ?? null
  const shown = usual.shown ?? show(usual.value)
  return usual.because === null ? shown : `${shown}: ${usual.because}`
}
