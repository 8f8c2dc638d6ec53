import type { Estimate, TrackAnswer } from '../../estimate/answer.ts'
import { type Html, html } from '../html.ts'
import { benchLength, formatDegrees, gapLength, type LengthsIn } from '../show-length.ts'
import { counted, spoken } from '../words.ts'
import { turnoutRailMark } from './saw/piece-marks.ts'

type BuiltTurnout = NonNullable<TrackAnswer['elements'][number]['turnout']>
type BuiltRail = NonNullable<BuiltTurnout['rails']>[number]
type Kink = BuiltRail['kinks'][number]

function builtIn({ tracks }: Estimate): BuiltTurnout[] {
  return tracks.flatMap(({ elements }) => elements.flatMap(({ turnout }) => (turnout?.rails ? [turnout] : [])))
}

/**
 * Which turnouts are built by hand and what they take, and where there is power, how their frogs are fed (common practice,
 * no source). Null where there are none.
 */
export function builtTurnouts(estimate: Estimate): Html | null {
  const built = builtIn(estimate)
  if (built.length === 0) return null
  const isListed = estimate.bill.lines.some(({ item }) => item === 'frog-switch')
  return html`<ul class="bench-notes">${built.map(
    ({ name, ties, rails = [] }) =>
      html`<li><b>${name}</b> is built by hand: its ${counted(rails.length, 'rail')} are in the cut list, and it has ${counted(ties.length, 'tie')} of its own.${
        estimate.power !== null &&
        ` If its frog is one piece of metal, part it from the other rails by insulated joiners and feed it through a switch that is thrown with the points.${isListed ? '' : ' Mark the frog of its kind as fed by itself to have these on the list.'}`
      }</li>`,
  )}</ul>`
}

/** The rails of each turnout that is built by hand: what each mark of the cut list is, and where it lies. */
export function turnoutRails(estimate: Estimate, lengthsIn: LengthsIn): Html | null {
  const built = builtIn(estimate)
  if (built.length === 0) return null
  const hasGaps = built.some(({ rails = [] }) => rails.some(({ gapAheadMm }) => gapAheadMm !== undefined))
  return html`${built.map(
    ({ name, rails = [] }) => html`<h3>Rails of ${name}</h3>
<div class="scroll" role="region" aria-label="Rails of ${name}" tabindex="0"><table class="figures">
<thead><tr><th scope="col">Mark</th><th scope="col">Rail</th><th scope="col">Leg</th><th scope="col">Side</th><th scope="col">From the points</th><th scope="col">Length</th>${hasGaps && html`<th scope="col">Gap behind it</th>`}</tr></thead>
<tbody>${rails.map((rail, index) => railRow(turnoutRailMark(name, index), rail, hasGaps, lengthsIn))}</tbody></table></div>`,
  )}
<p class="hint">Sides are seen from the points, and lengths run along the middle of the head. Plane the switch rails to fit the stock rails, and file the point rails together: they begin at the theoretical point of the frog, where the gauge lines cross.${hasGaps && ' Lengths run from joint to joint: the gaps are already taken off the pieces in the cut list.'} Guard rails and wing rails keep the flangeway of your wheel standard; flare their ends.</p>`
}

function railRow(
  mark: string,
  { parts, leg, side, fromMm, lengthMm, gapAheadMm }: BuiltRail,
  hasGaps: boolean,
  lengthsIn: LengthsIn,
): Html {
  const gap = gapAheadMm === undefined ? '–' : gapAheadMm === 0 ? 'none' : gapLength(gapAheadMm, lengthsIn)
  return html`<tr><th scope="row">${mark}</th><td>${partsText(parts)}</td><td>${leg}</td><td>${side}</td><td>${benchLength(fromMm, lengthsIn)}</td><td>${benchLength(lengthMm, lengthsIn)}</td>${hasGaps && html`<td>${gap}</td>`}</tr>\n`
}

/** Such as `switch, closure and wing rail`. */
function partsText(parts: BuiltRail['parts']): string {
  return `${spoken(parts.map((part) => part.replace('-rail', '')))} rail`
}

/** Rails of turnouts that are bent in one place. */
export function turnoutKinks(estimate: Estimate, lengthsIn: LengthsIn): Html | null {
  const bent = builtIn(estimate).flatMap(({ name, rails = [] }) =>
    rails.flatMap((rail, index) => rail.kinks.map((kink) => ({ mark: turnoutRailMark(name, index), rail, kink }))),
  )
  if (bent.length === 0) return null
  return html`<h3>Rails of turnouts to bend in one place</h3>
<ul class="bench-notes">${bent.map(({ mark, rail, kink }) => html`<li><b>${mark}</b>, ${partsText(rail.parts)}: ${kinkText(kink, lengthsIn)}</li>`)}</ul>
<p class="hint">Measured from the end nearer the points. At the points themselves a stock rail is bent against the rail before it: lay the bend where the switch rail will lie against it.</p>`
}

function kinkText({ atMm, angleDeg, turn }: Kink, lengthsIn: LengthsIn): Html {
  const where = atMm < AT_POINTS_MM ? 'at the points' : html`${benchLength(atMm, lengthsIn)} from its end`
  return html`<b>${formatDegrees(angleDeg)}</b> to the ${turn}, ${where}`
}

const AT_POINTS_MM = 0.05
