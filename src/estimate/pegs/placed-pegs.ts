import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import type { Assumption } from '../../plan/fields/complete.ts'
import type { PlanDraft } from '../../plan/reading/draft.ts'
import type { PegInput } from '../../plan/rows/pegs.ts'
import type { SurveyInput } from '../../plan/rows/survey.ts'
import type { KnownPeg } from '../../survey/peg-out.ts'
import { workOutSurvey } from '../../survey/survey.ts'

/** A peg of a plan in its place. */
export interface PlacedPeg extends KnownPeg {
  /** Of its place, as one number: 0 where it is given. */
  readonly errorMm: number
}

/** Error of one distance, one standard deviation: that of a survey that gives none. */
export const TAPE_ERROR_MM = 10

/** The pegs of a plan without faults. */
export function placedPegs(pegs: readonly PegInput[]): PlacedPeg[] {
  if (pegs.length === 0) return []
  const result = workOutSurvey(surveyOf(pegs))
  if (!result.ok) return []
  const found = new Map(
    [...result.answer.pegs, ...result.answer.points].map((each) => [
      each.name,
      { xMm: each.xMm!, yMm: each.yMm!, errorMm: 'error' in each ? each.error!.radiusMm : 0 },
    ]),
  )
  return pegs.map(({ name, elevation }) => ({ name, ...found.get(name)!, elevationMm: elevation ?? null }))
}

/** Pegs whose distances do not lead to a place; looked at once nothing else is wrong with them. */
export function pegPlaceFaults({ pegs = [] }: Pick<PlanDraft, 'pegs'>): Fault[] {
  const given = pegs.flatMap((peg) => peg ?? [])
  if (given.length < pegs.length || given.length === 0) return []
  const places = given.flatMap((peg, index): Fault[] => {
    const before = given.slice(0, index).find(({ x, y }) => x !== undefined && x === peg.x && y === peg.y)
    if (!before) return []
    const detail = `"${peg.name}" is at the same place as "${before.name}"`
    return [{ path: ['pegs', index], code: 'contradictory', detail, hint: 'correct x or y, or leave one of them out' }]
  })
  if (places.length > 0) return places
  if (given.every(({ x }) => x === undefined)) return [NONE_KNOWN]
  const result = workOutSurvey(surveyOf(given))
  if (!result.ok) return result.faults.map((fault) => ofPeg(fault, given))
  return result.answer.points.flatMap(({ name, noPlace }): Fault[] =>
    noPlace === null
      ? []
      : [
          {
            path: ['pegs', given.findIndex((peg) => peg.name === name)],
            code: 'contradictory',
            detail: `"${name}" has no place: ${noPlace}`,
            hint: 'measure it from two pegs that have one',
          },
        ],
  )
}

const NONE_KNOWN: Fault = {
  path: ['pegs'],
  code: 'missing',
  detail: 'no peg has a place on the sheet',
  hint: 'give two pegs x and y; the others can be measured from them',
}

export function pegAssumptions(pegs: readonly PegInput[]): Assumption[] {
  if (pegs.length === 0) return []
  const reason = 'error of each distance from a peg, one standard deviation: a tape held by hand, common practice'
  return [{ field: '/pegs', value: formatMm(TAPE_ERROR_MM), reason }]
}

/** Pegs with coordinates are known, those measured from others are points of a survey. */
function surveyOf(pegs: readonly PegInput[]): SurveyInput {
  const taped = pegs.filter(({ x }) => x === undefined)
  return {
    pegs: pegs.flatMap(({ name, x, y }) => (x === undefined || y === undefined ? [] : [{ name, x, y }])),
    distances: taped.flatMap(({ name, first, firstDistance, second, secondDistance }) => [
      { from: name, to: first!, length: firstDistance! },
      { from: name, to: second!, length: secondDistance! },
    ]),
    points: taped.map(({ name, side }) => ({ name, side: side! })),
    tapeError: TAPE_ERROR_MM,
  }
}

/** A fault of the survey where the plan says the same. */
function ofPeg(fault: Fault, pegs: readonly PegInput[]): Fault {
  const [list, index] = fault.path
  if (list !== 'distances' || typeof index !== 'number') return { ...fault, path: ['pegs'] }
  const taped = pegs.flatMap(({ x }, at) => (x === undefined ? [at] : []))
  return { ...fault, path: ['pegs', taped[index >> 1]!, index % 2 === 0 ? 'firstDistance' : 'secondDistance'] }
}
