import type { CutListProblem } from '../../laying/cutting/cut-list.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { inPlaces, minorUnitsOf, placesOf } from '../../measure/money.ts'
import { type Assumption, completed } from '../../plan/fields/complete.ts'
import { suppliesDraftOf } from '../../plan/reading/draft.ts'
import { faultsOf } from '../../plan/reading/issues.ts'
import { currencyIn, priceFaults } from '../../plan/reading/prices.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { tooMany } from '../../plan/reading/size.ts'
import { listAt } from '../../plan/reading/value-at.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import { CUT_PLAN } from '../../plan/rows/questions.ts'
import { planFaults } from '../faults/faults.ts'
import { mergedFaults } from '../read-plan.ts'

export type ReadCutPlan =
  | {
      readonly ok: true
      readonly problem: CutListProblem
      readonly currency: string
      readonly assumptions: Assumption[]
    }
  | { readonly ok: false; readonly faults: readonly Fault[] }

const SPLIT = 'split it into several cut plans'

/** Reads a cut plan request, with every fault in and between its fields at once. */
export function readCutPlan(raw: unknown): ReadCutPlan {
  const oversized = [
    ...tooMany(['runs'], listAt(raw, ['runs']).length, LIMITS.runs, 'entries', SPLIT),
    ...tooMany(['sticks'], listAt(raw, ['sticks']).length, LIMITS.stickLengths, 'entries', SPLIT),
  ]
  if (oversized.length > 0) return { ok: false, faults: oversized }
  const ofSupplies = planFaults({ tracks: [], supplies: suppliesDraftOf(raw) }).map(({ path, ...fault }) => ({
    ...fault,
    path: path.slice(1),
  }))
  const between = [...ofSupplies, ...priceFaults(CUT_PLAN, raw, currencyIn(raw))]
  const parsed = schemaOf(CUT_PLAN).safeParse(raw)
  if (!parsed.success) return { ok: false, faults: mergedFaults(faultsOf(parsed.error.issues, raw), between) }
  const assumptions: Assumption[] = []
  const places = placesOf(currencyIn(raw)!)
  const { runs, sticks, currency, kerf, minimumPiece, joinerPrice, effort } = completed(
    CUT_PLAN,
    parsed.data,
    '',
    (field, value, reason) =>
      assumptions.push({ field, value: field === '/joinerPrice' ? inPlaces(value, places) : value, reason }),
    { currency: 'silent' },
  )
  const problem: CutListProblem = {
    runs: runs.map(({ length }) => ({ lengthMm: length })),
    sticks: sticks.map(({ length, price, onHand }) => ({
      lengthMm: length,
      priceCents: minorUnitsOf(inPlaces(price, places)),
      onHand,
    })),
    kerfMm: kerf,
    minimumPieceMm: minimumPiece,
    joinerCents: minorUnitsOf(inPlaces(joinerPrice, places)),
    effort,
  }
  const faults = [...between, ...bulkFaults(problem)]
  return faults.length === 0 ? { ok: true, problem, currency, assumptions } : { ok: false, faults }
}

/** Whether there would be more sticks than one answer can hold if all were as short as allowed. */
function bulkFaults({ runs, sticks, minimumPieceMm }: CutListProblem): Fault[] {
  const lengthMm = runs.reduce((sum, run) => sum + run.lengthMm, 0)
  const shortestMm = Math.max(minimumPieceMm, Math.min(...sticks.map((stick) => stick.lengthMm)))
  const count = Math.ceil(lengthMm / shortestMm)
  return tooMany(['sticks'], count, LIMITS.sticks, `sticks of ${formatMm(shortestMm)} would be needed`, SPLIT)
}
