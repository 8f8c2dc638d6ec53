import type { Bill, BillLine } from '../../estimate/answer.ts'
import type { Purchase } from '../../projects/store.ts'

/** Names a line of the bill in every revision that has it. */
function itemOf({ item, description }: BillLine): string {
  return `${item}: ${description}`
}

/** A line that has to be bought, and how much of it was. */
export interface LineToBuy {
  readonly line: BillLine
  readonly item: string
  readonly bought: number
  readonly isBought: boolean
}

/** The lines to buy with what was bought of them, and what was bought that is no longer on the list. */
export function withPurchases(
  bill: Bill,
  purchases: readonly Purchase[],
): { readonly lines: readonly LineToBuy[]; readonly others: readonly Purchase[] } {
  const boughtOf = new Map(purchases.map(({ item, quantity }) => [item, quantity]))
  const lines = bill.lines
    .filter(({ toBuy }) => toBuy > 0)
    .map((line): LineToBuy => {
      const item = itemOf(line)
      const bought = boughtOf.get(item) ?? 0
      return { line, item, bought, isBought: bought >= line.toBuy }
    })
  const listed = new Set(lines.map(({ item }) => item))
  return { lines, others: purchases.filter(({ item }) => !listed.has(item)) }
}

/**
 * What the form changes: a box that was ticked means that all of that line is bought, one that was cleared that nothing
 * is. A box that was not touched changes nothing, so that a line that has grown keeps the smaller count.
 */
export function changedPurchases(lines: readonly LineToBuy[], ticked: ReadonlySet<string>): Purchase[] {
  return lines.flatMap(({ line, item, isBought }) => {
    if (ticked.has(item) === isBought) return []
    return [{ item, quantity: isBought ? 0 : line.toBuy }]
  })
}
