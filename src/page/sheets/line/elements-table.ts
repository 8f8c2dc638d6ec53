import type { ElementAnswer, TrackAnswer } from '../../../estimate/answer.ts'
import { placeInPlan } from '../../drawing/plan-drawing.ts'
import { type Content, type Html, html } from '../../html.ts'
import { benchLength, formatDegrees, gardenLength, type LengthsIn } from '../../show-length.ts'
import { counted, kindName } from '../../words.ts'

/** Dimensions of a track: totals, then every element with its stations and the length of each rail. */
export function elementsTable(
  track: TrackAnswer,
  index: number,
  numberOf: (element: number) => string,
  lengthsIn: LengthsIn,
): Html {
  const { rails, joints, ties, turnedDeg } = track
  return html`<h3>${track.name}${track.label && html` <span class="hint">${track.label}</span>`}</h3>
<dl class="facts">
<div><dt>Length</dt><dd>${gardenLength(track.lengthMm, lengthsIn)}</dd></div>
<div><dt>Left rail</dt><dd>${gardenLength(rails.left.lengthMm, lengthsIn)}</dd></div>
<div><dt>Right rail</dt><dd>${gardenLength(rails.right.lengthMm, lengthsIn)}</dd></div>
<div><dt>Total turn</dt><dd>${formatDegrees(Math.abs(turnedDeg))}${turnedDeg !== 0 && (turnedDeg > 0 ? ' left' : ' right')}</dd></div>
${
  track.state === 'new'
    ? html`<div><dt>Ties</dt><dd>${ties}, ${benchLength(track.tieSpacingMm, lengthsIn === 'both' ? 'metric' : lengthsIn)} apart</dd></div>
<div><dt>Joints</dt><dd>${joints}</dd></div>`
    : html`<div><dt>Status</dt><dd>${track.state === 'existing' ? 'existing: nothing to cut or buy' : 'to be lifted: its material can be reused'}</dd></div>`
}
${closureFact(track, lengthsIn)}${gradeFact(track, lengthsIn)}
</dl>
<div class="scroll" role="region" aria-label="Elements of ${track.name}" tabindex="0"><table class="figures elements-table">
<thead><tr><th scope="col">#</th><th scope="col">Kind</th><th scope="col">From</th><th scope="col">To</th><th scope="col">Length</th><th scope="col">Curve</th><th scope="col">Left rail</th><th scope="col">Right rail</th><th scope="col">Remark</th></tr></thead>
<tbody>${track.elements.map((element) => row(element, index, numberOf(element.index), lengthsIn))}</tbody></table></div>`
}

function row(element: ElementAnswer, track: number, number: string, lengthsIn: LengthsIn): Html {
  const { kind, label, fromMm, toMm, lengthMm, rails } = element
  return html`<tr${placeInPlan(track, element.index)}><th scope="row">${number}</th><td>${kindName(kind)}</td><td>${gardenLength(fromMm, lengthsIn)}</td><td>${gardenLength(toMm, lengthsIn)}</td><td>${benchLength(lengthMm, lengthsIn)}</td><td>${curve(element, lengthsIn)}</td><td>${benchLength(rails.left.lengthMm, lengthsIn)}</td><td>${benchLength(rails.right.lengthMm, lengthsIn)}</td><td class="remark">${label}</td></tr>
`
}

function curve(element: ElementAnswer, lengthsIn: LengthsIn): Content {
  if (element.kind === 'tangent') return '–'
  if (element.crossing) return `${element.crossing.name}, at ${formatDegrees(element.crossing.angleDeg)}`
  const turn = element.turn && `${formatDegrees(Math.abs(element.angleDeg))} ${element.turn}`
  if (element.turnout) return [`${element.turnout.name}: ${element.turnout.type}`, turn].filter(Boolean).join(', ')
  const radius = (mm: number) => html`R ${benchLength(mm, lengthsIn)}`
  if (element.radiusMm !== null)
    return html`${radius(element.radiusMm)}, ⌀ ${benchLength(2 * element.radiusMm, lengthsIn)}, ${turn}`
  const end = (radiusMm: number | null | undefined) => (radiusMm ? radius(radiusMm) : 'straight')
  return html`${end(element.startRadiusMm)} → ${end(element.endRadiusMm)}, ${turn}`
}

function closureFact({ closure }: TrackAnswer, lengthsIn: LengthsIn): Html | null {
  if (!closure) return null
  const { gapMm, headingDeg } = closure
  return html`<div><dt>Gap at the end</dt><dd>${benchLength(gapMm, lengthsIn)}${headingDeg !== null && ` and ${formatDegrees(Math.abs(headingDeg))}`}</dd></div>`
}

function gradeFact({ grades, profile, start, end }: TrackAnswer, lengthsIn: LengthsIn): Html | null {
  const { steepestPct } = profile
  if (!(steepestPct > 0)) return null
  const sloping = grades.filter(({ gradePct, endGradePct }) => gradePct !== 0 && endGradePct === undefined).length
  return html`<div><dt>Grade</dt><dd>at most ${Number(steepestPct.toFixed(2))} %, ${counted(sloping, 'slope')}; from ${benchLength(start.elevationMm, lengthsIn)} to ${benchLength(end.elevationMm, lengthsIn)}</dd></div>`
}
