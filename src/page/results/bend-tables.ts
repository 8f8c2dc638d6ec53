import type { Bend, Estimate } from '../../estimate/answer.ts'
import { type Html, html } from '../html.ts'
import { benchLength, type LengthsIn, lengthText, ordinateLength } from '../show-length.ts'
import { elementNumber, spoken } from '../words.ts'

/** Curves that are bent alike: the same two rails, wherever in the plan they lie. */
interface Curve {
  readonly radiusMm: number
  /** Numbers of track and element, from 0. */
  readonly places: { readonly track: number; readonly element: number }[]
  readonly outer: Bend
  readonly inner: Bend
}

/** One table for each radius in the plan: how far each rail must stand off a chord, in the middle and at the quarters. */
export function bendTables({ bends, tracks }: Estimate, lengthsIn: LengthsIn): Html {
  const curves = curvesOf(bends, tracks)
  if (curves.length === 0) return html`<p>This plan has no curves: nothing to bend.</p>`
  return html`<p class="hint">Lay a straightedge of the chord’s length against the hollow side of the rail’s head and measure from it
to the head: in the middle, and at a quarter from either end. Measure after the rail has sprung back. On a curve to the left the right rail is the outer one.</p>
${curves.map((curve) => curveTable(curve, tracks.length > 1, lengthsIn))}`
}

function curvesOf(bends: readonly Bend[], tracks: Estimate['tracks']): Curve[] {
  const trackNumbers = new Map(tracks.map(({ name }, index) => [name, index] as const))
  const placeOf = ({ track, element }: Bend) => JSON.stringify([track, element])
  const inners = new Map(bends.filter(({ rail }) => rail === 'inner').map((bend) => [placeOf(bend), bend] as const))
  const curves = new Map<string, Curve>()
  for (const outer of bends) {
    if (outer.rail !== 'outer') continue
    const { element } = outer
    const track = trackNumbers.get(outer.track) ?? 0
    const inner = inners.get(placeOf(outer))
    const radiusMm = tracks[track]?.elements[element]?.radiusMm
    if (!inner || !radiusMm) continue
    // The same radius and the same chords that fit make the same table.
    const alike = [
      radiusMm.toFixed(4),
      ...[outer, inner].map((bend) => bend.ordinates.map(({ chordMm }) => chordMm).join()),
    ]
    const known = curves.get(alike.join('|'))
    if (known) known.places.push({ track, element })
    else curves.set(alike.join('|'), { radiusMm, places: [{ track, element }], outer, inner })
  }
  return [...curves.values()].sort((a, b) => a.radiusMm - b.radiusMm)
}

function curveTable({ radiusMm, places, outer, inner }: Curve, severalTracks: boolean, lengthsIn: LengthsIn): Html {
  const chords = [...new Set([...outer.ordinates, ...inner.ordinates].map(({ chordMm }) => chordMm))]
  const numbers = places.map(({ track, element }) => elementNumber(element, track, severalTracks))
  const where = `${numbers.length === 1 ? 'element' : 'elements'} ${spoken(numbers)}`
  return html`<section class="bend">
<h3>Radius ${lengthText(radiusMm, lengthsIn)}, diameter ${lengthText(2 * radiusMm, lengthsIn)} <span class="hint">${where}</span></h3>
<div class="scroll" role="region" aria-label="Ordinates for radius ${lengthText(radiusMm, lengthsIn)}" tabindex="0"><table class="figures ordinates">
<thead><tr><th scope="col" rowspan="2">Rail</th><th scope="col" rowspan="2">Radius of the rail</th><th scope="col" rowspan="2">Radius of the face measured</th>${chords.map((chord) => html`<th scope="colgroup" colspan="2">Chord ${lengthText(chord, lengthsIn)}</th>`)}</tr>
<tr>${chords.map(() => html`<th scope="col">Middle</th><th scope="col">Quarters</th>`)}</tr></thead>
<tbody>${[outer, inner].map((bend) => railRow(bend, chords, lengthsIn))}</tbody></table></div>
</section>`
}

function railRow(bend: Bend, chords: readonly number[], lengthsIn: LengthsIn): Html {
  const cells = chords.map((chord) => {
    const found = bend.ordinates.find(({ chordMm }) => chordMm === chord)
    if (!found) return html`<td colspan="2" class="none">too long</td>`
    return html`<td>${ordinateLength(found.midMm, lengthsIn)}</td><td>${ordinateLength(found.quarterMm, lengthsIn)}</td>`
  })
  return html`<tr><th scope="row">${bend.rail === 'outer' ? 'Outer' : 'Inner'}</th><td>${benchLength(bend.radiusMm, lengthsIn)}</td><td>${benchLength(bend.measuredRadiusMm, lengthsIn)}</td>${cells}</tr>`
}
