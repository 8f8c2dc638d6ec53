import type { TrackAnswer } from '../../../estimate/answer.ts'
import { compactTrack, isCompact } from '../../../estimate/questions/compact-track/write-compact.ts'
import type { DrawnElement } from '../../../plan/elements.ts'
import { planDrawing } from '../../drawing/plan-drawing.ts'
import { planToDraw } from '../../drawing/plan-to-draw.ts'
import { profileDrawing, profiledTrack } from '../../drawing/profile.ts'
import { type Html, html } from '../../html.ts'
import type { WorkedPlan } from '../../pages/worked-plan.ts'
import { elementNumber } from '../../words.ts'
import { bridgeTable } from '../bridge-table.ts'
import { builtTurnouts } from '../built-turnouts.ts'
import { part } from '../part.ts'
import type { SheetContext } from '../sheet.ts'
import { elementsTable } from './elements-table.ts'
import { findingList } from './findings.ts'
import { fittedCard } from './fitted.ts'
import { overallSize, placesTable } from './places-table.ts'
import { roomCard } from './room-beside.ts'
import { standingCard } from './standing-room.ts'
import { summary } from './summary.ts'
import { trainsCard } from './trains.ts'

/**
 * Whether it is the line one meant: the drawing, the findings, the form to change it, and its elements; on paper those
 * of existing track are left out.
 *
 * @param isOpen whether the editor is the form itself, which stands below or beside what follows from it, or leads to it
 */
export function lineSheet(context: SheetContext, editor: Html, isOpen: boolean): Html {
  const { worked, lengthsIn } = context
  const { plan, estimate } = worked
  const { tracks } = estimate
  const isThere = ({ state }: TrackAnswer) => state === 'existing' && tracks.length > 1
  const there = tracks.filter(isThere)
  const dimensions = (which: (track: TrackAnswer) => boolean) =>
    tracks.map(
      (track, index) =>
        which(track) &&
        html`${elementsTable(track, index, (element) => elementNumber(element, index, tracks.length > 1), lengthsIn)}
${placesTable(track, lengthsIn, asOneText(plan.tracks[index]!.elements))}`,
    )
  return html`<div id="work">${!isOpen && editor}<div id="live">${lineResults(context)}</div>
${fittedCard(worked, lengthsIn)}${isOpen && editor}</div>
${part('track', 'Track dimensions', html`${dimensions((track) => !isThere(track))}${there.length > 0 && html`<details class="no-print"><summary>Existing track: ${there.map(({ name }) => name).join(', ')}</summary>${dimensions(isThere)}</details>`}${builtTurnouts(estimate)}`)}`
}

/** What follows the form while one types: totals, drawing, profile, findings and standing room. */
export function lineResults({ worked, lengthsIn, links }: SheetContext): Html {
  const { plan, estimate } = worked
  const { findings, tracks } = estimate
  const profiles = tracks.map((track, index) => profileDrawing(profiledTrack(track), `profile-${index}`, lengthsIn))
  const bridges = bridgeTable(estimate, lengthsIn)
  const sloping = profiles.some((profile) => profile !== null)
  return html`${summary(estimate, links)}
<div class="sheet">
<section class="card" id="drawing" aria-labelledby="drawing-title"><h2 id="drawing-title">Plan to scale</h2>
<div class="drawing" role="region" aria-label="Drawing" tabindex="0">${planDrawing(planToDraw(plan, estimate), findings, lengthsIn)}</div>
<p class="hint slide no-print">Scroll the drawing sideways to see all of it.</p>
${overallSize(estimate, lengthsIn)}
${key(estimate)}
${sloping && html`<h3>Profile</h3><div class="drawing" role="region" aria-label="Profile" tabindex="0">${profiles.map((profile, index) => profile && html`${tracks.length > 1 && html`<p class="hint">${tracks[index]!.name}</p>`}${profile}`)}</div>`}
</section>
<section class="card" id="findings" aria-labelledby="findings-title"><h2 id="findings-title">Findings</h2>
<div class="finding-box" tabindex="0" role="region" aria-label="List of findings">${findingList(findings, worked, lengthsIn)}</div></section>
</div>
${trainsCard(estimate, lengthsIn)}
${standingCard(estimate, lengthsIn)}
${bridges && html`<details class="card part no-print" id="bridges"><summary>Bridges</summary>${bridges}</details>`}
${roomCard(estimate, lengthsIn)}`
}

function asOneText(elements: readonly DrawnElement[]): Html | false {
  return (
    isCompact(elements) &&
    html`<p class="hint no-print">As one text for <a href="/docs/spreadsheets">spreadsheets</a>: <code class="word">${compactTrack(elements)}</code></p>`
  )
}

function key({ readyMade, foulingPoints = [], envelope = [], overCrossings = [] }: WorkedPlan['estimate']): Html {
  const fouling =
    foulingPoints.length > 0 &&
    html`<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="bed" d="M0 8H32" stroke-width="10"/><path class="fouling" d="M12 4L20 12M12 12L20 4"/></svg>fouling point</span>`
  const pieces =
    (readyMade?.stretches.length ?? 0) > 0 &&
    html`<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="ready-made" d="M0 8H32" stroke-width="14"/><path class="bed" d="M0 8H32" stroke-width="10"/><circle class="piece-end" cx="16" cy="8" r="2.8"/></svg>ready-made track and where two pieces meet</span>`
  const swept =
    envelope.length > 0 &&
    html`<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="swept" d="M0 1H32V15H0z"/><path class="bed" d="M0 8H32" stroke-width="6"/></svg>swept envelope of the cars</span>`
  const bridges =
    overCrossings.length > 0 &&
    html`<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="bed" d="M0 8H32" stroke-width="6"/><path class="parapet" d="M4 1l4 3H24l4 -3M4 15l4 -3H24l4 3"/></svg>bridge</span>`
  return html`<p class="key">
<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="joint" d="M16 1V15"/></svg>tangent point</span>
<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><g class="stations"><path d="M10 0V5M10 11V16M22 0V5M22 11V16"/></g></svg>distance from the start</span>
<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="found stop" d="M0 8H32" stroke-width="8"/></svg>stop</span>
<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="found warn" d="M0 8H32" stroke-width="8"/></svg>warning</span>
<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="found note" d="M0 8H32" stroke-width="8"/></svg>note</span>
${pieces}
${fouling}
${swept}
${bridges}
</p>`
}
