import { z } from '@hono/zod-openapi'
import type { PlanInput } from '../../estimate/plan.ts'
import { USUAL_INTERVAL_SHOWN } from '../../estimate/questions/setting-out.ts'
import type { Fault } from '../../measure/fault.ts'
import { fields } from './fields.ts'
import { faultsOf } from './issues.ts'
import { LENGTH, lengthLeaf } from './measures.ts'
import { PlanSchema } from './plan.ts'
import { pegFaults } from './plan-size.ts'
import { inPlan } from './project.ts'
import { readPlan } from './read-plan.ts'

const PegInterval = lengthLeaf(
  'PegInterval',
  LENGTH,
  `Between pegs, along the centre line; ${USUAL_INTERVAL_SHOWN} when left out.`,
)

/** What a client asks, as the OpenAPI document shows it. */
export const SettingOutRequestSchema = fields({ plan: PlanSchema, interval: PegInterval.optional() }).openapi(
  'SettingOutRequest',
  { description: 'A plan, and how far apart the pegs of its curves shall stand.' },
)

const Envelope = fields({ plan: z.unknown(), interval: PegInterval.optional() })

export type ReadSettingOut =
  | { readonly ok: true; readonly plan: PlanInput; readonly intervalMm: number | undefined }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Reads what is to be set out, with every fault of the plan and around it at one go. */
export function readSettingOut(raw: unknown): ReadSettingOut {
  const envelope = Envelope.safeParse(raw)
  const faults = envelope.success ? [] : faultsOf(envelope.error.issues, raw)
  const written = (raw as { plan?: unknown } | null)?.plan
  const plan = written === undefined ? null : readPlan(written)
  if (plan && !plan.ok) faults.push(...plan.faults.map(inPlan))
  if (!envelope.success || !plan?.ok || faults.length > 0) return { ok: false, faults }
  const intervalMm = envelope.data.interval
  const tooMany = pegFaults(plan.plan, intervalMm)
  return tooMany.length > 0 ? { ok: false, faults: tooMany } : { ok: true, plan: plan.plan, intervalMm }
}
