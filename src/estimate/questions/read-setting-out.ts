import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { elementLengthMm } from '../../plan/elements.ts'
import { faultsOf } from '../../plan/reading/issues.ts'
import { envelopeOf } from '../../plan/reading/schema.ts'
import { valueAt } from '../../plan/reading/value-at.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import { SETTING_OUT } from '../../plan/rows/questions.ts'
import { inPlan, readPlan } from '../read-plan.ts'
import { USUAL_INTERVAL_MM } from './setting-out.ts'

export type ReadSettingOut =
  | { readonly ok: true; readonly plan: PlanInput; readonly intervalMm: number | undefined }
  | { readonly ok: false; readonly faults: readonly Fault[] }

const Envelope = envelopeOf(SETTING_OUT, 'plan')

/** Reads a setting-out request, with every fault of the plan and around it at once. */
export function readSettingOut(raw: unknown): ReadSettingOut {
  const envelope = Envelope.safeParse(raw)
  const faults = envelope.success ? [] : faultsOf(envelope.error.issues, raw)
  const written = valueAt(raw, ['plan'])
  const plan = written === undefined ? null : readPlan(written)
  if (plan && !plan.ok) faults.push(...plan.faults.map(inPlan))
  if (!envelope.success || !plan?.ok || faults.length > 0) return { ok: false, faults }
  const intervalMm = envelope.data.interval
  const tooMany = pegFaults(plan.plan, intervalMm)
  return tooMany.length > 0 ? { ok: false, faults: tooMany } : { ok: true, plan: plan.plan, intervalMm }
}

/** Whether the curves would need more pegs than one answer can hold. */
function pegFaults({ tracks }: PlanInput, intervalMm: number | undefined): Fault[] {
  const lengthsMm = tracks.flatMap(({ elements }) =>
    elements.filter(({ kind }) => kind === 'arc' || kind === 'easement').map((curve) => elementLengthMm(curve)),
  )
  // Both ends of each curve, and the round stations between them.
  const ends = 2 * lengthsMm.length
  const everyMm = intervalMm ?? USUAL_INTERVAL_MM
  const pegs = lengthsMm.reduce((count, lengthMm) => count + Math.floor(lengthMm / everyMm), ends)
  if (pegs <= LIMITS.pegs) return []
  const totalMm = lengthsMm.reduce((sum, lengthMm) => sum + lengthMm, 0)
  const leastMm = Math.ceil(totalMm / (LIMITS.pegs - ends))
  return [
    {
      path: ['interval'],
      code: 'too-many',
      detail: `${pegs} pegs ${formatMm(everyMm, 3)} apart would be needed; the limit is ${LIMITS.pegs}`,
      hint: `use an interval of ${formatMm(leastMm)} or more`,
    },
  ]
}
