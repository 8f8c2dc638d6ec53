import { FINDING, type Finding } from '../../checking/finding.ts'
import type { FigureMeasure } from '../../fitting/figures/figure.ts'
import type { Fault } from '../../measure/fault.ts'
import { type Answer, component, length, list, object, text, word, written } from '../../plan/fields/answer.ts'
import { ASSUMPTION, type Assumption } from '../../plan/fields/assumption.ts'
import { FIGURE_WORDS, type FigureName } from '../../plan/rows/figures.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import { TURNS } from '../../plan/rows/track.ts'
import type { Estimate } from '../answer.ts'
import { estimate } from '../estimate.ts'
import { readPlan } from '../read-plan.ts'
import { buildFigure } from './build-figure.ts'
import type { FigureQuestion } from './read-figure.ts'

export const FIGURE_ANSWER = component('Figure', 'A figure of track, ready to be put into a plan.', {
  figure: word(Object.keys(FIGURE_WORDS) as FigureName[], { extensible: true }),
  side: word(TURNS, 'The side of its track on which it lies.'),
  tracks: list(
    written({ component: 'Track' }),
    'Its tracks, as a plan has them: the first continues a track of the plan, the others go with it. Their kinds of turnout are those of the request.',
  ),
  measures: list(object({ name: text(), valueMm: length() }), 'Lengths of the figure.'),
  findings: list(FINDING, 'What an estimate of these tracks alone finds.'),
  assumptions: list(ASSUMPTION, 'Each field is a JSON Pointer into the request.'),
})

export type FigureAnswer = Answer<typeof FIGURE_ANSWER>

export type WorkedFigure =
  | {
      readonly ok: true
      readonly answer: FigureAnswer
      /** The figure as a plan of its own, and where its tracks lie. */
      readonly plan: PlanInput
      readonly estimate: Estimate
    }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Works out a figure, and checks it as a plan of its own: with the rules, and the code, of every estimate. */
export function figure(question: FigureQuestion): WorkedFigure {
  const built = buildFigure(question)
  if (!built.ok) return built
  const plan: PlanInput = { ...question.plan, tracks: built.tracks }
  const read = readPlan(plan)
  if (!read.ok) return { ok: false, faults: read.faults.map(ofFigure) }
  const worked = estimate(plan, { parts: ['tracks', 'findings'] })
  if (!worked.ok) return { ok: false, faults: worked.faults.map(ofFigure) }
  const { findings, tracks, assumptions } = worked.estimate
  const gapMm = Math.max(0, ...tracks.map(({ closure }) => closure?.gapMm ?? 0))
  const measures: FigureMeasure[] = [...built.measures, { name: 'largest gap where its tracks meet', valueMm: gapMm }]
  return {
    ok: true,
    plan,
    estimate: worked.estimate,
    answer: {
      figure: question.asked.figure,
      side: built.side,
      tracks: built.tracks as unknown as FigureAnswer['tracks'],
      measures,
      findings: findings.map(ofFindingAlone),
      assumptions: [...built.assumptions, ...assumptions.filter(({ field }) => isOfFigure(field, question))],
    },
  }
}

/** A figure that no plan may have is refused as a whole. */
function ofFigure({ code, detail, hint }: Fault): Fault {
  return { path: ['figure'], code, detail: `the figure cannot stand in a plan: ${detail}`, hint }
}

function ofFindingAlone({ rule, severity, message, measured, limit, unit, cure, track, element }: Finding): Finding {
  return { rule, severity, message, measured, limit, unit, cure, track, element }
}

/** The estimate has further assumptions, about what a figure is not asked. */
function isOfFigure(field: Assumption['field'], { railGiven }: FigureQuestion): boolean {
  return field === '/gauge' || field.startsWith('/standards') || (railGiven && field.startsWith('/rail'))
}
