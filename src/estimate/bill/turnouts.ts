import type { Need } from '../../laying/bill.ts'
import { formatMm } from '../../measure/length.ts'
import { sum } from '../../measure/sum.ts'
import type { WholePlan } from '../../plan/rows/plan.ts'
import type { TurnoutType } from '../../plan/rows/turnouts.ts'
import { plainTieMm, turnoutTies } from '../../track/turnout/ties.ts'
import { isBought } from '../track/bought-turnouts.ts'
import { builtByHand } from '../track/built-rails.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import type { LaidTurnout } from '../track/turnouts-of-plan.ts'

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

/** Long ties of turnouts that are built by hand; each is cut to the length on the tie list of its turnout. */
export function longTieNeeds(laid: readonly LaidTrack[], plan: PlanForTies): Need[] {
  const reasons = laid.flatMap((track) =>
    builtByHand(track, plan).map((turnout) => ({
      text: `for ${turnout.name}, by its tie list`,
      track: track.name,
      quantity: longTiesOf(turnout, plan).length,
    })),
  )
  if (reasons.length === 0) return []
  const lengthsMm = laid.flatMap((track) => builtByHand(track, plan).flatMap((turnout) => longTiesOf(turnout, plan)))
  const span = lengthsMm.length === 0 ? '' : `, up to ${formatMm(Math.ceil(Math.max(...lengthsMm)))} long`
  const pack = { packSize: 1, onHand: 0, pricePerPack: null, sparePct: 0, massEachG: null }
  return [{ item: 'long-tie', description: `Long tie${span}`, reasons, pack }]
}

/** Such as "Turnout six-left, left hand, No. 6". */
export function turnoutName({ id, hand, number, radius, measured, numbering }: TurnoutType): string {
  const side = hand === 'wye' ? 'wye' : `${hand} hand`
  const radiusMm = measured ? measured.radius : radius
  const counted = numbering === 'cot' ? `1 in ${number}` : `No. ${number}`
  const size = number !== null ? `, ${counted}` : radiusMm === null ? '' : `, R ${formatMm(radiusMm)}`
  return `Turnout ${id}, ${side}${size}`
}
