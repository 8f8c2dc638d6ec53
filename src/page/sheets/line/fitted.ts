import type { Estimate } from '../../../estimate/answer.ts'
import type { FittedPlace } from '../../../estimate/fitted/fitted-patch.ts'
import { type Html, html } from '../../html.ts'
import type { WorkedPlan } from '../../pages/worked-plan.ts'
import { benchLength, formatDegrees, type LengthsIn } from '../../show-length.ts'
import { elementNumber, kindName } from '../../words.ts'
import { patchButton } from './remedy.ts'

/** What the plan left to be fitted came to be, with a button that writes it into the plan; nothing for other plans. */
export function fittedCard({ estimate, fitted }: WorkedPlan, lengthsIn: LengthsIn): Html | null {
  if (fitted.places.length === 0) return null
  const { tracks } = estimate
  return html`<section class="card" id="fitted" aria-labelledby="fitted-title"><h2 id="fitted-title">Fitted</h2>
<p class="hint">What the plan leaves open, so that its tracks end where they must.</p>
<ul>${fitted.places.map((place) => html`<li>${placeInWords(place, tracks, lengthsIn)}</li>`)}</ul>
${patchButton(fitted.patch, 'Write the fitted lengths into the plan')}
</section>`
}

function placeInWords({ track, element }: FittedPlace, tracks: Estimate['tracks'], lengthsIn: LengthsIn): Html {
  const { kind, lengthMm, radiusMm, angleDeg, turn } = tracks[track]!.elements[element]!
  const number = elementNumber(element, track, tracks.length > 1)
  const length = benchLength(lengthMm, lengthsIn)
  if (radiusMm === null) return html`${kindName(kind)} ${number}: ${length}`
  return html`${kindName(kind)} ${number}: radius ${benchLength(radiusMm, lengthsIn)}, ${formatDegrees(angleDeg)} ${turn}, ${length} long`
}
