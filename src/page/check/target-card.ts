import { midOrdinateMm, quarterOrdinateMm } from '../../bending/ordinates.ts'
import { type Html, html } from '../html.ts'
import { benchLength, type LengthsIn, ordinateLength } from '../show-length.ts'
import type { TargetCurve } from './read-check.ts'

/** What the chord should show, before any reading is typed: at both rails where the size is that of the centre line. */
export function targetCard({ faceRadiusMm, track }: TargetCurve, chordMm: number, lengthsIn: LengthsIn): Html {
  const rails = track
    ? [
        { name: `${track.rail} rail`, radiusMm: faceRadiusMm },
        { name: track.rail === 'outer' ? 'inner rail' : 'outer rail', radiusMm: track.otherFaceRadiusMm },
      ]
    : [{ name: 'this rail', radiusMm: faceRadiusMm }]
  const ordinate = (mm: number | null) => (mm === null ? 'the chord is too long' : ordinateLength(mm, lengthsIn))
  return html`<section class="card" id="targets" aria-labelledby="targets-title"><h2 id="targets-title">Targets</h2>
<p>With a chord of ${benchLength(chordMm, lengthsIn)} held against the inside of the head, the gap between chord and rail should be:</p>
<div class="scroll" role="region" aria-label="Targets by rail" tabindex="0"><table class="figures"><thead><tr><th scope="col">Rail</th><th scope="col">Radius at the face</th><th scope="col">At the middle</th><th scope="col">At the quarter points</th></tr></thead>
<tbody>${rails.map(
    ({ name, radiusMm }) =>
      html`<tr><th scope="row">${name}</th><td>${benchLength(radiusMm, lengthsIn)}</td><td><b>${ordinate(midOrdinateMm(radiusMm, chordMm))}</b></td><td>${ordinate(quarterOrdinateMm(radiusMm, chordMm))}</td></tr>
`,
  )}</tbody></table></div>
${track && html`<p class="hint">${track.section}, gauge ${benchLength(track.gaugeMm, lengthsIn)}, centre-line radius ${benchLength(track.radiusMm, lengthsIn)}. Readings typed below are checked for the ${track.rail} rail.</p>`}</section>`
}

/** What the radius at the face follows from. */
export function targetText({ track }: TargetCurve, lengthsIn: LengthsIn): Html {
  if (!track) return html``
  return html` at the face of the ${track.rail} rail (${track.section}, centre line ${benchLength(track.radiusMm, lengthsIn)})`
}
