import type { Fault } from '../../measure/fault.ts'
import { draftOf } from '../../plan/reading/draft.ts'
import { faultsOf } from '../../plan/reading/issues.ts'
import { currencyIn, priceFaults } from '../../plan/reading/prices.ts'
import { envelopeOf, readable } from '../../plan/reading/schema.ts'
import { comparisonBulkFaults, oversizeFaults, tooMany } from '../../plan/reading/size.ts'
import { listAt, valueAt } from '../../plan/reading/value-at.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import { COMPARISON } from '../../plan/rows/questions.ts'
import { MATERIAL, temper } from '../../plan/rows/rail.ts'
import { STICK } from '../../plan/rows/supplies.ts'
import { inPlan, mergedFaults, readPlan } from '../read-plan.ts'
import { type ComparisonInput, choiceFaults, type MaterialChoiceDraft, planWithChoice } from './compare.ts'

const Envelope = envelopeOf(COMPARISON, 'plan')

export type ReadComparison =
  | { readonly ok: true; readonly asked: ComparisonInput }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Reads a comparison, with every fault of the plan, of each material and between them at once. */
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
  const currency = currencyIn(valueAt(written, ['supplies']))
  const faults = mergedFaults(found, [...between, ...choicePriceFaults(raw, currency)])
  if (!envelope.success || !plan?.ok || faults.length > 0) return { ok: false, faults }
  const choices = envelope.data.materials
  const tooLarge = comparisonBulkFaults(choices.map((choice) => planWithChoice(plan.plan, choice)))
  return tooLarge.length > 0 ? { ok: false, faults: tooLarge } : { ok: true, asked: { plan: plan.plan, choices } }
}

/** Lists that are too long are refused without further checks, as in a plan. */
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
      'leave out lengths that are not bought',
    ),
  )
}

function choicePriceFaults(raw: unknown, currency: string | null): Fault[] {
  return listAt(raw, ['materials']).flatMap((choice, index) =>
    listAt(choice, ['sticks']).flatMap((stick, n) =>
      priceFaults(STICK, stick, currency).map((fault) => ({
        ...fault,
        path: ['materials', index, 'sticks', n, ...fault.path],
      })),
    ),
  )
}

/** As much of a choice as can be read; null without a material. */
function choiceDraftOf(raw: unknown): MaterialChoiceDraft | null {
  const material = readable(MATERIAL, valueAt(raw, ['material']))
  if (material === null) return null
  const given = valueAt(raw, ['sticks'])
  return {
    material,
    temper: readable(temper, valueAt(raw, ['temper'])) ?? undefined,
    sticks: Array.isArray(given) && given.length > 0 ? given.map((stick) => readable(STICK, stick)) : undefined,
  }
}
