import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import { lengthOfWay } from '../fitted/connect.ts'
import type { Connection } from '../fitted/fit-plan.ts'
import { fittedElements } from '../fitted/fitted-patch.ts'
import { preparePlan } from '../plan.ts'
import { besideOfPlan } from '../track/beside-of-plan.ts'
import { layTrack } from '../track/laid-track.ts'

/** What is most in the way of some tracks. */
export interface Tight {
  readonly what: string
  readonly missingMm: number
}

/**
 * Where cars on some tracks of a plan reach deepest into an obstacle or into cars on another track; null where they clear all.
 *
 * @param left tracks whose cars are not looked at
 */
export function tightest(
  input: PlanInput,
  tracks: ReadonlySet<number>,
  left: ReadonlySet<number> = NONE,
): Tight | null {
  const { plan } = preparePlan(input)
  const laid = plan.tracks.map((track) => layTrack(track, plan))
  const beside = besideOfPlan(laid, plan)
  const found = [
    ...beside.obstacles.touched
      .filter(({ track }) => tracks.has(track))
      .map(({ obstacle, depthMm }) => ({ what: obstacle.name, missingMm: depthMm })),
    ...beside.tracks.found
      .filter(({ track, other }) => tracks.has(track) || tracks.has(other))
      .filter(({ track, other }) => !(left.has(track) || left.has(other)))
      .filter(({ track, other }) => !(plan.tracks[track]!.interlaced && plan.tracks[other]!.interlaced))
      .map(({ track, other, neededMm, apartMm }) => ({
        what: `cars on ${laid[tracks.has(track) ? other : track]!.name}`,
        missingMm: neededMm - apartMm,
      })),
  ]
  return found.length === 0 ? null : found.reduce((most, each) => (each.missingMm > most.missingMm ? each : most))
}

const NONE: ReadonlySet<number> = new Set()

/**
 * The plan with its connections made one after another, each in its shortest way that is clear of everything but those
 * that are still to be made; in their order and the other way round. null where one has no such way, or after so many looks.
 */
export function clearOneAfterOther(
  plan: PlanInput,
  connections: readonly Connection[],
  cars: PlanInput['cars'],
  looks: number,
): PlanInput | null {
  let left = looks
  for (const order of [connections, connections.toReversed()]) {
    const waiting = new Set(order.map(({ track }) => track))
    let made: PlanInput | null = plan
    for (const { track, options } of order) {
      const before: PlanInput = made
      waiting.delete(track)
      const clear = inOrderOfLength(options).find(
        (option) => left-- > 0 && !tightest({ ...withWay(before, track, option), cars }, new Set([track]), waiting),
      )
      made = clear ? withWay(before, track, clear) : null
      if (!made) break
    }
    if (made) return made
  }
  return null
}

function inOrderOfLength(options: Connection['options']): Connection['options'] {
  return options.toSorted((a, b) => lengthOfWay(a) - lengthOfWay(b))
}

/** The plan with a connection made in one of its ways. */
export function withWay(plan: PlanInput, track: number, { elements }: Connection['chosen']): PlanInput {
  return { ...plan, tracks: plan.tracks.with(track, { ...plan.tracks[track]!, elements }) }
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
