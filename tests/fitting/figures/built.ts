import type { Estimate } from '../../../src/estimate/answer.ts'
import { estimate } from '../../../src/estimate/estimate.ts'
import { type FigureAnswer, figure } from '../../../src/estimate/questions/figure.ts'
import { readFigure } from '../../../src/estimate/questions/read-figure.ts'
import type { PlanInput } from '../../../src/plan/rows/plan.ts'

export const SIX_LEFT = { id: 'six-left', hand: 'left', number: 6 }
export const SIX_RIGHT = { id: 'six-right', hand: 'right', number: 6 }
/** They end 60 mm beyond the point of the frog. */
export const SHORT_LEFT = { ...SIX_LEFT, length: 600 }
export const SHORT_RIGHT = { ...SIX_RIGHT, length: 600 }

export interface Built {
  readonly answer: FigureAnswer
  readonly plan: PlanInput
  readonly estimate: Estimate
}

/** A figure, and the estimate of the plan that it is. Throws where it is refused. */
export function built(asked: object): Built {
  const read = readFigure(asked)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const worked = figure(read.question)
  if (!worked.ok) throw new Error(JSON.stringify(worked.faults))
  const result = estimate(worked.plan)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return { answer: worked.answer, plan: worked.plan, estimate: result.estimate }
}

/** What a figure is refused for: place, code and hint. */
export function refusal(asked: object): [place: string, code: string, hint: string][] {
  const read = readFigure(asked)
  const result = read.ok ? figure(read.question) : read
  if (result.ok) return []
  return result.faults.map(({ path, code, hint = '' }) => [path.join('/'), code, hint])
}

export function measure({ answer }: Built, name: string): number {
  const found = answer.measures.find((each) => each.name === name)
  if (!found) throw new Error(`no ${name} among ${answer.measures.map((each) => each.name).join(', ')}`)
  return found.valueMm
}

/** The largest distance, mm, by which the tracks miss the legs that they come to. */
export function gapOf({ estimate: { tracks } }: Built): number {
  const gaps = tracks.flatMap(({ closure }) => closure?.gapMm ?? [])
  return gaps.length === 0 ? 0 : Math.max(...gaps)
}

export const trackCalled = ({ estimate: { tracks } }: Built, name: string) => {
  const track = tracks.find((each) => each.name === name)
  if (!track) throw new Error(`no ${name} among ${tracks.map((each) => each.name).join(', ')}`)
  return track
}

/** Where the elements of all tracks begin and end, as mm and degrees; headings from −180 to 180. */
export function placesOf({ estimate: { tracks } }: Built) {
  return tracks.flatMap(({ elements }) =>
    elements.flatMap(({ start, end }) =>
      [start, end].map(({ xMm, yMm, headingDeg }) => ({ xMm, yMm, headingDeg: ((headingDeg + 180) % 360) - 180 })),
    ),
  )
}
