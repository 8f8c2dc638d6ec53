import type { Block } from './blocks.ts'
import type { Pen } from './pen.ts'
import { drawAll, heightOf, type Room, type Strip, strip } from './strip.ts'

type Cards = Block & { readonly is: 'cards' }
type LayOut = (pen: Pen, blocks: readonly Block[], room: Room) => Strip[]

const PADDING = 7
const BETWEEN = 8
/** Between two pieces of work on one card. */
const RULE_PT = 9

/** Boxes, two in a row: each as high as it has to be, or all of them a quarter of a page, to be cut out. */
export function cardStrips(pen: Pen, { cards, quarters }: Cards, room: Room, layOut: LayOut): Strip[] {
  const widthPt = (room.widthPt - BETWEEN) / 2
  const laid = cards.map((card) => layOut(pen, card, { ...room, widthPt: widthPt - 2 * PADDING }))
  if (!quarters) return rowsOf(laid, widthPt, null)
  const quarterPt = (room.heightPt - BETWEEN) / 2
  return rowsOf(packed(laid, quarterPt - 2 * PADDING, widthPt - 2 * PADDING), widthPt, quarterPt)
}

/** As many pieces of work on each card as it has room for; one that needs more than a card has a longer one. */
function packed(laid: readonly Strip[][], mostPt: number, widthPt: number): Strip[][] {
  const cards: Strip[][] = []
  for (const strips of laid) {
    const last = cards.at(-1)
    const added = last && [...last, rule(widthPt), ...strips]
    if (added && heightOf(added) <= mostPt) cards[cards.length - 1] = added
    else cards.push(strips)
  }
  return cards
}

function rule(widthPt: number): Strip {
  return strip(RULE_PT, (pen, x, y) => pen.line(x, y + RULE_PT / 2, x + widthPt, y + RULE_PT / 2))
}

function rowsOf(cards: readonly Strip[][], widthPt: number, leastPt: number | null): Strip[] {
  const rows: Strip[][][] = []
  for (const card of cards) {
    if (rows.at(-1)?.length === 1) rows.at(-1)!.push(card)
    else rows.push([card])
  }
  return rows.map((row) => {
    const heightPt = Math.max(leastPt ?? 0, ...row.map((strips) => heightOf(strips) + 2 * PADDING))
    return strip(
      heightPt,
      (pen, x, y) => {
        for (const [index, strips] of row.entries()) {
          const left = x + index * (widthPt + BETWEEN)
          pen.frame(left, y, widthPt, heightPt)
          drawAll(pen, strips, left + PADDING, y + PADDING)
        }
      },
      { abovePt: BETWEEN },
    )
  })
}
