import type { Block } from './blocks.ts'
import type { Pen } from './pen.ts'
import { drawAll, heightOf, type Strip, strip } from './strip.ts'
import type { Room } from './strips.ts'

const PADDING = 7
const BETWEEN = 8

/**
 * Boxes, two in a row. A quarter of a page is half of its height, so that two rows fill a page; a card that needs more
 * than that has a row of its own.
 */
export function cardStrips(
  pen: Pen,
  { cards, quarters }: Block & { readonly is: 'cards' },
  room: Room,
  layOut: (pen: Pen, blocks: readonly Block[], room: Room) => Strip[],
): Strip[] {
  const half = (room.widthPt - BETWEEN) / 2
  const quarterPt = (room.heightPt - BETWEEN) / 2
  const laid = (card: readonly Block[], widthPt: number) =>
    layOut(pen, card, { ...room, widthPt: widthPt - 2 * PADDING })
  const rows: { readonly cards: Strip[][]; readonly widthPt: number }[] = []
  for (const card of cards) {
    const narrow = laid(card, half)
    if (quarters && heightOf(narrow) + 2 * PADDING > quarterPt) {
      rows.push({ cards: [laid(card, room.widthPt)], widthPt: room.widthPt })
      continue
    }
    const last = rows.at(-1)
    if (last && last.cards.length === 1 && last.widthPt === half) last.cards.push(narrow)
    else rows.push({ cards: [narrow], widthPt: half })
  }
  return rows.map(({ cards: own, widthPt }) => {
    const natural = Math.max(...own.map(heightOf)) + 2 * PADDING
    const heightPt = quarters ? Math.max(natural, quarterPt) : natural
    return strip(
      heightPt,
      (on, x, y) => {
        for (const [index, strips] of own.entries()) {
          const left = x + index * (half + BETWEEN)
          on.frame(left, y, widthPt, heightPt)
          drawAll(on, strips, left + PADDING, y + PADDING)
        }
      },
      { abovePt: BETWEEN },
    )
  })
}
