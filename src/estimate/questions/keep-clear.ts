import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import { fittedElements } from '../fitted/fitted-patch.ts'
import { preparePlan } from '../plan.ts'
import { besideOfPlan } from '../track/beside-of-plan.ts'
import { layTrack } from '../track/laid-track.ts'

/** What is most in the way of some tracks. */
export interface Tight {
  readonly what: string
  readonly missingMm: number
}

/** Where cars on some tracks of a plan reach deepest into an obstacle or into cars on another track; null where they clear all. */
export function tightest(input: PlanInput, tracks: ReadonlySet<number>): Tight | null {
  const { plan } = preparePlan(input)
  const laid = plan.tracks.map((track) => layTrack(track, plan))
  const beside = besideOfPlan(laid, plan)
  const found = [
    ...beside.obstacles.touched
      .filter(({ track }) => tracks.has(track))
      .map(({ obstacle, depthMm }) => ({ what: obstacle.name, missingMm: depthMm })),
    ...beside.tracks.found
      .filter(({ track, other }) => tracks.has(track) || tracks.has(other))
      .filter(({ track, other }) => !(plan.tracks[track]!.interlaced && plan.tracks[other]!.interlaced))
      .map(({ track, other, neededMm, apartMm }) => ({
        what: `cars on ${laid[tracks.has(track) ? other : track]!.name}`,
        missingMm: neededMm - apartMm,
      })),
  ]
  return found.length === 0 ? null : found.reduce((most, each) => (each.missingMm > most.missingMm ? each : most))
}

/** Why no way is clear, and how near the nearest comes to it. */
export function notClear(tight: readonly (Tight | null)[], marginMm: number, plan: PlanInput, sent: unknown): Fault {
  const nearest = tight.reduce((least, each) => (each!.missingMm < least!.missingMm ? each : least))!
  const by = formatMm(Math.ceil(nearest.missingMm * 10 - 1e-6) / 10)
  const less =
    nearest.missingMm <= marginMm
      ? `a margin of ${formatMm(Math.floor((marginMm - nearest.missingMm) * 10) / 10)} would do; or `
      : ''
  const { track, sentAt } = fittedElements(sent, plan)[0]!
  return {
    path: ['plan', 'tracks', track, 'elements', sentAt],
    code: 'no-fit',
    detail: `none of the ways keeps clear: the nearest lacks ${by} beside ${nearest.what}`,
    hint: `${less}move or cut back ${nearest.what} by as much, or allow a smaller radius`,
  }
}
