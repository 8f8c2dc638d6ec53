import type { CutStick, Estimate } from '../../../estimate/answer.ts'
import { LENGTH_SLACK_MM } from '../../../measure/counting.ts'
import { compareMoney } from '../../../measure/money.ts'
import { sum } from '../../../measure/sum.ts'
import { USUAL } from '../../../plan/usual.ts'
import { type Html, html } from '../../html.ts'
import type { WorkedPlan } from '../../pages/worked-plan.ts'
import { benchLength, gardenLength, type LengthsIn, lengthText } from '../../show-length.ts'
import { counted, spoken } from '../../words.ts'
import { groupIdenticalSticks, type IdenticalSticks } from './identical-sticks.ts'
import { markRow, type PieceMarks, pieceMarks } from './piece-marks.ts'
import { isWhole, PrintedPieces } from './printed-pieces.ts'
import { kerfOfCutMm, STICK_BAR_DEFS, stickBar } from './stick-bar.ts'

/** What to saw: sticks to use whole in one line for each length, then a card for each stick that is cut. */
export function cutList({ plan, estimate }: WorkedPlan, lengthsIn: LengthsIn): Html {
  const { cutting, tracks } = estimate
  if (cutting.sticksUsed === 0) return html`<p>No loose rail is needed, so there are no sticks to cut.</p>`
  const marks = pieceMarks(estimate)
  const printed = new PrintedPieces(cutting.sticks)
  const longestMm = Math.max(...cutting.sticks.map(({ lengthMm }) => lengthMm))
  const whole = cutting.sticks.filter(isWhole)
  const cut = groupIdenticalSticks(cutting.sticks, printed).filter(({ sticks }) => !isWhole(sticks[0]!))
  const keepMm = plan.supplies?.minimumPiece ?? USUAL.minimumPiece
  return html`<p>${counted(cutting.sticksUsed, 'stick')} (at least ${cutting.sticksLowerBound} are needed), ${whole.length} of them whole; offcuts:
${gardenLength(cutting.wasteMm, lengthsIn)}, of which ${gardenLength(cutting.reusableMm, lengthsIn)} are long enough to keep.</p>
${costNote(plan, estimate)}
<p class="hint">Chalk each piece with its mark: ${tracks.length > 1 && 'the track number, then '}L for the left rail or R for the right, then its number along
the rail${cutting.sticks.some(({ pieces }) => pieces.some(({ turnout }) => turnout)) && '; rails of turnouts have the turnout’s name and the number of the rail in the table below'}. ${cutting.sticks.some(({ trimMm }) => trimMm > 0) && '“Saw to” includes what is cut off after bending: see the bench sheet. '}${cut.length > 0 && 'In the bars, a left-hand bend is shaded along the upper edge, a right-hand bend along the lower edge; the hatched end is the offcut.'}</p>
${whole.length > 0 && wholeSticks(whole, marks, lengthsIn)}
${STICK_BAR_DEFS}
${cut.length > 0 && html`<h3>Sticks to cut</h3><div class="jobs sticks">${cut.map((group) => stickCard(group, { marks, printed, longestMm, keepMm, lengthsIn }))}</div>`}`
}

function wholeSticks(sticks: readonly CutStick[], marks: PieceMarks, lengthsIn: LengthsIn): Html {
  const groups = new Map<string, CutStick[]>()
  for (const stick of sticks) {
    const key = `${stick.fromStock} ${stick.lengthMm}`
    groups.set(key, [...(groups.get(key) ?? []), stick])
  }
  return html`<h3>Whole sticks, nothing to cut</h3>
<ul class="whole">${[...groups.values()].map(
    (group) =>
      html`<li>${group.length} × ${benchLength(group[0]!.lengthMm, lengthsIn)} ${group[0]!.fromStock ? 'on hand' : 'to buy'}: ${markRow(group.map(({ pieces }) => marks.get(pieces[0]!)))}</li>`,
  )}</ul>`
}

interface CardParts {
  readonly marks: PieceMarks
  readonly printed: PrintedPieces
  readonly longestMm: number
  /** Offcuts as long as this are kept. */
  readonly keepMm: number
  readonly lengthsIn: LengthsIn
}

/** A stick, or several that are cut alike: where to cut it, what the pieces are called, what is left. */
function stickCard({ numbers, sticks }: IdenticalSticks, parts: CardParts): Html {
  const { marks, printed, longestMm, lengthsIn } = parts
  const stick = sticks[0]!
  const kerfMm = kerfOfCutMm(stick)
  let reachedMm = 0
  const rows = stick.pieces.map((piece, position) => {
    const { sawLengthMm: sawMm } = piece
    const cutAtMm = reachedMm + sawMm
    reachedMm = cutAtMm + kerfMm
    const isLast = cutAtMm >= stick.lengthMm - LENGTH_SLACK_MM
    const before = stick.pieces.slice(0, position + 1)
    const cutAt = printed.show(lengthsIn, (of) => sum(before.map((each) => of(each).sawMm)) + position * kerfMm)
    return html`<tr><th scope="row">${markRow(sticks.map((each) => marks.get(each.pieces[position]!)))}</th><td><b>${printed.show(lengthsIn, (of) => of(piece).sawMm)}</b></td><td>${isLast ? 'end of the stick' : cutAt}</td></tr>`
  })
  const name = numbers.length === 1 ? `Stick ${numbers[0]}` : `Sticks ${spoken(numbers)}`
  return html`<section class="job"><h4>${name}: ${lengthText(stick.lengthMm, lengthsIn)}, ${stick.fromStock ? 'on hand' : 'to buy'}</h4>
${stickBar(stick, longestMm)}
<table class="figures cuts"><thead><tr><th scope="col">Piece</th><th scope="col">Saw to</th><th scope="col">Mark on the stick</th></tr></thead><tbody>${rows}</tbody></table>
${offcutNote(sticks, parts)}</section>`
}

function offcutNote(sticks: readonly CutStick[], { keepMm, lengthsIn }: CardParts): Html | null {
  const { offcutMm } = sticks[0]!
  if (offcutMm <= LENGTH_SLACK_MM) return null
  const length = html`${sticks.length > 1 && `${sticks.length} × `}${benchLength(offcutMm, lengthsIn)}`
  return offcutMm >= keepMm - LENGTH_SLACK_MM
    ? html`<p>Keep the offcut: <b>${length}</b></p>`
    : html`<p>Offcut: ${length}, too short to keep</p>`
}

/** The cost of the cut plan, the lower bound of the cost, and whether the plan is proven optimal. */
function costNote({ effort = USUAL.effort }: WorkedPlan['plan'], { cutting, bill }: Estimate): Html | null {
  const { cost, costLowerBound, provenOptimal, sticksUsed } = cutting
  if (sticksUsed === 0) return null
  const longer = effort === 'quick' && ' For a longer search, choose “Thorough” under “Stock and supplies”.'
  if (cost === null || costLowerBound === null)
    return html`<p>Some sticks have no price, so cut plans are compared by how much rail you have to buy. ${
      provenOptimal
        ? html`<b>Proven: no cut plan needs less rail to be bought.</b>`
        : html`It is not known whether another cut plan needs less rail to be bought.${longer}`
    }</p>`
  const joinersPriced = bill.lines.some(({ item, unitPrice }) => item === 'joiner' && unitPrice !== null)
  const what = joinersPriced ? 'sticks and joiners' : 'sticks'
  const costText = html`You have to buy ${what} for ${cost} ${bill.currency}, in whole packs.`
  if (provenOptimal) return html`<p>${costText} <b>Proven: no cut plan costs less.</b></p>`
  if (compareMoney(cost, costLowerBound) === 0)
    return html`<p>${costText} No cut plan costs less, but some rules for joints are broken: see the findings.</p>`
  return html`<p>${costText} No cut plan can cost less than ${costLowerBound} ${bill.currency}; it is not known whether there is a cheaper one than this.${longer}</p>`
}
