import type { Estimate, ReadyMadeAnswer, TrackAnswer } from '../../../estimate/answer.ts'
import { minorUnitsOf, moneyOf, placesOf } from '../../../measure/money.ts'
import { type Html, html } from '../../html.ts'
import { benchLength, formatDegrees, gardenLength, type LengthsIn } from '../../show-length.ts'
import { counted, elementNumber, spoken } from '../../words.ts'
import { type LaidPiece, laidPieces, type UsedPiece, usedPieces } from './laid-pieces.ts'

/** Whether ready-made pieces are used, and what that saves. */
export function readyMadeCosts(estimate: Estimate, readyMade: ReadyMadeAnswer): Html {
  return readyMade.choice === 'never' ? NEVER : costs(readyMade, estimate.bill.currency)
}

const NEVER = html`<p>The plan lists ready-made pieces but does not use them: all track is made of loose rail.</p>`

/** Which ready-made pieces to use and cut, and what remains loose rail; null where none may be used. */
export function readyMadeCuts(estimate: Estimate, readyMade: ReadyMadeAnswer, lengthsIn: LengthsIn): Html | null {
  if (readyMade.choice === 'never') return null
  const used = usedPieces(estimate)
  return html`${
    used.length > 0 &&
    html`<h3>Pieces to use and cut</h3>
${usedTable(used, lengthsIn)}`
  }
${looseList(estimate, readyMade)}`
}

/** Where each ready-made piece goes; null if there is none. */
export function layingOrder(estimate: Estimate, readyMade: ReadyMadeAnswer, lengthsIn: LengthsIn): Html | null {
  const pieces = laidPieces(estimate)
  if (pieces.length === 0) return null
  return html`<h3>Order of laying</h3>
${estimate.tracks.map((track, index) => layTable(track, index, estimate, pieces, lengthsIn))}
${openNote(estimate, readyMade, lengthsIn)}`
}

const CHOICES = {
  cheapest: 'Ready-made pieces are used where that lowers the cost.',
  always: 'Ready-made pieces are used wherever they fit.',
} as const

function costs({ choice, cost, looseCost, stretches }: ReadyMadeAnswer, currency: string): Html {
  const none = stretches.length === 0 && html` <b>None in this plan:</b> all track is made of loose rail.`
  const choiceText = html`<p>${CHOICES[choice === 'always' ? 'always' : 'cheapest']}${none}</p>`
  if (stretches.length === 0) return choiceText
  if (cost === null || looseCost === null)
    return html`${choiceText}<p class="hint">${cost === null ? 'Some items to buy have no price, so the cost is not known.' : html`Cost of items to buy: ${cost} ${currency}. The plan cannot be built of loose rail only, or an item for it has no price.`}</p>`
  const saved = minorUnitsOf(looseCost) - minorUnitsOf(cost)
  return html`${choiceText}<dl class="facts">
<div><dt>Cost as planned</dt><dd>${cost} ${currency}</dd></div>
<div><dt>Cost with loose rail only</dt><dd>${looseCost} ${currency}</dd></div>
<div><dt>${saved < 0 ? 'Extra cost' : 'Saving'}</dt><dd>${saved === 0 ? 'nothing' : html`${moneyOf(Math.abs(saved), placesOf(currency))} ${currency}`}</dd></div>
</dl>
<p class="hint">Rail, ready-made pieces, joiners, ties and fasteners still to be bought, in whole packs.</p>`
}

/** Pieces that are cut in the same way are in one row. */
function usedTable(used: readonly UsedPiece[], lengthsIn: LengthsIn): Html {
  const groups = new Map<string, UsedPiece[]>()
  for (const each of used) {
    const key = JSON.stringify([each.panel, each.fromStock, each.laid.map(({ lengthMm }) => lengthMm.toFixed(1))])
    groups.set(key, [...(groups.get(key) ?? []), each])
  }
  const cuts = used.some(({ laid }) => laid.some(({ whole }) => !whole))
  return html`${cuts && html`<p class="hint">Cut both rails square to the centre line; lengths are along the centre line. If a tie is in the way of the cut, move it first.</p>`}
<div class="scroll" role="region" aria-label="Ready-made pieces to use and cut" tabindex="0"><table class="figures words pieces-used">
<thead><tr><th scope="col">Quantity</th><th scope="col">Piece</th><th scope="col">Source</th><th scope="col">Marks</th><th scope="col">Offcut</th></tr></thead>
<tbody>${[...groups.values()].map((group) => usedRow(group, lengthsIn))}</tbody></table></div>`
}

function usedRow(group: readonly UsedPiece[], lengthsIn: LengthsIn): Html {
  const { name, fromStock, laid, offcutMm } = group[0]!
  const made = laid.map((piece, position) => {
    const marks = group.map((each) => each.laid[position]!.mark)
    return html`<li>${markList(marks)}: ${sizeText(piece, lengthsIn)}</li>`
  })
  return html`<tr><th scope="row">${group.length} ×</th><td>${name}</td><td>${fromStock ? 'on hand' : 'to buy'}</td><td><ul>${made}</ul></td><td>${offcutMm > NOTHING_MM ? benchLength(offcutMm, lengthsIn) : 'none'}</td></tr>
`
}

const NOTHING_MM = 0.005

/** Lines may break between two marks but not within one. */
function markList(marks: readonly string[]): Html[] {
  return marks.map((mark, index) => html`${index > 0 && ', '}<b class="one">${mark}</b>`)
}

function sizeText({ whole, lengthMm, angleDeg }: LaidPiece, lengthsIn: LengthsIn): Html {
  if (whole) return html`whole`
  return html`cut to ${angleDeg !== null && `${formatDegrees(angleDeg)}, `}${benchLength(lengthMm, lengthsIn)}`
}

/** Null for a track without ready-made pieces. Loose rail between pieces has a row too, so that the list is complete. */
function layTable(
  { name, elements }: TrackAnswer,
  index: number,
  { tracks, readyMade }: Estimate,
  all: readonly LaidPiece[],
  lengthsIn: LengthsIn,
): Html | null {
  const pieces = all.filter(({ track }) => track === index)
  if (pieces.length === 0) return null
  const numberOf = (element: number) => elementNumber(element, index, tracks.length > 1)
  const nameOf = (panel: number) => readyMade!.panels.find((each) => each.panel === panel)!.name
  const rows: Html[] = []
  for (let n = 0; n < elements.length; n++) {
    const own = pieces.filter(({ element }) => element === n)
    for (const piece of own)
      rows.push(html`<tr><th scope="row">${piece.mark}</th><td>${gardenLength(piece.fromMm, lengthsIn)}</td><td>${gardenLength(piece.toMm, lengthsIn)}</td><td>${numberOf(n)}${piece.angleDeg !== null && `, ${elements[n]!.turn}`}</td><td>${nameOf(piece.panel)}${!piece.whole && html`, <b>${sizeText(piece, lengthsIn)}</b>`}</td></tr>
`)
    if (own.length > 0) continue
    let last = n
    while (last + 1 < elements.length && !pieces.some(({ element }) => element === last + 1)) last++
    rows.push(html`<tr class="secondary"><th scope="row">–</th><td>${gardenLength(elements[n]!.fromMm, lengthsIn)}</td><td>${gardenLength(elements[last]!.toMm, lengthsIn)}</td><td>${numberOf(n)}${last > n && ` to ${numberOf(last)}`}</td><td>loose rail, from the cut list</td></tr>
`)
    n = last
  }
  return html`${tracks.length > 1 && html`<h4>${name}</h4>`}
<div class="scroll" role="region" aria-label="Ready-made pieces of ${name}" tabindex="0"><table class="figures words pieces-laid">
<thead><tr><th scope="col">Mark</th><th scope="col">From</th><th scope="col">To</th><th scope="col">Element</th><th scope="col">Piece</th></tr></thead>
<tbody>${rows}</tbody></table></div>`
}

/** Stretches that whole pieces do not completely fill. */
function openNote({ tracks }: Estimate, { stretches }: ReadyMadeAnswer, lengthsIn: LengthsIn): Html | null {
  const open = stretches.filter(({ leftOpenMm }) => leftOpenMm > NOTHING_MM)
  if (open.length === 0) return null
  return html`<p>Leave these gaps, spread over the joints: ${open.map(({ track, element, leftOpenMm }, index) => {
    const number = tracks.findIndex(({ name }) => name === track)
    return html`${index > 0 && '; '}${benchLength(leftOpenMm, lengthsIn)} in element ${elementNumber(element, number, tracks.length > 1)}`
  })}.</p>`
}

/** Elements of loose rail, grouped by reason. */
function looseList({ tracks }: Estimate, { loose }: ReadyMadeAnswer): Html | null {
  if (loose.length === 0) return null
  const byReason = new Map<string, string[]>()
  for (const { track, element, reason } of loose) {
    const number = elementNumber(
      element,
      tracks.findIndex(({ name }) => name === track),
      tracks.length > 1,
    )
    byReason.set(reason, [...(byReason.get(reason) ?? []), number])
  }
  return html`<h3>Loose rail and the reasons</h3>
<ul>${[...byReason].map(
    ([reason, numbers]) =>
      html`<li>${numbers.length === 1 ? 'Element' : 'Elements'} ${spoken(numbers)}: ${reason}.</li>`,
  )}</ul>`
}

/** For the summary: `, and 11 ready-made pieces`. */
export function piecesUsed({ readyMade }: Estimate): string {
  const used = readyMade?.panels.length ?? 0
  return used === 0 ? '' : `, and ${counted(used, 'ready-made piece')}`
}
