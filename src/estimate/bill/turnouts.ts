import type { Need } from '../../laying/bill.ts'
import { exceeds } from '../../measure/counting.ts'
import { formatMm } from '../../measure/length.ts'
import { sum } from '../../measure/sum.ts'
import type { WholePlan } from '../../plan/rows/plan.ts'
import type { Supplies } from '../../plan/rows/supplies.ts'
import type { TurnoutType } from '../../plan/rows/turnouts.ts'
import { plainTieMm, turnoutTies } from '../../track/turnout/ties.ts'
import { isBought } from '../track/bought-turnouts.ts'
import { builtByHand } from '../track/built-rails.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import type { LaidTurnout } from '../track/turnouts-of-plan.ts'
import type { TrackNeeds } from './needs.ts'

/** Turnouts that are bought or on hand, one line for each kind that new tracks use. */
export function turnoutNeeds(laid: readonly LaidTrack[], { turnoutTypes }: Pick<WholePlan, 'turnoutTypes'>): Need[] {
  return turnoutTypes.filter(isBought).flatMap((type): Need[] => {
    const reasons = laid.flatMap(({ name, turnouts }) => {
      const own = turnouts.filter((turnout) => turnout.type === type.id)
      if (own.length === 0) return []
      return [{ text: own.map((turnout) => turnout.name).join(', '), track: name, quantity: own.length }]
    })
    if (reasons.length === 0) return []
    return [
      {
        item: 'turnout',
        description: turnoutName(type),
        reasons,
        pack: { packSize: 1, onHand: type.onHand, pricePerPack: type.price, sparePct: 0, massEachG: null },
      },
    ]
  })
}

type LongTie = Supplies['longTies'][number]
type PlanForTies = Pick<WholePlan, 'supplies' | 'gauge' | 'turnoutTypes'>

/** A tie is a long one if it is longer than those of plain track by more than this. */
const LONGER_MM = 1

/** The long ties of a turnout, as many as its list has; none of the first, which are as long as those of plain track. */
function longTiesOf({ geometry }: LaidTurnout, { supplies, gauge }: PlanForTies): number[] {
  const plainMm = plainTieMm(gauge)
  return turnoutTies(geometry, supplies.ties.spacing, plainMm)
    .map(({ lengthMm }) => lengthMm)
    .filter((lengthMm) => lengthMm > plainMm + LONGER_MM)
}

/** How many long ties the turnouts of a track that are built by hand take, in place of as many others. */
export function longTiesOn(track: LaidTrack, plan: PlanForTies): number {
  return sum(builtByHand(track, plan).map((turnout) => longTiesOf(turnout, plan).length))
}

/**
 * Long ties of turnouts that are built by hand, each cut to the length on the tie list of its turnout: from the shortest of
 * the lengths that can be had, one line for each; those that are longer than all of them in a line of their own.
 */
export function longTieNeeds(laid: readonly LaidTrack[], plan: PlanForTies): Need[] {
  const ties = laid.flatMap((track) =>
    builtByHand(track, plan).map((turnout) => ({ turnout, track: track.name, lengthsMm: longTiesOf(turnout, plan) })),
  )
  if (ties.length === 0) return []
  const sold = plan.supplies.longTies.toSorted((a, b) => a.length - b.length)
  const from = (mm: number) => sold.find(({ length }) => !exceeds(mm, length)) ?? null
  const needOf = (stock: LongTie | null): Need => {
    const taken = ties.map((each) => ({ ...each, lengthsMm: each.lengthsMm.filter((mm) => from(mm) === stock) }))
    const longestMm = Math.max(0, ...taken.flatMap(({ lengthsMm }) => lengthsMm))
    const span = longestMm === 0 ? '' : `, up to ${formatMm(Math.ceil(longestMm))} long`
    const size = stock === null ? {} : { lengthMm: stock.length }
    return {
      item: 'long-tie',
      description: stock === null ? `Long tie${span}` : `Long tie of ${formatMm(stock.length)}`,
      ...size,
      reasons: taken.map(({ turnout, track, lengthsMm }) => ({
        text: `for ${turnout.name}, by its tie list`,
        track,
        quantity: lengthsMm.length,
      })),
      pack: stock ?? UNPRICED,
    }
  }
  if (sold.length === 0) return [needOf(null)]
  const isTaken = ({ reasons }: Need) => reasons.some(({ quantity }) => quantity > 0)
  return [...sold, null].map(needOf).filter(isTaken)
}

const UNPRICED = { packSize: 1, onHand: 0, pricePerPack: null, sparePct: 0, massEachG: null }

/** A throw for each turnout of new track, where the plan says how they are sold. */
export function throwNeeds(laid: readonly LaidTrack[], { supplies }: Pick<WholePlan, 'supplies'>): Need[] {
  if (supplies.throws === null) return []
  const reasons = laid.map(({ name, turnouts }) => ({
    text: `for ${turnouts.map((turnout) => turnout.name).join(', ')}`,
    track: name,
    quantity: turnouts.length,
  }))
  if (reasons.every(({ quantity }) => quantity === 0)) return []
  return [{ item: 'throw', description: 'Throw for a turnout', reasons, pack: supplies.throws }]
}

/** A switch for each live frog, thrown with the points. */
export function frogSwitchNeeds(tracks: readonly TrackNeeds[], { supplies }: Pick<WholePlan, 'supplies'>): Need[] {
  const reasons = tracks.map(({ name, liveFrogs: { turnouts } }) => ({
    text: `for ${turnouts.join(', ')}`,
    track: name,
    quantity: turnouts.length,
  }))
  if (reasons.every(({ quantity }) => quantity === 0)) return []
  const pack = supplies.frogSwitches ?? UNPRICED
  return [{ item: 'frog-switch', description: 'Switch for a live frog, thrown with the points', reasons, pack }]
}

/** Such as "Turnout six-left, left hand, No. 6". */
export function turnoutName({ id, hand, number, radius, measured, numbering }: TurnoutType): string {
  const side = hand === 'wye' ? 'wye' : `${hand} hand`
  const radiusMm = measured ? measured.radius : radius
  const counted = numbering === 'cot' ? `1 in ${number}` : `No. ${number}`
  const size = number !== null ? `, ${counted}` : radiusMm === null ? '' : `, R ${formatMm(radiusMm)}`
  return `Turnout ${id}, ${side}${size}`
}
