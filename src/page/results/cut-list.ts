import type { BendMark, CutPiece, CutStick, Estimate } from '../../estimate/answer.ts'
import { px } from '../drawing/view.ts'
import { type Html, html } from '../html.ts'
import { benchLength, gardenLength, type LengthsIn, lengthText } from '../show-length.ts'
import { counted } from '../words.ts'

/** The mark to chalk on each piece: which rail it belongs to and its place along that rail, such as `L3`. */
export type PieceMarks = ReadonlyMap<CutPiece, string>

/** Marks of all pieces; with several tracks the track's number goes before: `2-L3`. */
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

/** Every stick as a bar with its pieces, and each piece with its length and where its bends begin and end. */
export function cutList(estimate: Estimate, lengthsIn: LengthsIn): Html {
  const { cutting, tracks } = estimate
  const marks = pieceMarks(estimate)
  const longestMm = Math.max(...cutting.sticks.map(({ lengthMm }) => lengthMm))
  const severalTracks = tracks.length > 1
  return html`<p>${counted(cutting.sticksUsed, 'stick')} (no plan can do with fewer than ${cutting.sticksLowerBound}); left over
${gardenLength(cutting.wasteMm, lengthsIn)}, of which ${gardenLength(cutting.reusableMm, lengthsIn)} in pieces worth keeping.</p>
<p class="hint">Chalk each piece with its mark: ${severalTracks ? 'the number of its track, then ' : ''}L for the left rail or R for the right, then its place along
the rail. Distances of bends are from the end of the piece that is nearer the start of the track. In the bars a bend is
shaded between two ticks, and the hatched end is left over.</p>
<svg class="defs" width="0" height="0" aria-hidden="true"><defs><pattern id="left-over" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V6" class="hatch"/></pattern></defs></svg>
<table class="cuts"><thead><tr><th scope="col">Mark</th><th scope="col">Cut to</th><th scope="col">Lies</th><th scope="col">Bend on the piece</th></tr></thead>
${cutting.sticks.map((stick, index) => stickRows(stick, index, marks, longestMm, severalTracks, lengthsIn))}
</table>`
}

function stickRows(
  stick: CutStick,
  index: number,
  marks: PieceMarks,
  longestMm: number,
  severalTracks: boolean,
  lengthsIn: LengthsIn,
): Html {
  const left = stick.offcutMm > 0 ? html`, left over ${benchLength(stick.offcutMm, lengthsIn)}` : ''
  return html`<tbody><tr class="stick"><th scope="rowgroup" colspan="4"><span class="stick-name">Stick ${index + 1}: ${benchLength(stick.lengthMm, lengthsIn)}</span> <span class="hint">${stick.fromStock ? 'on hand' : 'to buy'}${left}</span>${stickBar(stick, marks, longestMm)}</th></tr>
${stick.pieces.map((piece) => pieceRow(piece, marks, severalTracks, lengthsIn))}</tbody>
`
}

function pieceRow(piece: CutPiece, marks: PieceMarks, severalTracks: boolean, lengthsIn: LengthsIn): Html {
  const whose = `${severalTracks ? `${piece.track}, ` : ''}${piece.rail} rail`
  const bends = piece.bends.map((bend) => html`<li>${bendText(bend, lengthsIn)}</li>`)
  return html`<tr><td class="mark">${marks.get(piece)}</td><td>${benchLength(piece.lengthMm, lengthsIn)}</td><td>${whose}, from ${gardenLength(piece.fromMm, lengthsIn)}</td><td>${bends.length > 0 ? html`<ul>${bends}</ul>` : 'straight'}</td></tr>
`
}

function bendText(bend: BendMark, lengthsIn: LengthsIn): Html {
  const span = html`${benchLength(bend.fromMm, lengthsIn)} to ${benchLength(bend.toMm, lengthsIn)}`
  if (bend.radiusMm !== null) return html`${span}: ${bend.turn}, R ${lengthText(bend.radiusMm, lengthsIn)}`
  const end = (radiusMm: number | null | undefined) => (radiusMm ? `R ${lengthText(radiusMm, lengthsIn)}` : 'straight')
  return html`${span}: ${bend.turn}, eased from ${end(bend.startRadiusMm)} to ${end(bend.endRadiusMm)}`
}

const BAR_WIDTH = 900
const BAR_HEIGHT = 22

/** A stick to the scale of the longest one: pieces with their marks, bends shaded between ticks, the offcut hatched. */
export function stickBar(stick: CutStick, marks: PieceMarks, longestMm: number): Html {
  const scale = BAR_WIDTH / longestMm
  const cuts = Math.max(1, stick.offcutMm > 0 ? stick.pieces.length : stick.pieces.length - 1)
  const kerfMm = stick.kerfMm / cuts
  const shapes: Html[] = []
  let atMm = 0
  for (const piece of stick.pieces) {
    const x = atMm * scale
    const width = piece.lengthMm * scale
    shapes.push(html`<rect class="piece" x="${px(x)}" y="1" width="${px(width)}" height="${BAR_HEIGHT}"/>`)
    for (const { fromMm, toMm, turn } of piece.bends) {
      const [from, to] = [x + fromMm * scale, x + toMm * scale]
      // Left bends hang from the upper edge, right bends stand on the lower one.
      const y = turn === 'left' ? 1 : BAR_HEIGHT - 5
      shapes.push(
        html`<rect class="bent" x="${px(from)}" y="${y}" width="${px(to - from)}" height="6"/><path class="tick" d="M${px(from)} 1v${BAR_HEIGHT}M${px(to)} 1v${BAR_HEIGHT}"/>`,
      )
    }
    const mark = marks.get(piece) ?? ''
    if (width > mark.length * 8 + 4)
      shapes.push(html`<text x="${px(x + width / 2)}" y="${BAR_HEIGHT / 2 + 5.5}">${mark}</text>`)
    atMm += piece.lengthMm + kerfMm
  }
  if (stick.offcutMm > 0) {
    const width = stick.offcutMm * scale
    shapes.push(
      html`<rect class="offcut" x="${px(stick.lengthMm * scale - width)}" y="1" width="${px(width)}" height="${BAR_HEIGHT}" fill="url(#left-over)"/>`,
    )
  }
  return html`<svg class="bar" viewBox="-1 0 ${BAR_WIDTH + 2} ${BAR_HEIGHT + 2}" aria-hidden="true">${shapes}</svg>`
}
