import { MATERIALS } from '../../../catalogue/materials.ts'
import type { Bend, Estimate } from '../../../estimate/answer.ts'
import { chordDrawing } from '../../drawing/chord-drawing.ts'
import { type Html, html } from '../../html.ts'
import { benchLength, type LengthsIn, lengthText, ordinateLength } from '../../show-length.ts'
import { spoken } from '../../words.ts'
import type { SheetLinks } from '../sheet-links.ts'
import { benchNotes, rollerNotes } from './bench-notes.ts'
import { calibrationResult } from './calibration-result.ts'
import { type CardContext, elementsAt, railName } from './card-context.ts'
import { type Curve, curvesByRadius, groupPlaces } from './curves-by-radius.ts'
import { easementTables } from './easement-tables.ts'
import { formingTable } from './forming-table.ts'
import { passTable } from './pass-table.ts'
import { isSprungIn, springInTable } from './spring-in.ts'
import { testBendRequest } from './test-bend-request.ts'

/** What to know before bending: whether there is anything to bend, a test bend to make, and the results of those made. */
export function beforeBending(estimate: Estimate, lengthsIn: LengthsIn, links: SheetLinks): Html {
  const { loose, readyMade } = curvesOf(estimate)
  const none =
    readyMade.length > 0
      ? 'All curves are made of ready-made pieces, which are already bent'
      : 'This plan has no curves'
  const ofTurnouts = estimate.bends.some(({ turnout }) => turnout)
  const nothing = loose.length === 0 && estimate.easements.length === 0 && !ofTurnouts
  return html`${nothing && html`<p>${none}. Nothing to bend.</p>`}
${testBendRequest(
  loose.filter((curve) => !isSprungIn(curve)),
  lengthsIn,
  links,
)}
${calibrationResult(estimate.calibration, lengthsIn)}`
}

/**
 * How the figures of each curve come about: a card for each radius to bend, the easements, and ordinates for checking
 * ready-made curves. Null for a plan without curves.
 */
export function curveCards(estimate: Estimate, lengthsIn: LengthsIn): Html | null {
  const { loose, readyMade } = curvesOf(estimate)
  const context: CardContext = {
    lengthsIn,
    severalTracks: estimate.tracks.length > 1,
    temperName: temperNames(estimate.rail.material),
  }
  const easements = easementTables(estimate, lengthsIn)
  if (loose.length === 0 && readyMade.length === 0 && !easements) return null
  return html`<p class="hint">Ordinates are measured in the middle of the chord and at every eighth. On a left-hand curve, the right rail is the outer one.</p>
${loose.map((curve, index) => benchCard(curve, index, context))}
${easements}
${readyMade.map((curve, index) => checkCard(curve, index, context))}`
}

function curvesOf({ bends, tracks }: Estimate): { loose: Curve[]; readyMade: Curve[] } {
  const of = (comesBent: boolean) =>
    curvesByRadius({ tracks, bends: bends.filter(({ readyMade }) => readyMade === comesBent) })
  return { loose: of(false), readyMade: of(true) }
}

/** A curve of ready-made pieces: nothing to bend, only ordinates for checking. */
function checkCard(curve: Curve, index: number, context: CardContext): Html {
  const { radiusMm, places, outer, inner } = curve
  const { lengthsIn } = context
  const drawings = [outer, inner].map((bend) => railDrawing(bend, `bent-${index}-${bend.rail}`, lengthsIn))
  return html`<section class="bend">
<h3>${curveTitle(radiusMm, lengthsIn)}: already bent <span class="hint">${elementsAt(places, context)}</span></h3>
<p class="hint">Ready-made pieces: do not bend them. Use the ordinates to check them before and after laying.</p>
${drawings.some(Boolean) && html`<div class="chords">${drawings}</div>`}
${ordinateTable(curve, lengthsIn)}
${shorterPlaces(curve, context)}
</section>`
}

function curveTitle(radiusMm: number, lengthsIn: LengthsIn): string {
  return `Radius ${lengthText(radiusMm, lengthsIn)}, diameter ${lengthText(2 * radiusMm, lengthsIn)}`
}

function temperNames(material: string): CardContext['temperName'] {
  const tempers = MATERIALS.find(({ id }) => id === material)?.tempers ?? []
  return (id) => tempers.find((temper) => temper.id === id)?.name ?? id
}

function benchCard(curve: Curve, index: number, context: CardContext): Html {
  const { radiusMm, places, outer, inner } = curve
  const { lengthsIn } = context
  const drawings = [outer, inner].map((bend) => railDrawing(bend, `bend-${index}-${bend.rail}`, lengthsIn))
  return html`<section class="bend">
<h3>${curveTitle(radiusMm, lengthsIn)} <span class="hint">${elementsAt(places, context)}</span></h3>
${drawings.some(Boolean) && html`<div class="chords">${drawings}</div>`}
${isSprungIn(curve) ? springInFigures(curve, context) : html`<div class="bench">${formingTable(curve, context)}<div>${benchNotes(curve, context)}${passTable(curve, lengthsIn)}</div></div>`}
${ordinateTable(curve, lengthsIn)}
${shorterPlaces(curve, context)}
<p class="care-line"><b>Take care:</b> wear eye protection. Bent rail is a spring: stand clear of the plane of the bend and keep fingers out of pinch points. After each bend, check on a table that the foot is flat.</p>
</section>`
}

/** What to do where nothing is bent; how to bend it all the same is folded away. */
function springInFigures(curve: Curve, context: CardContext): Html {
  return html`<div class="bench">${springInTable(curve, context)}<div>${benchNotes(curve, context)}</div></div>
<details class="instead"><summary>If you bend it instead</summary><div class="bench">${formingTable(curve, context)}<div>${rollerNotes(curve, context)}${passTable(curve, context.lengthsIn)}</div></div></details>`
}

/** Elements that are too short for the chords of the longest one, and the chords that fit there. */
function shorterPlaces({ places, outer, inner }: Curve, context: CardContext): Html[] {
  const { lengthsIn } = context
  const used = (bends: readonly Bend[]) => ({
    chordsMm: bends.map(({ ordinates }) => ordinates.map(({ chordMm }) => chordMm)),
    recommendedMm: bends.map(({ recommendedChordMm }) => recommendedChordMm),
  })
  const most = used([outer, inner])
  return groupPlaces(places, (place) => used([place.outer, place.inner]))
    .filter(({ value }) => JSON.stringify(value) !== JSON.stringify(most))
    .map(({ value, places: shorter }) => {
      const tooLong = [...new Set(most.chordsMm.flat())].filter((mm) => value.chordsMm.some((all) => !all.includes(mm)))
      const [ofOuter, ofInner] = value.recommendedMm.map((mm) => (mm === null ? 'none' : lengthText(mm, lengthsIn)))
      const use = ofOuter === ofInner ? html`${ofOuter}` : html`${ofOuter} on the outer rail, ${ofInner} on the inner`
      const long =
        tooLong.length > 0 && html` (too long here: ${spoken(tooLong.map((mm) => lengthText(mm, lengthsIn)))})`
      return html`<p class="hint">In ${elementsAt(shorter, context)}, which ${shorter.length === 1 ? 'is' : 'are'} shorter, use chord: ${use}${long}.</p>`
    })
}

function railDrawing({ rail, measuredRadiusMm, recommendedChordMm }: Bend, id: string, lengthsIn: LengthsIn) {
  if (recommendedChordMm === null) return null
  const title = `${railName(rail)} rail`
  const drawing = chordDrawing({ radiusMm: measuredRadiusMm, chordMm: recommendedChordMm, title }, id, lengthsIn)
  const check = `/check?chord=${recommendedChordMm}&acrossIs=radius&across=${Number(measuredRadiusMm.toFixed(2))}`
  return html`<figure><figcaption>${title}, chord ${lengthText(recommendedChordMm, lengthsIn)} <a class="no-print" href="${check}">Check readings</a></figcaption>${drawing}</figure>`
}

function ordinateTable({ radiusMm, outer, inner }: Curve, lengthsIn: LengthsIn): Html {
  const chords = [...new Set([...outer.ordinates, ...inner.ordinates].map(({ chordMm }) => chordMm))]
  if (chords.length === 0) return html`<p class="hint">None of the chords fits in this bend.</p>`
  return html`<div class="scroll" role="region" aria-label="Ordinates for radius ${lengthText(radiusMm, lengthsIn)}${outer.readyMade && ', ready-made'}" tabindex="0"><table class="figures ordinates">
<thead><tr><th scope="col">Ordinates</th><th scope="col">Chord</th><th scope="col">Middle</th><th scope="col">⅜ from an end</th><th scope="col">Quarter points</th><th scope="col">⅛ from an end</th><th scope="col">Radius accuracy</th></tr></thead>
${[outer, inner].map((bend) => html`<tbody>${chords.map((chord, index) => ordinateRow(bend, chord, index === 0 && chords.length, lengthsIn))}</tbody>`)}</table></div>`
}

function ordinateRow(bend: Bend, chordMm: number, rows: number | false, lengthsIn: LengthsIn): Html {
  const name =
    rows &&
    html`<th scope="rowgroup" rowspan="${rows}">${railName(bend.rail)} rail <span class="alt">inside R ${lengthText(bend.measuredRadiusMm, lengthsIn)}</span></th>`
  const found = bend.ordinates.find((each) => each.chordMm === chordMm)
  if (!found)
    return html`<tr>${name}<td>${benchLength(chordMm, lengthsIn)}</td><td colspan="5" class="none">too long for this bend</td></tr>`
  const { midMm, threeEighthsMm, quarterMm, eighthMm, radiusErrorPct } = found
  return html`<tr>${name}<td>${benchLength(chordMm, lengthsIn)}</td>${[midMm, threeEighthsMm, quarterMm, eighthMm].map(
    (mm) => html`<td>${ordinateLength(mm, lengthsIn)}</td>`,
  )}<td>${radiusErrorPct === null ? 'none' : `±${radiusErrorPct.toFixed(1)} %`}</td></tr>`
}
