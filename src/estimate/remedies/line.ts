import { doubtfulFigures } from '../../checking/doubtful-figures.ts'
import type { Finding } from '../../checking/finding.ts'
import { QUICK_RULES } from '../../checking/rules.ts'
import type { SentElement } from '../../fitting/patches.ts'
import { listAt } from '../../plan/reading/value-at.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import { type Plan, preparePlan } from '../plan.ts'
import { checkLine } from '../stages/check-line.ts'
import { joinsOf } from '../track/joins.ts'
import { type LaidTrack, layTrack } from '../track/laid-track.ts'

/** The tracks of a plan in their places, and what is found on them before anything is cut or bent. */
export interface Line {
  readonly sent: unknown
  readonly plan: Plan
  readonly tracks: readonly LaidTrack[]
  readonly findings: readonly Finding[]
}

export function lineOf(input: PlanInput, sent: unknown): Line {
  const { plan } = preparePlan(input)
  const tracks = plan.tracks.map((track) => layTrack(track, plan))
  const findings = [
    ...checkLine(tracks, plan, joinsOf(tracks, plan), QUICK_RULES),
    ...doubtfulFigures(sent, plan.tracks),
  ]
  return { sent, plan, tracks, findings }
}

/** The elements of a track as they were sent. */
export function sentElements({ sent }: Line, track: number): readonly SentElement[] {
  return listAt(sent, ['tracks', track, 'elements']) as readonly SentElement[]
}
