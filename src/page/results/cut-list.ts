import type { BendMark, CutPiece, CutStick, Estimate } from '../../estimate/answer.ts'
import { compareMoney } from '../../measure/money.ts'
import { px } from '../drawing/view.ts'
import { type Html, html } from '../html.ts'
import type { WorkedPlan } from '../pages/worked-plan.ts'
import { benchLength, gardenLength, type LengthsIn } from '../show-length.ts'
import { counted, spoken } from '../words.ts'

/** The mark to chalk on each piece: its rail and its number along that rail, such as `L3`. */
export type PieceMarks = ReadonlyMap<CutPiece, string>

/** Marks of all pieces; with several tracks the track's number comes first: `2-L3`. */
export function pieceMarks({ cutting, tracks }: Pick<Estimate, 'cutting' | 'tracks'>): PieceMarks {
  const marks = new Map<CutPiece, string>()
  const pieces = cutting.sticks.flatMap((stick) => stick.pieces).sort((a, b) => a.fromMm - b.fromMm)
  for (const [number, { name }] of tracks.entries())
    for (const side of ['left', 'right'] as const) {
      const prefix = `${tracks.length > 1 ? `${number + 1}-` : ''}${side === 'left' ? 'L' : 'R'}`
      const along = pieces.filter(({ track, rail }) => track === name && rail === side)
      for (const [index, piece] of along.entries()) marks.set(piece, `${prefix}${index + 1}`)
    }
  return marks
}

/** Sticks that are cut and bent in the same way, by their numbers in the cut plan. */
interface IdenticalSticks {
  readonly numbers: number[]
  readonly sticks: CutStick[]
}

/** Every stick as a bar with its pieces; each piece with its length and where its bends begin and end. */
export function cutList({ plan, estimate }: WorkedPlan, lengthsIn: LengthsIn): Html {
  const { cutting, tracks } = estimate
  if (cutting.sticksUsed === 0) return html`<p>No loose rail is needed, so there are no sticks to cut.</p>`
  const marks = pieceMarks(estimate)
  const longestMm = Math.max(...cutting.sticks.map(({ lengthMm }) => lengthMm))
  const severalTracks = tracks.length > 1
  const trimmed = cutting.sticks.some(({ trimMm }) => trimMm > 0)
  const columns = trimmed ? 5 : 4
  const rows = groupIdenticalSticks(cutting.sticks).map(
    (group) => html`<tbody>${stickRow(group, marks, longestMm, columns, lengthsIn)}
${pieceRows(group, marks, severalTracks, trimmed, lengthsIn)}</tbody>
`,
  )
  return html`<p>${counted(cutting.sticksUsed, 'stick')} (at least ${cutting.sticksLowerBound} are needed); offcuts:
${gardenLength(cutting.wasteMm, lengthsIn)}, of which ${gardenLength(cutting.reusableMm, lengthsIn)} are long enough to keep.</p>
${costNote(plan, estimate)}
<p class="hint">Chalk each piece with its mark: ${severalTracks && 'the track number, then '}L for the left rail or R for the right, then its number along
the rail. Distances to bends are measured from the sawn end nearer the start of the track. In the bars, a left-hand bend
is shaded along the upper edge, a right-hand bend along the lower edge; the hatched end is the offcut.</p>
${trimmed && trimNote(plan, lengthsIn)}
<svg class="defs" width="0" height="0" aria-hidden="true"><defs><pattern id="left-over" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V6" class="hatch"/></pattern></defs></svg>
<table class="cuts"><thead><tr><th scope="col">Mark</th><th scope="col">Saw to</th><th scope="col">Position</th><th scope="col">Mark and bend</th>${trimmed && html`<th scope="col">Trim to</th>`}</tr></thead>
${rows}</table>`
}

/** The cost of the cut plan, the lower bound of the cost, and whether the plan is proven optimal. */
function costNote({ supplies, effort }: WorkedPlan['plan'], { cutting, bill }: Estimate): Html | null {
  const { cost, costLowerBound, provenOptimal, sticksUsed } = cutting
  if (sticksUsed === 0) return null
  const longer = effort === 'quick' && ' For a longer search, choose “Thorough” under “Stock and supplies”.'
  if (cost === null || costLowerBound === null)
    return html`<p>Some sticks have no price, so cut plans are compared by how much rail you have to buy. ${
      provenOptimal
        ? html`<b>Proven: no cut plan needs less rail to be bought.</b>`
        : html`It is not known whether another cut plan needs less rail to be bought.${longer}`
    }</p>`
  const what = supplies.joiners.pricePerPack === null ? 'sticks' : 'sticks and joiners'
  const costText = html`You have to buy ${what} for ${cost} ${bill.currency}, in whole packs.`
  if (provenOptimal) return html`<p>${costText} <b>Proven: no cut plan costs less.</b></p>`
  if (compareMoney(cost, costLowerBound) === 0)
    return html`<p>${costText} No cut plan costs less, but some rules for joints are broken: see the findings.</p>`
  return html`<p>${costText} No cut plan can cost less than ${costLowerBound} ${bill.currency}; it is not known whether there is a cheaper one than this.${longer}</p>`
}

/** Why pieces are sawn longer than they are laid. */
function trimNote({ bender }: WorkedPlan['plan'], lengthsIn: LengthsIn): Html {
  const { roller, ends, work } = bender
  const ofEnds =
    roller &&
    ends === 'trim' &&
    html` The rollers leave ${benchLength(roller.spanMm / 2, lengthsIn)} straight at each end of a piece. Where an end lies in a bend or nearer to one than that, the piece is sawn longer by it.`
  const ofCreep =
    work === 'assembled' &&
    html` The inner rail of assembled track creeps out and is sawn longer by that, at its ${bender.fixedEnd === 'start' ? 'end' : 'start'}.`
  return html`<p><b>Trim after bending.</b>${ofEnds}${ofCreep} Mark and bend the piece as it is sawn, then trim it.</p>`
}

/** Groups sticks that are the same to within what can be measured at the bench. */
export function groupIdenticalSticks(sticks: readonly CutStick[]): readonly IdenticalSticks[] {
  const groups = new Map<string, IdenticalSticks>()
  for (const [index, stick] of sticks.entries()) {
    const key = JSON.stringify([stick.lengthMm, stick.fromStock, stick.pieces.map(comparisonKey)])
    const group = groups.get(key)
    if (group) {
      group.numbers.push(index + 1)
      group.sticks.push(stick)
    } else groups.set(key, { numbers: [index + 1], sticks: [stick] })
  }
  return [...groups.values()]
}

function comparisonKey({ lengthMm, trimStartMm, trimEndMm, bends }: CutPiece): unknown {
  const tenths = (mm: number | null | undefined) => (mm ? mm.toFixed(1) : null)
  return [
    tenths(lengthMm),
    tenths(trimStartMm),
    tenths(trimEndMm),
    bends.map(({ fromMm, toMm, radiusMm, startRadiusMm, endRadiusMm, turn }) => [
      ...[fromMm, toMm, radiusMm, startRadiusMm, endRadiusMm].map(tenths),
      turn,
    ]),
  ]
}

function stickRow(
  { numbers, sticks }: IdenticalSticks,
  marks: PieceMarks,
  longestMm: number,
  columns: number,
  lengthsIn: LengthsIn,
): Html {
  const stick = sticks[0]!
  const trim = stick.trimMm > 0 ? html`, including ${benchLength(stick.trimMm, lengthsIn)} of trim` : ''
  const left = stick.offcutMm > 0 ? html`, offcut ${benchLength(stick.offcutMm, lengthsIn)}` : ''
  const name = numbers.length === 1 ? `Stick ${numbers[0]}` : `Sticks ${spoken(numbers)}`
  const identical = numbers.length > 1 && html`${counted(numbers.length, 'identical stick')}, `
  return html`<tr class="stick"><th scope="rowgroup" colspan="${columns}">${name}: ${benchLength(stick.lengthMm, lengthsIn)} <span class="hint">· ${identical}${stick.fromStock ? 'on hand' : 'to buy'}${trim}${left}</span>${stickBar(sticks, marks, longestMm)}</th></tr>`
}

/** A row for the first piece of all identical sticks, then one for the second, and so on. */
function pieceRows(
  { sticks }: IdenticalSticks,
  marks: PieceMarks,
  severalTracks: boolean,
  trimmed: boolean,
  lengthsIn: LengthsIn,
): Html[] {
  return sticks[0]!.pieces.map((piece, position) => {
    const pieces = sticks.map((stick) => stick.pieces[position]!)
    const bends = piece.bends.map((bend) => html`<li>${bendText(bend, piece.lengthMm, lengthsIn)}</li>`)
    return html`<tr><td class="mark">${pieces.map((each, index) => html`${index > 0 && ', '}<span class="one">${marks.get(each)}</span>`)}</td><td>${benchLength(piece.sawLengthMm, lengthsIn)}</td><td>${places(pieces, severalTracks, lengthsIn)}</td><td>${bends.length > 0 ? html`<ul>${bends}</ul>` : 'straight'}</td>${trimmed && html`<td>${trimText(piece, lengthsIn)}</td>`}</tr>
`
  })
}

function marksOf(pieces: readonly CutPiece[], marks: PieceMarks): string {
  return pieces.map((piece) => marks.get(piece) ?? '').join(', ')
}

function places(pieces: readonly CutPiece[], severalTracks: boolean, lengthsIn: LengthsIn): Html {
  const rails = [...new Set(pieces.map(({ track, rail }) => `${severalTracks ? `${track}, ` : ''}${rail} rail`))]
  const ofRail = (name: string) =>
    pieces.filter(({ track, rail }) => name === `${severalTracks ? `${track}, ` : ''}${rail} rail`)
  return html`<ul>${rails.map(
    (rail) =>
      html`<li>${rail}, from ${ofRail(rail).map(({ fromMm }, index) => html`${index > 0 && ', '}<span class="one">${gardenLength(fromMm, lengthsIn)}</span>`)}</li>`,
  )}</ul>`
}

function bendText(bend: BendMark, pieceMm: number, lengthsIn: LengthsIn): Html {
  const allAlong = bend.fromMm < 0.05 && bend.toMm > pieceMm - 0.05
  const span = allAlong
    ? 'full length'
    : html`${benchLength(bend.markFromMm, lengthsIn)} to ${benchLength(bend.markToMm, lengthsIn)}`
  const radius = (mm: number) => html`R ${benchLength(mm, lengthsIn)}`
  if (bend.radiusMm !== null) return html`${span}: ${bend.turn}, ${radius(bend.radiusMm)}`
  const end = (radiusMm: number | null | undefined) => (radiusMm ? radius(radiusMm) : 'straight')
  return html`${span}: ${bend.turn}, easement from ${end(bend.startRadiusMm)} to ${end(bend.endRadiusMm)}`
}

/** The length of the finished piece, and what to cut off each end to get there. */
function trimText({ lengthMm, trimStartMm, trimEndMm }: CutPiece, lengthsIn: LengthsIn): Html | null {
  if (trimStartMm === 0 && trimEndMm === 0) return null
  const off = [
    trimStartMm > 0 && html`${benchLength(trimStartMm, lengthsIn)} off the start`,
    trimEndMm > 0 && html`${benchLength(trimEndMm, lengthsIn)} off the end`,
  ].filter((part) => part !== false)
  return html`${benchLength(lengthMm, lengthsIn)}: ${off.map((part, n) => html`${n > 0 && ', '}${part}`)}`
}

const BAR_WIDTH = 900
const BAR_HEIGHT = 22

/**
 * A stick to the scale of the longest one: pieces with their marks and trim, bends shaded between ticks, the offcut
 * hatched.
 */
export function stickBar(sticks: readonly CutStick[], marks: PieceMarks, longestMm: number): Html {
  const stick = sticks[0]!
  const scale = BAR_WIDTH / longestMm
  const cuts = Math.max(1, stick.offcutMm > 0 ? stick.pieces.length : stick.pieces.length - 1)
  const kerfMm = stick.kerfMm / cuts
  const shapes: Html[] = []
  let atMm = 0
  for (const [position, piece] of stick.pieces.entries()) {
    if (piece.trimMm > 0)
      shapes.push(
        html`<rect class="trim" x="${px(atMm * scale)}" y="4" width="${px(piece.sawLengthMm * scale)}" height="${BAR_HEIGHT - 6}"/>`,
      )
    const x = (atMm + piece.trimStartMm) * scale
    const width = piece.lengthMm * scale
    shapes.push(html`<rect class="piece" x="${px(x)}" y="1" width="${px(width)}" height="${BAR_HEIGHT}"/>`)
    for (const { fromMm, toMm, turn } of piece.bends) {
      const [from, to] = [x + fromMm * scale, x + toMm * scale]
      const y = turn === 'left' ? 1 : BAR_HEIGHT - 5
      shapes.push(
        html`<rect class="bent" x="${px(from)}" y="${y}" width="${px(to - from)}" height="6"/><path class="tick" d="M${px(from)} 1v${BAR_HEIGHT}M${px(to)} 1v${BAR_HEIGHT}"/>`,
      )
    }
    const texts = [
      marksOf(
        sticks.map((each) => each.pieces[position]!),
        marks,
      ),
      `${marks.get(piece)} …`,
    ]
    const text = texts.find((each) => each.length * 8 + 6 < width)
    if (text) shapes.push(html`<text x="${px(x + width / 2)}" y="${BAR_HEIGHT / 2 + 5.5}">${text}</text>`)
    atMm += piece.sawLengthMm + kerfMm
  }
  if (stick.offcutMm > 0) {
    const width = stick.offcutMm * scale
    shapes.push(
      html`<rect class="offcut" x="${px(stick.lengthMm * scale - width)}" y="1" width="${px(width)}" height="${BAR_HEIGHT}" fill="url(#left-over)"/>`,
    )
  }
  return html`<svg class="bar" viewBox="-1 0 ${BAR_WIDTH + 2} ${BAR_HEIGHT + 2}" preserveAspectRatio="none" aria-hidden="true">${shapes}</svg>`
}
