import type { Fault } from '../measure/fault.ts'
import type { RevisionSummary } from '../projects/store.ts'
import { faultNote, faultText, type Placed } from './form/controls.ts'
import { faultsByPlace, placeInForm } from './form/fault-places.ts'
import { inFormWords } from './form/fault-words.ts'
import { planEditor } from './form/plan-editor.ts'
import type { FormPart } from './form/plan-form.ts'
import { withRowsReady } from './form/rows.ts'
import { attributes, type Html, html } from './html.ts'
import { firstLook, theRest } from './results/results.ts'
import type { LengthsIn } from './show-length.ts'
import { counted } from './words.ts'
import type { WorkedPlan } from './worked-plan.ts'

/** What is typed around the plan itself: under which name it is kept, and in which units it is shown. */
export interface Keeping {
  readonly name: string
  readonly notes: string
  readonly lengthsIn: LengthsIn
}

/** Where the plan on the page is kept. */
export interface Saved {
  readonly id: string
  /** The present revision when the page was made: what is saved from here follows it. */
  readonly revision: number
  /** The revision shown; null once it is being edited. */
  readonly opened: { readonly revision: number; readonly updatedAt: string } | null
}

/** Somebody else saved, or deleted, the plan while it was being edited here. */
export type Conflict =
  | { readonly kind: 'deleted' }
  | { readonly kind: 'saved'; readonly revision: number; readonly name: string; readonly updatedAt: string }

export interface PlanPage {
  readonly form: FormPart
  readonly keeping: Keeping
  readonly saved: Saved | null
  readonly faults: readonly Fault[]
  readonly worked: WorkedPlan | null
  readonly conflict?: Conflict | null
  readonly editorOpen: boolean
  /** The page has a heading of its own above this one. */
  readonly beneath?: boolean
}

/** The page of one plan: what follows from it on top, then the form, then lists and tables. */
export function planPage(page: PlanPage): Html {
  const { keeping, saved, worked, conflict } = page
  const faults = page.faults.map(inFormWords)
  const action = saved ? `/plans/${saved.id}` : '/'
  const title = keeping.name || page.form.cells.title || 'A new plan'
  return html`${page.beneath ? html`<h2 class="title">${title}</h2>` : html`<h1>${title}</h1>`}
${saved && savedLine(saved)}
${conflict && conflictNotice(conflict, saved)}
${complaint(faults)}
${worked && firstLook(worked, keeping.lengthsIn)}
${editor({ ...page, faults }, action)}
${worked && html`${keeping.notes && html`<section class="card only-print"><h2>Notes</h2><p class="notes-text">${keeping.notes}</p></section>`}${theRest(worked, keeping.lengthsIn)}`}`
}

function savedLine({ id, revision, opened }: Saved): Html {
  const links = html`<span class="no-print"><a href="/plans/${id}/revisions">all revisions</a> · <a href="/v1/projects/${id}/bill.csv">shopping list as CSV</a> · <a href="/plans/${id}/delete">delete</a></span>`
  if (!opened) return html`<p class="hint">Begun from revision ${revision}; not saved since. ${links}</p>`
  const line = html`<p class="hint">Revision ${opened.revision}, saved ${timeOf(opened.updatedAt)} · ${links}</p>`
  if (opened.revision === revision) return line
  return html`${line}<p class="card notice">This is revision ${opened.revision} of ${revision}. Saving it makes it the newest; the others stay. <a href="/plans/${id}">To the present one</a></p>`
}

function editor(page: PlanPage, action: string): Html {
  const { keeping, saved, conflict } = page
  const placed: Placed = { part: withRowsReady(page.form), path: '', faults: faultsByPlace(page.faults) }
  const form = html`<form method="post" action="${action}" autocomplete="off" id="plan">
<button class="default-button" name="do" value="work" tabindex="-1" aria-hidden="true">Work it out</button>
${saved && html`<input type="hidden" name="revision" value="${saved.revision}">`}
${planEditor(placed, action)}
<fieldset class="card" id="keep"><legend>Keep it</legend>
<div class="fields">
<div class="field"><label for="name">Saved as</label><input id="name" name="name" maxlength="200" value="${keeping.name}" aria-describedby="name.hint"><span class="hint" id="name.hint">blank: the title</span>${faultNote('name', placed.faults.get('name') ?? [])}</div>
<div class="field wide"><label for="notes">Notes</label><textarea id="notes" name="notes" rows="3">
${keeping.notes}</textarea>${faultNote('notes', placed.faults.get('notes') ?? [])}</div>
</div></fieldset>
<div class="bar-buttons buttons">
<button class="first" name="do" value="work">Work it out</button>
${saveButtons(saved, conflict)}
<p class="units"><label for="show">Lengths in</label> <select id="show" name="show">${LENGTHS_IN.map(([value, label]) => html`<option${attributes({ value, selected: value === keeping.lengthsIn })}>${label}</option>`)}</select></p>
</div>
</form>`
  if (!page.worked) return html`<section class="editor" id="edit" aria-label="The plan">${form}</section>`
  return html`<details class="editor" id="edit"${attributes({ open: page.editorOpen })}><summary class="button">Change the plan</summary>${form}</details>`
}

const LENGTHS_IN: readonly (readonly [LengthsIn, string])[] = [
  ['both', 'mm, and feet and inches'],
  ['metric', 'millimetres alone'],
  ['feet', 'feet and inches alone'],
]

function saveButtons(saved: Saved | null, conflict: Conflict | null | undefined): Html {
  if (conflict?.kind === 'saved')
    return html`<button name="do" value="save-new">Save as a new plan</button> <button class="grave" name="do" value="save over ${conflict.revision}">Save over revision ${conflict.revision}</button>`
  if (conflict) return html`<button name="do" value="save-new">Save as a new plan</button>`
  if (!saved) return html`<button name="do" value="save">Save</button>`
  return html`<button name="do" value="save">Save</button> <button name="do" value="save-new">Save as a new plan</button>`
}

function conflictNotice(conflict: Conflict, saved: Saved | null): Html {
  if (conflict.kind === 'deleted')
    return html`<section class="card notice" role="alert"><h2>This plan was deleted while you were at it</h2>
<p>What you typed is all here, but not saved. You can save it as a new plan.</p></section>`
  return html`<section class="card notice" role="alert"><h2>Somebody else saved this plan while you were at it</h2>
<p>You began with revision ${saved?.revision}. Since then revision ${conflict.revision}, “${conflict.name}”, was saved ${timeOf(conflict.updatedAt)}.
What you typed is all here below, but not saved.</p>
<p><a href="/plans/${saved?.id}/revisions/${conflict.revision}" target="_blank" rel="noopener">See revision ${conflict.revision}</a> (opens beside this page), then
save yours as a new plan or over theirs. Theirs stays among the earlier revisions either way.</p>
<p><a href="#keep">To the save buttons</a></p></section>`
}

function complaint(faults: readonly Fault[]): Html | null {
  if (faults.length === 0) return null
  return html`<section class="card complaint" role="alert" aria-labelledby="complaint-title"><h2 id="complaint-title">${counted(faults.length, 'thing')} to put right first</h2>
<ul>${faults.slice(0, MOST_LISTED).map((fault) => html`<li><a href="#${anchorOf(fault)}">${placeName(fault)}</a>: ${faultText(fault)}</li>`)}</ul>
${faults.length > MOST_LISTED && html`<p>… and ${faults.length - MOST_LISTED} more, marked in the form.</p>`}
</section>`
}

const MOST_LISTED = 50

function anchorOf(fault: Fault): string {
  return placeInForm(fault.path) || 'plan'
}

/** Where in the form: `track 1, element 3, size of curve`. */
function placeName(fault: Fault): string {
  const tokens = placeInForm(fault.path).split('.')
  const names: string[] = []
  for (let n = 0; n < tokens.length; n++) {
    const token = tokens[n]!
    const row = ROWS[token]
    const number = Number(tokens[n + 1])
    if (row && Number.isInteger(number)) {
      names.push(`${row} ${number + 1}`)
      n++
    } else names.push(NAMES[token] ?? token)
  }
  return names.filter(Boolean).join(', ') || 'the plan'
}

const ROWS: Readonly<Record<string, string>> = {
  tracks: 'track',
  elements: 'element',
  gradeLine: 'point of the grade line',
  sticks: 'stick',
}

const NAMES: Readonly<Record<string, string>> = {
  tracks: 'tracks',
  elements: 'elements',
  gradeLine: 'grade line',
  rail: 'rail',
  section: 'rail section',
  material: 'metal',
  measured: 'calipers',
  headWidth: 'width of the head',
  footWidth: 'width of the foot',
  webThickness: 'thickness of the web',
  headDepth: 'depth of the head',
  footDepth: 'depth of the foot',
  across: 'size of curve',
  acrossIs: 'size of curve',
  turn: 'turns',
  label: 'remark',
  joinsExisting: 'ends of the track',
  supplies: 'what you have',
  onHand: 'on hand',
  packSize: 'pack of',
  pricePerPack: 'price of a pack',
  price: 'price of a pack',
  buyable: 'may be bought',
  spacing: 'tie spacing',
  fastenersPerTie: 'fasteners to a tie',
  kerf: 'width of a saw cut',
  minimumPiece: 'shortest piece of rail',
  standards: 'rules',
  longestCar: 'longest car',
  minimumRadius: 'minimum radius',
  maximumGradePct: 'maximum grade',
  minimumTangentBetweenReverseCurves: 'straight between reverse curves',
  closureGap: 'gap allowed where a loop closes',
  closureHeading: 'kink allowed where a loop closes',
  at: 'distance from the start',
  elevation: 'height of the rail',
  start: 'where it starts',
}

/** A moment as people read it, in UTC: the service knows no one's clock. */
export function timeOf(timestamp: string): Html {
  const text = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short', timeZone: 'UTC' }).format(
    new Date(timestamp),
  )
  return html`<time datetime="${timestamp}">${text} UTC</time>`
}

/** The revisions of a saved plan, newest first. */
export function revisionsPage(id: string, name: string, revisions: readonly RevisionSummary[]): Html {
  const newest = revisions.at(-1)?.revision
  return html`<h1>Revisions of ${name}</h1>
<ul class="plans card">${revisions
    .toReversed()
    .map(
      (each) =>
        html`<li><a href="/plans/${id}${each.revision !== newest && `/revisions/${each.revision}`}">Revision ${each.revision}: ${each.name}</a> <span class="hint">saved ${timeOf(each.createdAt)}${each.revision === newest && ', the present one'}</span></li>`,
    )}</ul>
<p><a class="button" href="/plans/${id}">Back to the plan</a></p>`
}

/** Asks once more before a plan goes for good. */
export function deletePage(id: string, name: string, revision: number): Html {
  return html`<h1>Delete “${name}”?</h1>
<section class="card"><p>The plan goes with all its ${counted(revision, 'revision')}, for good.</p>
<form method="post" action="/plans/${id}/delete" class="buttons"><input type="hidden" name="revision" value="${revision}">
<button class="grave">Delete for good</button> <a class="button" href="/plans/${id}">Keep it</a></form></section>`
}
