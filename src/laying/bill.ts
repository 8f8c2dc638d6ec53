import { formatFeetInches, formatMm } from '../measure/length.ts'
import { type Money, priceOf, sumOf } from '../measure/money.ts'
import { packsToBuy } from './compare-plans.ts'
import type { CutStick } from './cutting.ts'
import type { Supplies } from './supplies.ts'

export interface Bill {
  currency: string
  lines: BillLine[]
  /** Priced lines only. */
  total: string
  unpricedLines: number
}

export interface BillLine {
  item: 'rail-stick' | 'joiner' | 'transition-joiner' | 'tie' | 'fastener'
  description: string
  /** The length of one piece where the item has one, otherwise null. */
  lengthMm: number | null
  unit: 'each'
  required: number
  onHand: number
  toBuy: number
  packSize: number
  packs: number
  /** The price of one pack, two decimals; null without a price, and then the amount is null too. */
  unitPrice: string | null
  amount: string | null
}

/** What the plan consumes, counted singly. */
export interface Needs {
  readonly joiners: number
  readonly transitionJoiners?: number
  readonly ties: number
  readonly sticks: readonly Pick<CutStick, 'lengthMm'>[]
}

/**
 * The shopping list: one line for each length of stick that is cut, and one each for joiners, ties and fasteners (also
 * when none is needed). toBuy = max(0, required − on hand), packs = ⌈toBuy ÷ packSize⌉, amount = packs × price of a pack.
 *
 * @param rail how the rail is called in the description, such as "code 250 brass"
 */
export function billOf(needs: Needs, supplies: Supplies, rail: string): Bill {
  const lines: BillLine[] = supplies.sticks
    .map((stick) => ({ stick, required: needs.sticks.filter((cut) => cut.lengthMm === stick.lengthMm).length }))
    .filter(({ required }) => required > 0)
    .map(({ stick, required }) => ({
      item: 'rail-stick',
      description: `Rail, ${rail}, ${formatMm(stick.lengthMm)} (${formatFeetInches(stick.lengthMm)})`,
      lengthMm: stick.lengthMm,
      ...purchase(required, stick.onHand, stick.packSize, stick.price),
    }))
  const { joiners, transitionJoiners, ties, fasteners } = supplies
  const counted = [
    { item: 'joiner', description: 'Rail joiner', required: needs.joiners, pack: joiners },
    ...(transitionJoiners
      ? ([
          {
            item: 'transition-joiner',
            description: 'Transition joiner, to another section',
            required: needs.transitionJoiners ?? 0,
            pack: transitionJoiners,
          },
        ] as const)
      : []),
    { item: 'tie', description: 'Tie', required: needs.ties, pack: ties },
    { item: 'fastener', description: 'Fastener', required: needs.ties * ties.fastenersPerTie, pack: fasteners },
  ] as const
  for (const { item, description, required, pack } of counted)
    lines.push({
      item,
      description,
      lengthMm: null,
      ...purchase(required, pack.onHand, pack.packSize, pack.pricePerPack),
    })
  return {
    currency: supplies.currency,
    lines,
    total: sumOf(lines.flatMap(({ amount }) => amount ?? [])),
    unpricedLines: lines.filter(({ amount }) => amount === null).length,
  }
}

function purchase(required: number, onHand: number, packSize: number, unitPrice: Money | null) {
  const toBuy = Math.max(0, required - onHand)
  const packs = packsToBuy(required, onHand, packSize)
  const amount = unitPrice === null ? null : priceOf(packs, unitPrice)
  return { unit: 'each' as const, required, onHand, toBuy, packSize, packs, unitPrice, amount }
}
