import type { Need } from '../../laying/bill.ts'
import { formatMm } from '../../measure/length.ts'
import type { WholePlan } from '../../plan/rows/plan.ts'
import type { TurnoutType } from '../../plan/rows/turnouts.ts'
import { isBought } from '../track/bought-turnouts.ts'
import type { LaidTrack } from '../track/laid-track.ts'

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

/** Such as "Turnout six-left, left hand, No. 6". */
export function turnoutName({ id, hand, number, radius, measured, numbering }: TurnoutType): string {
  const side = hand === 'wye' ? 'wye' : `${hand} hand`
  const radiusMm = measured ? measured.radius : radius
  const counted = numbering === 'cot' ? `1 in ${number}` : `No. ${number}`
  const size = number !== null ? `, ${counted}` : radiusMm === null ? '' : `, R ${formatMm(radiusMm)}`
  return `Turnout ${id}, ${side}${size}`
}
