import { buildFigure } from '../estimate/questions/build-figure.ts'
import { planWithChoice } from '../estimate/questions/compare.ts'
import { USUAL_INTERVAL_MM } from '../estimate/questions/setting-out.ts'
import { trackMm, workOf, workOfCutList } from '../estimate/work.ts'
import { FIT } from '../plan/fields/kinds.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import type { SurveyInput } from '../plan/rows/survey.ts'
import { Elsewhere } from './elsewhere.ts'
import { inThisThread } from './in-this-thread.ts'
import type { Workers } from './workers.ts'

/*
 * What the thread that answers requests does itself. Everything that could keep it from answering others for longer than
 * some milliseconds belongs in a worker thread, together with reading the request before it and writing the answer after it.
 */

/** Estimated milliseconds (`workOf`), which is about twice what small plans take. */
const MOST_WORK = 30
/** Of a body: as much as a plan of 100 elements. Reading it takes two milliseconds. */
const MOST_BYTES = 16 * 1024
/** Numbers, texts and so on in a plan that is stored. */
const MOST_VALUES = 800
/** Stations to line; ten take up to 50 ms where something stands out, and twenty 0.2 s. */
const MOST_READINGS = 10
/** Readings of a survey, each of which may bring a point of its own. */
const MOST_SURVEYED = 60
/** Curves to set out, and pegs along them: 10,000 take a tenth of a second. */
const MOST_CURVES = 20
const MOST_PEGS = 2_000
/** Elements of a track to be doubled, whose easements are solved for. */
const MOST_DOUBLED = 20

/** Throws `Elsewhere` for a body that takes long to read. */
export function refuseBytes(bytes: number): void {
  if (bytes > MOST_BYTES) throw new Elsewhere()
}

/** Throws `Elsewhere` for what takes long to read, check or show. */
export function refuseLarge(value: unknown): void {
  if (takesLong(value, { left: MOST_VALUES })) throw new Elsewhere()
}

function takesLong(value: unknown, values: { left: number }): boolean {
  if (typeof value !== 'object' || value === null) return false
  values.left -= 1
  if (values.left < 0) return true
  // What test bends say of a metal has to be searched for.
  if ('calibration' in value && Array.isArray(value.calibration) && value.calibration.length > 0) return true
  // So do the lengths and paths that are left to be fitted.
  if ('kind' in value && value.kind === 'connect') return true
  return Object.values(value).some((each) => {
    if (each === FIT) return true
    values.left -= 1
    return values.left < 0 || takesLong(each, values)
  })
}

/** Does what is quick, and throws `Elsewhere` for everything else. */
export const HERE: Omit<Workers, 'foreseeBuilding'> = {
  refuseLarge,
  refuseHere: () => {
    throw new Elsewhere()
  },
  estimate: (stocked) => {
    refuseWork(workOf(stocked.plan))
    return inThisThread.estimate(stocked)
  },
  billSince: (revisions) => {
    // Each is planned twice.
    refuseWork(2 * total(revisions.map(({ plan }) => plan)))
    return inThisThread.billSince(revisions)
  },
  compareMaterials: (input) => {
    refuseWork(total(input.choices.map((choice) => planWithChoice(input.plan, choice))))
    return inThisThread.compareMaterials(input)
  },
  planCutList: (problem) => {
    refuseWork(workOfCutList(problem))
    return inThisThread.planCutList(problem)
  },
  checkBend: (input) => {
    if (input.readingsMm.length > MOST_READINGS) throw new Elsewhere()
    return inThisThread.checkBend(input)
  },
  bendCurve: inThisThread.bendCurve,
  calibrate: () => {
    throw new Elsewhere()
  },
  setOut: (plan, intervalMm) => {
    const curves = plan.tracks.reduce((sum, { elements }) => sum + elements.length, 0)
    const pegs = trackMm(plan.tracks) / (intervalMm ?? USUAL_INTERVAL_MM)
    if (curves > MOST_CURVES || pegs > MOST_PEGS) throw new Elsewhere()
    return inThisThread.setOut(plan, intervalMm)
  },
  figure: (question) => {
    const { asked, plan } = question
    if ((asked.elements?.length ?? 0) > MOST_DOUBLED) throw new Elsewhere()
    const built = buildFigure(question)
    if (built.ok) refuseWork(workOf({ ...plan, tracks: built.tracks }))
    return inThisThread.figure(question)
  },
  // Each way is an estimate of its own.
  fitOptions: () => {
    throw new Elsewhere()
  },
  moveTrack: (asked) => {
    refuseWork(workOf(asked.plan))
    return inThisThread.moveTrack(asked)
  },
  survey: (input) => {
    if (readingsIn(input) > MOST_SURVEYED) throw new Elsewhere()
    return inThisThread.survey(input)
  },
}

function readingsIn({ distances = [], levels = [], lines = [] }: SurveyInput): number {
  return distances.length + levels.length + lines.length
}

/** Whether a plan is so small that building it can be foreseen here. */
function refuseWork(ms: number): void {
  if (ms > MOST_WORK) throw new Elsewhere()
}

function total(plans: readonly PlanInput[]): number {
  return plans.reduce((sum, plan) => sum + workOf(plan), 0)
}
