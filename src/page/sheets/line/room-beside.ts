import type { Estimate } from '../../../estimate/answer.ts'
import type { EnvelopeAnswer } from '../../../network/envelope-answer.ts'
import { type Html, html } from '../../html.ts'
import { gardenLength, type LengthsIn, ordinateLength } from '../../show-length.ts'

/** How far walls and platforms have to keep from each track; null for a plan without cars. */
export function roomCard({ envelope = [], tracks }: Estimate, lengthsIn: LengthsIn): Html | null {
  if (envelope.length === 0) return null
  return html`<details class="card part room" id="room"><summary>Room beside the track</summary>
<div class="scroll" role="region" aria-label="Room beside the track" tabindex="0"><table class="figures">
<thead><tr><th scope="col">Track</th><th scope="col">Least, each side</th><th scope="col">Most on the left</th><th scope="col">at</th><th scope="col">by</th><th scope="col">Most on the right</th><th scope="col">at</th><th scope="col">by</th></tr></thead>
<tbody>${tracks.map(({ name }) => roomRow(name, envelope, lengthsIn))}</tbody></table></div>
<p class="hint">From the centre line to the furthest point that any car reaches. Walls, portals and platform edges must stay beyond it; leave a gap of about ${ordinateLength(10, lengthsIn)} (common practice, no source). On the straight, the least is enough; the table “envelope” has all stations.</p>
</details>`
}

function roomRow(name: string, envelope: readonly EnvelopeAnswer[], lengthsIn: LengthsIn): Html | null {
  const own = envelope.filter(({ track }) => track === name)
  if (own.length === 0) return null
  const most = (key: 'leftMm' | 'rightMm') => own.reduce((a, b) => (b[key] > a[key] ? b : a))
  const [left, right] = [most('leftMm'), most('rightMm')]
  const leastMm = Math.min(...own.flatMap(({ leftMm, rightMm }) => [leftMm, rightMm]))
  return html`<tr><th scope="row">${name}</th><td>${ordinateLength(leastMm, lengthsIn)}</td><td>${ordinateLength(left.leftMm, lengthsIn)}</td><td>${gardenLength(left.atMm, lengthsIn)}</td><td>${left.leftCar}</td><td>${ordinateLength(right.rightMm, lengthsIn)}</td><td>${gardenLength(right.atMm, lengthsIn)}</td><td>${right.rightCar}</td></tr>
`
}
