import { attributes, type Html, html } from '../../html.ts'
import type { LengthsIn } from '../../show-length.ts'

/** The cards of a saved revision that are ticked off, and where ticks are sent. */
export interface FinishedCards {
  readonly action: string
  readonly cards: ReadonlySet<string>
}

const MOST_MARKS = 50

/** Names the card of alike pieces within a revision: if they come out otherwise, it is another card. */
export function cardOf(marks: readonly (string | undefined)[], lengthMm: number): string {
  const more = marks.length > MOST_MARKS ? ` and ${marks.length - MOST_MARKS} more` : ''
  return `${marks.slice(0, MOST_MARKS).join(' ')}${more}: ${lengthMm.toFixed(1)} mm`
}

/** How many cards are done. */
export function finishedCount(finished: FinishedCards, cards: readonly string[]): Html {
  const done = cards.filter((card) => finished.cards.has(card)).length
  return html`<p class="finished-count no-print" role="status">${done} of ${cards.length} cards done.</p>`
}

/** A button that ticks a card off, or takes that back; the page then comes to the next card that is open. */
export function finishForm(
  { action, cards: done }: FinishedCards,
  cards: readonly string[],
  index: number,
  lengthsIn: LengthsIn,
): Html {
  const card = cards[index]!
  const isDone = done.has(card)
  const open = (each: string, n: number) => n !== index && !done.has(each)
  const after = cards.findIndex((each, n) => n > index && open(each, n))
  const next = isDone ? index : after >= 0 ? after : Math.max(0, cards.findIndex(open))
  const button = attributes({ name: 'done', value: isDone ? 'no' : 'yes', 'aria-pressed': isDone ? 'true' : 'false' })
  return html`<form class="finish no-print" method="post" action="${action}">
<input type="hidden" name="card" value="${card}"><input type="hidden" name="next" value="${next}"><input type="hidden" name="show" value="${lengthsIn}">
<button class="small"${button}>Done<span class="unseen">: ${card}</span></button></form>`
}
