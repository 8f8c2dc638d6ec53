import type { Estimate } from '../../estimate/answer.ts'
import type { Plan } from '../../estimate/plan.ts'
import { preparePlan } from '../../estimate/plan.ts'
import { readPlan } from '../../estimate/read-plan.ts'
import { toRadians } from '../../measure/angle.ts'
import type { Fault } from '../../measure/fault.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import { joinsAt } from '../../plan/rows/track.ts'
import type { Stock } from '../../shed/stock.ts'
import { placeElements } from '../../track/place.ts'
import type { Client, Workers } from '../../workers/workers.ts'
import type { PlanToDraw, StretchToDraw } from '../drawing/drawn-plan.ts'

/** A complete plan and its estimate. */
export interface WorkedPlan {
  readonly plan: Plan
  readonly estimate: Estimate
}

/** Reads a plan as it was sent and estimates it with its stock from the shed; or returns all its faults. */
export async function workOut(
  workers: Workers,
  raw: unknown,
  stock: Stock,
  client: Client,
): Promise<{ ok: true; worked: WorkedPlan } | { ok: false; faults: Fault[] }> {
  const read = readPlan(raw)
  if (!read.ok) return read
  const answer = await workers.estimate({ plan: read.plan, stock, sent: raw }, client)
  if (!answer.ok) return answer
  return { ok: true, worked: workedPlan(answer.stocked, answer.estimate) }
}

export function workedPlan(input: PlanInput, answer: Estimate): WorkedPlan {
  return { plan: preparePlan(input).plan, estimate: answer }
}

/** The parts of a worked plan that its drawing needs. */
export function planToDraw({ plan, estimate: answer }: WorkedPlan): PlanToDraw {
  return {
    title: plan.title,
    gaugeMm: plan.gauge,
    headWidthMm: plan.section.headWidthMm,
    tracks: plan.tracks.map((track, index) => ({
      name: track.name,
      closed: track.closed,
      state: track.state,
      joinsExisting: { start: joinsAt(track, 'start'), end: joinsAt(track, 'end') },
      placed: placeElements(
        { xMm: track.start.x, yMm: track.start.y, headingRad: toRadians(track.start.heading) },
        track.elements,
        track.closed,
      ),
      tieSpacingMm: answer.tracks[index]!.tieSpacingMm,
      readyMade: stretchesOf(track.name, answer),
    })),
  }
}

function stretchesOf(track: string, { readyMade }: Estimate): StretchToDraw[] {
  const own = readyMade?.stretches.filter((stretch) => stretch.track === track) ?? []
  return own.map(({ element, fromMm, toMm, pieces }) => ({
    ...{ element, fromMm, toMm },
    endsMm: [fromMm, ...pieces.map((piece) => piece.toMm)],
  }))
}
