import { z } from '@hono/zod-openapi'
import type { PlanInput } from '../../estimate/plan.ts'
import { type SettingOut, USUAL_INTERVAL_SHOWN } from '../../estimate/questions/setting-out.ts'
import type { Fault } from '../../measure/fault.ts'
import { AssumptionSchema } from './estimate.ts'
import { fields } from './fields.ts'
import { faultsOf } from './issues.ts'
import { LENGTH, lengthLeaf } from './measures.ts'
import { PlanSchema } from './plan.ts'
import { pegFaults } from './plan-size.ts'
import { inPlan } from './project.ts'
import { readPlan } from './read-plan.ts'
import type { Same } from './same-type.ts'

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

const number = z.number()
const count = z.int().min(0)
const Side = z.enum(['left', 'right'])
const said = (description: string) => ({ description })

const OffsetSchema = z.object({ alongMm: number, offsetMm: number }).openapi('PegOffset')

const PegSchema = z
  .object({
    stationMm: number.openapi(said('Along the track from its start, horizontal.')),
    atMm: number.openapi(said('Along the curve from its beginning.')),
    xMm: number,
    yMm: number,
    headingDeg: number.openapi(said('Of the track there, in [0, 360).')),
    radiusMm: number.nullable().openapi(said('Of the centre line there; null where it is straight.')),
    tangent: OffsetSchema.nullable().openapi(
      said(
        "Along the tangent at the curve's beginning and square off it, + to the side of `turn`; null once the curve has turned more than 90°.",
      ),
    ),
    longChord: OffsetSchema.nullable().openapi(
      said(
        "Along the straight line from the curve's beginning to its end and square off it, + away from the side of `turn`; null where the curve turns more than 180°.",
      ),
    ),
    deflectionDeg: number.openapi(
      said(
        "At the curve's beginning, from its tangent to the line of sight to the peg, + to the side of `turn`, in (−180, 180].",
      ),
    ),
    chordFromStartMm: number,
    chordFromPreviousMm: number,
  })
  .openapi('Peg', said('A peg on the centre line.'))

const CurveSchema = z
  .object({
    element: count,
    kind: z.enum(['arc', 'easement']),
    label: z.string().nullable(),
    turn: Side,
    fromMm: number,
    toMm: number,
    lengthMm: number,
    pegs: z.array(PegSchema),
  })
  .openapi('SettingOutCurve', said('An arc or easement with its pegs, both ends among them.'))

export const SettingOutSchema = z
  .object({
    intervalMm: number,
    tracks: z.array(
      z
        .object({ name: z.string(), label: z.string().nullable(), curves: z.array(CurveSchema) })
        .openapi('SettingOutTrack'),
    ),
    assumptions: z.array(AssumptionSchema).openapi(said('Fields are pointers into the request.')),
  })
  .openapi('SettingOut')

true satisfies Same<z.output<typeof SettingOutSchema>, SettingOut>
