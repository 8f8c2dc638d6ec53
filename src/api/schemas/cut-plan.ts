import { z } from '@hono/zod-openapi'
import { DEFAULTS } from '../../estimate/complete-plan.ts'
import { planFaults } from '../../estimate/faults.ts'
import type { Assumption } from '../../estimate/plan.ts'
import type { CutListProblem } from '../../laying/cutting/cut-list.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { centsOf } from '../../measure/money.ts'
import { fields } from './fields.ts'
import { faultsOf } from './issues.ts'
import { LIMITS } from './plan.ts'
import { suppliesDraftOf } from './plan-draft.ts'
import { EffortName, Kerf, Label, Length, MinimumPiece, OnHand, PriceOfOne } from './plan-fields.ts'
import { withMore } from './read-plan.ts'
import { listAt } from '../../plan/reading/value-at.ts'

/** What stands where a cut plan says nothing of joiners. */
const NO_PRICE = '0.00'

const RunSchema = fields({ name: Label.optional(), length: Length }).openapi('CutPlanRun', {
  description: 'A length of rail that is to be made up; its name is for whoever reads the request.',
})

const StickToCutSchema = fields({ length: Length, price: PriceOfOne, onHand: OnHand.optional() }).openapi(
  'CutPlanStick',
  { description: 'A length rail is sold in, singly, and how many of it lie in the shed and cost nothing.' },
)

export const CutPlanRequestSchema = fields({
  runs: z.array(RunSchema).min(1).max(LIMITS.runs),
  sticks: z.array(StickToCutSchema).min(1).max(LIMITS.stickLengths),
  kerf: Kerf.optional(),
  minimumPiece: MinimumPiece.optional(),
  joinerPrice: PriceOfOne.optional(),
  effort: EffortName.optional(),
}).openapi('CutPlanRequest', {
  description: `Runs to be cut from sticks, each made of pieces joined end to end. At most ${LIMITS.runs} runs, ${LIMITS.stickLengths} stick lengths and ${LIMITS.sticks} sticks.`,
})

export type ReadCutPlan =
  | { readonly ok: true; readonly problem: CutListProblem; readonly assumptions: Assumption[] }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Reads what is to be cut, with every fault it has, those of its fields and those between them, at one go. */
export function readCutPlan(raw: unknown): ReadCutPlan {
  const oversized = [
    ...tooMany(['runs'], listAt(raw, ['runs']).length, LIMITS.runs, 'entries'),
    ...tooMany(['sticks'], listAt(raw, ['sticks']).length, LIMITS.stickLengths, 'entries'),
  ]
  if (oversized.length > 0) return { ok: false, faults: oversized }
  const between = planFaults({ tracks: [], supplies: suppliesDraftOf(raw) }).map(({ path, ...fault }) => ({
    ...fault,
    path: path.slice(1),
  }))
  const parsed = CutPlanRequestSchema.safeParse(raw)
  if (!parsed.success) return { ok: false, faults: withMore(faultsOf(parsed.error.issues, raw), between) }
  const { runs, sticks, kerf, minimumPiece, joinerPrice, effort } = parsed.data
  const problem: CutListProblem = {
    runs: runs.map(({ length }) => ({ lengthMm: length })),
    sticks: sticks.map(({ length, price, onHand }) => ({
      lengthMm: length,
      priceCents: centsOf(price),
      onHand: onHand ?? DEFAULTS.onHand,
    })),
    kerfMm: kerf ?? DEFAULTS.kerfMm,
    minimumPieceMm: minimumPiece ?? DEFAULTS.minimumPieceMm,
    joinerCents: centsOf(joinerPrice ?? NO_PRICE),
    effort: effort ?? DEFAULTS.effort,
  }
  const faults = [...between, ...bulkFaults(problem)]
  if (faults.length > 0) return { ok: false, faults }
  return { ok: true, problem, assumptions: assumptionsOf(parsed.data) }
}

function assumptionsOf(given: z.output<typeof CutPlanRequestSchema>): Assumption[] {
  const usual: [name: keyof typeof given, value: string, reason: string][] = [
    ['kerf', formatMm(DEFAULTS.kerfMm), 'a thin saw or cutting disc'],
    ['minimumPiece', formatMm(DEFAULTS.minimumPieceMm), 'shorter pieces hold no line'],
    ['joinerPrice', NO_PRICE, 'not given: joints cost nothing'],
    ['effort', DEFAULTS.effort, 'a sound cut plan at once'],
  ]
  return [
    ...given.sticks.flatMap(({ onHand }, index) =>
      onHand === undefined
        ? [{ field: `/sticks/${index}/onHand`, value: String(DEFAULTS.onHand), reason: 'nothing in the shed' }]
        : [],
    ),
    ...usual.flatMap(([name, value, reason]) =>
      given[name] === undefined ? [{ field: `/${name}`, value, reason }] : [],
    ),
  ]
}

/** Whether there would be more sticks than one answer can hold, were they all as short as they may be. */
function bulkFaults({ runs, sticks, minimumPieceMm }: CutListProblem): Fault[] {
  const lengthMm = runs.reduce((sum, run) => sum + run.lengthMm, 0)
  const shortestMm = Math.max(minimumPieceMm, Math.min(...sticks.map((stick) => stick.lengthMm)))
  const count = Math.ceil(lengthMm / shortestMm)
  return tooMany(['sticks'], count, LIMITS.sticks, `sticks of ${formatMm(shortestMm)} would be needed`)
}

function tooMany(path: Fault['path'], count: number, most: number, what: string): Fault[] {
  if (count <= most) return []
  const hint = 'make it more than one cut plan'
  return [{ path, code: 'too-many', detail: `${count} ${what}; ${most} is the most`, hint }]
}
