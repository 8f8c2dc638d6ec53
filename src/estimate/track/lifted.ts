import { planCuts } from '../../laying/cutting/cut-plan.ts'
import { tiesUnder } from '../../laying/ties.ts'
import { exceeds, sameLength } from '../../measure/counting.ts'
import { formatMm } from '../../measure/length.ts'
import type { Assumption } from '../../plan/fields/complete.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import type { Stick, Supplies } from '../../plan/rows/supplies.ts'
import type { Plan } from '../plan.ts'
import { preparePlan } from '../plan.ts'
import { type LaidTrack, layTrack } from './laid-track.ts'

/** Reusable parts of lifted track; of the plan's own rail. */
export interface Salvage {
  readonly sticks: readonly { readonly lengthMm: number; readonly count: number }[]
  readonly joiners: number
  readonly ties: number
}

const NONE: Salvage = { sticks: [], joiners: 0, ties: 0 }

/** Reusable parts of all lifted track of a plan. */
export function salvageOfPlan(input: PlanInput): Salvage {
  if (!input.tracks.some(({ state }) => state === 'lifted')) return NONE
  const { plan } = preparePlan(input)
  return together(plan.tracks.map((track) => salvageOf(layTrack(track, plan), plan)))
}

/**
 * Reusable parts of one track. How it was laid is not known, so its rails are assumed to be of the longest length the
 * plan buys, laid end to end with the rest at the end; pieces under the shortest piece are not counted, and of joiners
 * only those between its own pieces.
 */
export function salvageOf(track: LaidTrack, { supplies }: Pick<Plan, 'supplies'>): Salvage {
  if (track.state !== 'lifted') return NONE
  const { minimumPiece: minimumPieceMm } = supplies
  const runs = [track.rails.left, track.rails.right].map(({ lengthMm }) => ({ lengthMm }))
  const cuts = planCuts(runs, [usualStick(supplies)], { kerf: 0, minimumPiece: minimumPieceMm }, () => 0)
  if (!cuts.ok) return NONE
  const pieces = cuts.plan.sticks.flatMap((stick) => stick.pieces)
  const joints = cuts.plan.piecesPerRun.reduce((sum, count) => sum + count - 1, track.closed ? 2 : 0)
  return together([
    {
      sticks: pieces
        .filter(({ lengthMm }) => !exceeds(minimumPieceMm, lengthMm))
        .map(({ lengthMm }) => ({ lengthMm, count: 1 })),
      joiners: joints,
      ties: tiesUnder(track.lengthMm, supplies.ties.spacing, track.closed, 0).ties,
    },
  ])
}

function usualStick({ sticks }: Supplies): Stick {
  const longest = (of: readonly Stick[]) => of.reduce<Stick | null>((a, b) => (a && a.length >= b.length ? a : b), null)
  const stick = longest(sticks.filter(({ buyable }) => buyable)) ?? longest(sticks)!
  return { ...stick, onHand: 0, buyable: true }
}

/** The supplies with lifted parts counted as on hand. */
export function withSalvage(supplies: Supplies, { sticks, joiners, ties }: Salvage): Supplies {
  const all: Stick[] = [...supplies.sticks]
  for (const { lengthMm, count } of sticks) {
    const index = all.findIndex((stick) => sameLength(stick.length, lengthMm))
    const there = all[index]
    if (there) all[index] = { ...there, onHand: there.onHand + count }
    else all.push({ length: lengthMm, price: null, packSize: 1, onHand: count, buyable: false })
  }
  return {
    ...supplies,
    sticks: all,
    joiners: { ...supplies.joiners, onHand: supplies.joiners.onHand + joiners },
    // Loose ties are not strips: where strips are laid, they only go into the shed.
    ties: { ...supplies.ties, onHand: supplies.ties.onHand + (supplies.ties.strip === null ? ties : 0) },
  }
}

export function together(parts: readonly Salvage[]): Salvage {
  const sticks: { lengthMm: number; count: number }[] = []
  for (const { lengthMm, count } of parts.flatMap((part) => part.sticks)) {
    const there = sticks.find((stick) => sameLength(stick.lengthMm, lengthMm))
    if (there) there.count += count
    else sticks.push({ lengthMm, count })
  }
  return {
    sticks: sticks.sort((a, b) => b.lengthMm - a.lengthMm),
    joiners: parts.reduce((sum, part) => sum + part.joiners, 0),
    ties: parts.reduce((sum, part) => sum + part.ties, 0),
  }
}

/** The assumptions about each lifted track. */
export function salvageAssumptions(tracks: readonly LaidTrack[], plan: Pick<Plan, 'supplies'>): Assumption[] {
  return tracks.flatMap((track, index): Assumption[] => {
    if (track.state !== 'lifted') return []
    const { sticks, joiners, ties } = salvageOf(track, plan)
    const rail = sticks.map(({ lengthMm, count }) => `${count} of ${formatMm(lengthMm)}`).join(', ') || 'no rail'
    const usual = formatMm(usualStick(plan.supplies).length)
    return [
      {
        field: `/tracks/${index}/state`,
        value: `on hand from ${track.name}: ${rail}; joiners: ${joiners}; ties: ${ties}`,
        reason: `lifted; its rails are assumed to be sticks of ${usual} laid end to end; bent pieces are bent again; fasteners are not reused`,
      },
    ]
  })
}
