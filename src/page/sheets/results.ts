import { compactTrack } from '../../estimate/questions/compact-track/write-compact.ts'
import { planDrawing } from '../drawing/plan-drawing.ts'
import { planToDraw } from '../drawing/plan-to-draw.ts'
import { profileDrawing, profiledTrack } from '../drawing/profile.ts'
import { type Html, html } from '../html.ts'
import type { WorkedPlan } from '../pages/worked-plan.ts'
import type { LengthsIn } from '../show-length.ts'
import { elementNumber } from '../words.ts'
import { bendCards } from './bench/bend-cards.ts'
import { powerTables, roadbedTables } from './garden/bed-and-power.ts'
import { jointTables } from './garden/joint-tables.ts'
import { elementsTable } from './line/elements-table.ts'
import { findingList } from './line/findings.ts'
import { summary } from './line/summary.ts'
import { assumptionList } from './record/assumptions.ts'
import { cutList } from './saw/cut-list.ts'
import { readyMadeSection } from './saw/ready-made.ts'
import { shoppingList } from './shop/shopping-list.ts'

/** The summary, links to the other parts, the drawing and the findings. */
export function overview({ plan, estimate }: WorkedPlan, lengthsIn: LengthsIn): Html {
  const { findings } = estimate
  const profiles = estimate.tracks.map((track, index) =>
    profileDrawing(profiledTrack(track), `profile-${index}`, lengthsIn),
  )
  const sloping = profiles.some((profile) => profile !== null)
  return html`${summary(estimate, lengthsIn)}
<ul class="jumps" aria-label="On this page">${[
    ['edit', 'Edit plan'],
    ['shopping', 'Shopping list'],
    ['cutting', 'Cut list'],
    ...(estimate.readyMade ? [['ready-made', 'Ready-made track']] : []),
    ['gaps', 'Joints'],
    ['bending', 'Bending'],
    ['track', 'Track dimensions'],
    ...(estimate.roadbed || estimate.power ? [['ballast-power', 'Ballast and power']] : []),
    ['assumed', 'Assumptions'],
    ['care', 'Take care'],
    ['metals', 'Other metals'],
  ].map(([id, name]) => html`<li><a href="#${id}">${name}</a></li>`)}</ul>
<div class="sheet">
<section class="card" id="drawing" aria-labelledby="drawing-title"><h2 id="drawing-title">Plan to scale</h2>
<div class="drawing" role="region" aria-label="Drawing" tabindex="0">${planDrawing(planToDraw(plan, estimate), findings, lengthsIn)}</div>
<p class="hint slide no-print">Scroll the drawing sideways to see all of it.</p>
${key(estimate)}
${sloping && html`<h3>Profile</h3><div class="drawing">${profiles.map((profile, index) => profile && html`${plan.tracks.length > 1 && html`<p class="hint">${plan.tracks[index]!.name}</p>`}${profile}`)}</div>`}
</section>
<section class="card" id="findings" aria-labelledby="findings-title"><h2 id="findings-title">Findings</h2>
<div class="finding-box" tabindex="0" role="region" aria-label="List of findings">${findingList(findings, estimate.tracks)}</div></section>
</div>`
}

/** Everything to buy, cut, bend and lay, in the order of the work. */
export function detailSections(worked: WorkedPlan, lengthsIn: LengthsIn): Html {
  const { estimate } = worked
  const { rail, cautions, roadbed, power } = estimate
  return html`${part(
    'shopping',
    'Shopping list',
    html`${shoppingList(estimate.bill)}
<p class="hint">Total rail: ${(rail.lengthMm / 1000).toFixed(2)} m of ${rail.section === 'custom' ? 'a custom section' : `code ${rail.section}`} ${rail.material === 'own' ? 'a custom metal' : rail.material}${rail.massKg === null ? '' : `, ${rail.massKg.toFixed(2)} kg`}.</p>
<p class="hint no-print">You can also load these numbers and tables <a href="/docs/spreadsheets">into your spreadsheet</a>.</p>`,
  )}
${part('cutting', 'Cut list', cutList(worked, lengthsIn))}
${estimate.readyMade && part('ready-made', 'Ready-made track', readyMadeSection(estimate, estimate.readyMade, lengthsIn))}
${part('gaps', 'Joints and gaps', jointTables(worked, lengthsIn))}
${part('bending', 'Bending', bendCards(estimate, lengthsIn))}
${part(
  'track',
  'Track dimensions',
  estimate.tracks.map(
    (track, index) =>
      html`${elementsTable(track, (element) => elementNumber(element, index, estimate.tracks.length > 1), lengthsIn)}
<p class="hint no-print">As one text for <a href="/docs/spreadsheets">spreadsheets</a>: <code class="word">${compactTrack(worked.plan.tracks[index]!.elements)}</code></p>`,
  ),
)}
${
  (roadbed || power) &&
  part('ballast-power', 'Ballast and power', [
    ...(roadbed ? [roadbedTables(roadbed, lengthsIn)] : []),
    ...(power ? [powerTables(power, lengthsIn)] : []),
  ])
}
${part('assumed', 'Assumptions', assumptionList(estimate))}
${part('care', 'Take care', html`<ul class="cautions">${cautions.map((caution) => html`<li>${caution}</li>`)}</ul>`)}`
}

function part(id: string, title: string, content: Html | readonly Html[]): Html {
  return html`<section class="card part ${id}" id="${id}" aria-labelledby="${id}-title"><h2 id="${id}-title">${title}</h2>
${content}</section>`
}

function key({ readyMade }: WorkedPlan['estimate']): Html {
  const pieces =
    (readyMade?.stretches.length ?? 0) > 0 &&
    html`<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="ready-made" d="M0 8H32" stroke-width="14"/><path class="bed" d="M0 8H32" stroke-width="10"/><circle class="piece-end" cx="16" cy="8" r="2.8"/></svg>ready-made track and where two pieces meet</span>`
  return html`<p class="key">
<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="joint" d="M16 1V15"/></svg>tangent point</span>
<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><g class="stations"><path d="M10 0V5M10 11V16M22 0V5M22 11V16"/></g></svg>distance from the start</span>
<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="found stop" d="M0 8H32" stroke-width="8"/></svg>stop</span>
<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="found warn" d="M0 8H32" stroke-width="8"/></svg>warning</span>
<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="found note" d="M0 8H32" stroke-width="8"/></svg>note</span>
${pieces}
</p>`
}
