import { type Answer, component, count, length, nullable, number } from '../../plan/fields/answer.ts'
import { nearlyZero } from '../numeric/root.ts'
import type { BendingModel } from './bending-model.ts'
import type { RollerBender } from './roller-bender.ts'

/** Longer schedules are not listed: they are not practical. */
export const MOST_PASSES = 100

export const PASS = component('Pass', 'One pass through the rollers.', {
  pass: count('Counted from 1.'),
  depthMm: length('Depth from where the rollers just touch the straight rail, mm.'),
  turns: nullable(
    number('Turns of the screw, from where the rollers just touch the straight rail; null if the pitch is not given.'),
  ),
  leavesRadiusMm: nullable(
    length('Radius of the middle line of the rail after this pass, released, mm; null where it stays straight.'),
  ),
})

export type Pass = Answer<typeof PASS>

/** A pass as its model sees it; see `BendingModel` for its peak. */
export interface ModelPass {
  readonly depthMm: number
  readonly peak: number
}

/**
 * The passes that bend rail to a peak, each deeper than the one before by the same step, at most `mostStepMm` (null:
 * all in one pass). Each meets rail that is already curved, so the last is deeper than a single pass would be. Passes
 * that would leave straight rail straight or bend the rail no further are left out.
 *
 * The step is the root of: depth at which the last pass reaches the peak, after passes of this step, minus the depth
 * these steps add up to. Null when it takes more than `MOST_PASSES`. Checked by following the rail through its passes in
 * tests/bending/roller/pass-schedule.test.ts.
 */
export function passSchedule(
  model: BendingModel,
  peak: number,
  elasticDepthMm: number,
  mostStepMm: number | null,
): ModelPass[] | null {
  const single = { depthMm: model.depthMm(0, peak), peak }
  if (mostStepMm === null || single.depthMm <= mostStepMm + STEP_SLACK_MM) return [single]
  if (single.depthMm > MOST_PASSES * mostStepMm) return null

  const count = countOf(model, peak, elasticDepthMm, mostStepMm)
  if (count === null) return null
  const before = (stepMm: number) => stepped(model, peak, elasticDepthMm, stepMm, count - 1)
  const lastDepth = (passes: readonly ModelPass[]) => model.depthMm(passes.at(-1)?.peak ?? straight(peak), peak)
  const lacking = (stepMm: number) => lastDepth(before(stepMm)) - count * stepMm
  const stepMm = nearlyZero((step) => -lacking(step), single.depthMm / count, mostStepMm, EQUAL_STEPS_MM)
  const passes = before(stepMm)
  return passes.length === 0 ? [single] : [...passes, { depthMm: lastDepth(passes), peak }]
}

const STEP_SLACK_MM = 1e-6
/** Steps equal to this are equal; the last pass is worked out by itself. */
const EQUAL_STEPS_MM = 1e-3

/** How many steps of the largest size reach the peak. */
function countOf(model: BendingModel, peak: number, elasticDepthMm: number, mostStepMm: number): number | null {
  let before = straight(peak)
  for (let count = 1; count <= MOST_PASSES; count++) {
    const depthMm = count * mostStepMm
    if (model.depthMm(before, peak) <= depthMm + STEP_SLACK_MM) return count
    if (depthMm > elasticDepthMm) before = peakAt(model, before, peak, depthMm)
  }
  return null
}

/** The passes of so many steps, without those that add nothing. */
function stepped(
  model: BendingModel,
  most: number,
  elasticDepthMm: number,
  stepMm: number,
  count: number,
): ModelPass[] {
  const passes: ModelPass[] = []
  let before = straight(most)
  for (let step = 1; step <= count; step++) {
    const depthMm = step * stepMm
    if (depthMm <= elasticDepthMm) continue
    const peak = peakAt(model, before, most, depthMm)
    if (peak > before) passes.push({ depthMm, peak })
    before = peak
  }
  return passes
}

/** The peak that a depth gives rail with the peak `before`: the same if it stays elastic, and at most `most`. */
function peakAt(model: BendingModel, before: number, most: number, depthMm: number): number {
  const excess = (peak: number) => model.depthMm(before, peak) - depthMm
  return nearlyZero(excess, before, most, DEPTH_SLACK_MM)
}

/** A peak so small that it leaves rail straight; unlike for 0, depths from here on are tabulated. */
function straight(most: number): number {
  return 1e-6 * most
}

/** Of a pass that is followed by another. */
const DEPTH_SLACK_MM = 1e-6

export function turnsOf(bender: RollerBender, depthMm: number): number | null {
  return bender.screwPitchMm === null ? null : depthMm / bender.screwPitchMm
}

/**
 * The two ends of a stick that the rollers cannot bend: about half the span each stays nearly straight (Thomas,
 * "Workshop Bending Rolls", *Model Engineer*, October 1976). Three treatments: cut them off, finish them by hand, or
 * join the sticks before bending and roll the joint through.
 */
export interface StraightEnds {
  readonly eachMm: number
  /** How much longer a stick must be so that both ends can be cut off. */
  readonly extraLengthMm: number
  readonly treatments: readonly ['trim', 'finish-by-hand', 'join-and-roll-through']
}

export function straightEnds(bender: RollerBender): StraightEnds {
  const eachMm = bender.spanMm / 2
  return { eachMm, extraLengthMm: 2 * eachMm, treatments: ['trim', 'finish-by-hand', 'join-and-roll-through'] }
}
