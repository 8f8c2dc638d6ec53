import { FINDING, withoutRemedies } from '../../checking/finding.ts'
import { PATCH, patched } from '../../fitting/json-patch.ts'
import type { Fault } from '../../measure/fault.ts'
import { type Answer, component, list, text } from '../../plan/fields/answer.ts'
import { estimate } from '../estimate.ts'
import { inPlan, readPlan } from '../read-plan.ts'
import { type MoveAsked, movedPatch, movedWith } from './read-move.ts'

export const MOVE_ANSWER = component('MoveAnswer', 'A track moved, and what is found then.', {
  tracks: list(text(), 'The track that was moved, and those that lie where it lies.'),
  findings: list(FINDING, 'All findings of the plan with it.'),
  remedy: list(PATCH.of, 'A JSON Patch (RFC 6902) that moves it in the plan as it was sent.'),
})

export type Moved = Answer<typeof MOVE_ANSWER>

export type MoveResult =
  | { readonly ok: true; readonly answer: Moved }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** A track of a plan moved on the sheet, with whatever lies where it lies, put through the estimate. */
export function moveTrack(asked: MoveAsked): MoveResult {
  const { plan, sent, track } = asked
  const remedy = movedPatch(asked, plan.tracks[track]!)
  const read = readPlan(patched(sent, remedy))
  if (!read.ok) return { ok: false, faults: read.faults.map(inPlan) }
  const result = estimate(read.plan, { parts: ['findings'] })
  if (!result.ok) return { ok: false, faults: result.faults.map(inPlan) }
  const findings = withoutRemedies(result.estimate.findings)
  return { ok: true, answer: { tracks: movedWith(plan, track), findings, remedy } }
}
