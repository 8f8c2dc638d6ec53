import { sum } from '../measure/sum.ts'
import { mostSticks } from '../plan/reading/size.ts'
import type { PlanInput } from '../plan/rows/plan.ts'

/* Milliseconds, measured on one core of about 3 GHz; see tests/estimate/work.test.ts for what they must keep. */
const FIXED = 0.5
/** Places, drawings, checks and remedies of one element. */
const PER_ELEMENT = 0.08
const PER_TRACK = 0.1
const PER_GRADE_POINT = 0.004
/** One piece cut, billed and answered; with rules for joints it is laid several times. */
const PER_STICK = 0.03
const PER_STICK_WITH_RULES = 0.4
/** Bending of one size of curve, and ordinates of one curve on one chord. */
const PER_RADIUS = 0.5
const PER_CHORD = 0.05
/** Looking for better plans: for each break, and each further length of stick. */
const PER_BREAK = 0.5
const PER_LENGTH = 4
/** Joints beside each other and stretches without joints are gone through again for each joint. */
const PER_KEEP_OUT_STICK = 0.001
/** The most that looking for better plans takes. */
const MOST_SEARCHING = { quick: 400, thorough: 8_000 } as const
const SEARCHING = { quick: 12, thorough: 600 } as const
/** A rough plan for each mix with ready-made pieces. */
const PER_MIX = 4

/**
 * How long a plan takes to work out, roughly: estimated milliseconds, before any of it is done. Never less where anything
 * of the plan becomes more; O(size of the plan).
 *
 * @param plan a plan without faults
 */
export function workOf(plan: PlanInput): number {
  const { tracks, supplies, joints, bender, chords, effort = 'quick' } = plan
  const elements = sum(tracks.map((track) => track.elements.length))
  const gradePoints = sum(tracks.map((track) => track.gradeLine?.length ?? 0))
  const breaks = sum(tracks.map((track) => track.breaks?.length ?? 0))
  const keepOut = sum(tracks.map((track) => track.keepOut?.length ?? 0))
  const radii = new Set(
    tracks.flatMap((track) => track.elements.map((each) => (each.kind === 'arc' ? each.radius : 0))),
  )
  const lengths = supplies?.sticks?.length ?? 1
  const { sticks } = mostSticks(plan)
  const hasRules = (joints?.stagger ?? 0) > 0 || joints?.betweenTies === true || keepOut > 0 || bender?.ends === 'trim'
  const cutting = sticks * (hasRules ? PER_STICK_WITH_RULES : PER_STICK) + sticks * keepOut * PER_KEEP_OUT_STICK
  const searching = Math.min(
    MOST_SEARCHING[effort],
    SEARCHING[effort] * (1 + (hasRules ? 2 : 0)) +
      PER_LENGTH * (lengths - 1) * (1 + tracks.length) +
      PER_BREAK * breaks,
  )
  const panels = supplies?.readyMade === 'never' ? 0 : (supplies?.panels?.length ?? 0)
  const mixes = panels === 0 ? 0 : Math.min(100, 2 ** Math.min(7, elements)) * Math.sqrt(panels)
  return (
    FIXED +
    PER_TRACK * tracks.length +
    PER_ELEMENT * elements +
    PER_GRADE_POINT * gradePoints +
    radii.size * (PER_RADIUS + PER_CHORD * (chords?.length ?? 2)) +
    elements * PER_CHORD * (chords?.length ?? 2) +
    cutting +
    searching +
    mixes * (PER_MIX + cutting) * (effort === 'thorough' ? 10 : 1)
  )
}
