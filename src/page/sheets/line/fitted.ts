import type { Estimate } from '../../../estimate/answer.ts'
import type { FittedPlace } from '../../../estimate/fitted/fitted-patch.ts'
import type { FitOptions } from '../../../estimate/questions/fit-options.ts'
import { faultText } from '../../form/controls.ts'
import { type Html, html } from '../../html.ts'
import { faultInUnits } from '../../in-units.ts'
import type { WorkedPlan } from '../../pages/worked-plan.ts'
import { benchLength, formatDegrees, type LengthsIn } from '../../show-length.ts'
import { counted, elementNumber, kindName } from '../../words.ts'
import { patchButton } from './remedy.ts'

/** The button that asks for turnouts at the ends of connections. */
export const TURNOUTS_AT_ENDS = 'turnouts-at-ends'

/** What the plan left to be fitted came to be, with a button that writes it into the plan; nothing for other plans. */
export function fittedCard({ plan, estimate, fitted }: WorkedPlan, lengthsIn: LengthsIn): Html | null {
  if (fitted.places.length === 0) return null
  const { tracks } = estimate
  const hasTurnouts = plan.turnoutTypes?.some(({ onHand = 0 }) => onHand > 0) ?? false
  const mayHaveTurnouts = hasTurnouts && fitted.places.some(({ open }) => open === 'path')
  return html`<section class="card" id="fitted" aria-labelledby="fitted-title"><h2 id="fitted-title">Fitted</h2>
<p class="hint">What the plan leaves open, so that its tracks end where they must.</p>
<ul>${fitted.places.map((place) => html`<li>${placeInWords(place, tracks, lengthsIn)}</li>`)}</ul>
${patchButton(fitted.patch, 'Write the fitted lengths into the plan')}
${mayHaveTurnouts && !fitted.turnouts && html`<p class="no-print"><button form="plan" name="do" value="${TURNOUTS_AT_ENDS}">Put turnouts on hand in where it leaves other tracks</button></p>`}
${fitted.turnouts && turnoutWays(fitted.turnouts, tracks, lengthsIn)}
</section>`
}

/** The shortest are enough to choose from. */
const MOST_SHOWN = 4

/** The ways to put turnouts in, each with a button that does it. */
function turnoutWays(
  ways: NonNullable<WorkedPlan['fitted']['turnouts']>,
  tracks: Estimate['tracks'],
  lengthsIn: LengthsIn,
): Html {
  if (!ways.ok)
    return html`${ways.faults.map((fault) => html`<p class="fault">${faultText(faultInUnits(fault, lengthsIn))}</p>`)}`
  return html`<h3>With turnouts on hand</h3>
<ol>${ways.answer.options.slice(0, MOST_SHOWN).map((option) => html`<li>${wayInWords(option, tracks, lengthsIn)}${patchButton(option.remedy, 'Put this in')}</li>`)}</ol>`
}

function wayInWords(
  { lengthMm, turnouts, findings }: FitOptions['options'][number],
  tracks: Estimate['tracks'],
  lengthsIn: LengthsIn,
): Html {
  const graver = findings.filter(({ severity }) => severity !== 'note').length
  const places = turnouts.map(({ type, track, element, atMm }, index) => {
    const at = tracks.findIndex(({ name }) => name === track)
    const straight = elementNumber(element, at, tracks.length > 1)
    return html`${index > 0 && ' and '}${type} at ${benchLength(atMm, lengthsIn)} along straight ${straight}`
  })
  return html`${places}; ${benchLength(lengthMm, lengthsIn)} of track between. ${graver === 0 ? 'Nothing graver than a note is found.' : `${counted(graver, 'finding')} above a note in the whole plan.`}`
}

function placeInWords({ track, element }: FittedPlace, tracks: Estimate['tracks'], lengthsIn: LengthsIn): Html {
  const { kind, lengthMm, radiusMm, angleDeg, turn } = tracks[track]!.elements[element]!
  const number = elementNumber(element, track, tracks.length > 1)
  const length = benchLength(lengthMm, lengthsIn)
  if (radiusMm === null) return html`${kindName(kind)} ${number}: ${length}`
  return html`${kindName(kind)} ${number}: radius ${benchLength(radiusMm, lengthsIn)}, ${formatDegrees(angleDeg)} ${turn}, ${length} long`
}
