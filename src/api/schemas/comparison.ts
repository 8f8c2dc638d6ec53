import { z } from '@hono/zod-openapi'
import {
  type ComparisonInput,
  choiceFaults,
  type MaterialChoice,
  type MaterialChoiceDraft,
  planIn,
} from '../../estimate/questions/compare.ts'
import type { Fault } from '../../measure/fault.ts'
import { fields } from './fields.ts'
import { faultsOf } from './issues.ts'
import { LIMITS, PlanSchema, Stick } from './plan.ts'
import { draftOf, readable } from './plan-draft.ts'
import { TemperName } from './plan-fields.ts'
import { comparisonBulkFaults, oversizeFaults, tooMany } from './plan-size.ts'
import { inPlan } from './project.ts'
import { MaterialSchema, toMaterial } from './rail.ts'
import { readPlan, withMore } from './read-plan.ts'
import { toStick } from './to-plan-input.ts'
import { listAt, valueAt } from '../../plan/reading/value-at.ts'

const ChoiceSchema = fields({
  material: MaterialSchema,
  temper: TemperName.optional(),
  sticks: z.array(Stick).min(1).max(LIMITS.stickLengths).optional(),
}).openapi('MaterialChoice', {
  description:
    "Rail the plan might be built of; the section is the plan's. Where the material is the plan's own, its temper, test bends, sticks, prices and stock hold unless others are given. Of another metal without sticks of its own only the plan's lengths hold, unpriced, none on hand.",
})

const Choices = z.array(ChoiceSchema).min(1).max(LIMITS.comparedMaterials)

/** What a client asks, as the OpenAPI document shows it. */
export const ComparisonRequestSchema = fields({ plan: PlanSchema, materials: Choices }).openapi('ComparisonRequest', {
  description: 'A plan, and the materials to work it out in.',
})

const Envelope = fields({ plan: z.unknown(), materials: Choices })

export type ReadComparison =
  | { readonly ok: true; readonly asked: ComparisonInput }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Reads what is to be compared, with every fault of the plan, of each material and between them at one go. */
export function readComparison(raw: unknown): ReadComparison {
  const oversized = oversizedChoices(raw)
  if (oversized.length > 0) return { ok: false, faults: oversized }
  const envelope = Envelope.safeParse(raw)
  const found = envelope.success ? [] : faultsOf(envelope.error.issues, raw)
  const written = valueAt(raw, ['plan'])
  const plan = written === undefined ? null : readPlan(written)
  if (plan && !plan.ok) found.push(...plan.faults.map(inPlan))
  const looked = plan?.ok ? plan.plan : draftOf(oversizeFaults(written).length > 0 ? undefined : written)
  const between = choiceFaults(looked, listAt(raw, ['materials']).map(choiceDraftOf))
  const faults = withMore(found, between)
  if (!envelope.success || !plan?.ok || faults.length > 0) return { ok: false, faults }
  const choices = envelope.data.materials.map(toChoice)
  const tooLarge = comparisonBulkFaults(choices.map((choice) => planIn(plan.plan, choice)))
  return tooLarge.length > 0 ? { ok: false, faults: tooLarge } : { ok: true, asked: { plan: plan.plan, choices } }
}

/** Lists that are too long are refused for their size alone, as those of a plan are. */
function oversizedChoices(raw: unknown): Fault[] {
  const choices = listAt(raw, ['materials'])
  const tooLong = tooMany(
    ['materials'],
    choices.length,
    LIMITS.comparedMaterials,
    'materials',
    'compare fewer at a time',
  )
  if (tooLong.length > 0) return tooLong
  return choices.flatMap((choice, index) =>
    tooMany(
      ['materials', index, 'sticks'],
      listAt(choice, ['sticks']).length,
      LIMITS.stickLengths,
      'lengths',
      'leave out the ones nobody buys',
    ),
  )
}

function toChoice({ material, temper, sticks }: z.output<typeof ChoiceSchema>): MaterialChoice {
  return { material: toMaterial(material), temper, sticks: sticks?.map(toStick) }
}

/** As much of a choice as can be read; null without a material. */
function choiceDraftOf(raw: unknown): MaterialChoiceDraft | null {
  const material = readable(MaterialSchema, valueAt(raw, ['material']), toMaterial)
  if (material === null) return null
  const given = valueAt(raw, ['sticks'])
  return {
    material,
    temper: readable(TemperName, valueAt(raw, ['temper']), (name) => name) ?? undefined,
    sticks:
      Array.isArray(given) && given.length > 0 ? given.map((stick) => readable(Stick, stick, toStick)) : undefined,
  }
}
