import type { Comparison } from '../../estimate/questions/compare.ts'
import type { Fault } from '../../measure/fault.ts'
import type { Build } from '../../projects/store.ts'
import { countsOnShed } from '../../shed/from-stock.ts'
import { fieldsOfFigures, NOTHING_TYPED } from '../figures/figure-fields.ts'
import { type FiguresShown, figureFold } from '../figures/figure-fold.ts'
import { bareNumbers, SHOWN_IN, unitsSwitch } from '../form/bare-numbers.ts'
import { faultNote, faultText, hasFaultUnder, open, type Placed } from '../form/controls.ts'
import { CURVES } from '../form/curve-sizes.ts'
import { faultsByPlace, placeInForm } from '../form/fault-places.ts'
import { inFormWords } from '../form/fault-words.ts'
import { placeName } from '../form/place-names.ts'
import { planEditor } from '../form/plan-editor.ts'
import { type FormPart, planOfForm, WHOLE } from '../form/plan-form.ts'
import { planShape } from '../form/plan-shape.ts'
import { withRowsReady } from '../form/rows.ts'
import { attributes, type Html, html } from '../html.ts'
import { faultInUnits } from '../in-units.ts'
import { metalsCard } from '../metals/metals-card.ts'
import { type MetalPrices, metalsOf } from '../metals/metals-to-compare.ts'
import { RAIL_AT } from '../sheets/garden/gap-question.ts'
import { lineSheet } from '../sheets/line/line-sheet.ts'
import { paperLinks } from '../sheets/paper-links.ts'
import { recordSheet } from '../sheets/record/record-sheet.ts'
import type { SheetContext } from '../sheets/sheet.ts'
import { EDIT, editLink, type SheetLinks, sheetTabs } from '../sheets/sheet-links.ts'
import type { SheetName } from '../sheets/sheet-names.ts'
import { jobSheet } from '../sheets/sheets.ts'
import { unitsLinks } from '../sheets/units-links.ts'
import type { LengthsIn } from '../show-length.ts'
import { counted } from '../words.ts'
import { builtLine, extendsLine } from './built-page.ts'
import { type Conflict, conflictNotice } from './conflict.ts'
import { timeOf } from './saved-pages.ts'
import type { WorkedPlan } from './worked-plan.ts'

/** The fields of the form that are not part of the plan: its name, notes, and the units for display. */
export interface SaveFields {
  readonly name: string
  readonly notes: string
  readonly lengthsIn: LengthsIn
}

/** The saved plan that the page belongs to. */
export interface Saved {
  readonly id: string
  /** The latest revision when the page was made; the next save is based on it. */
  readonly revision: number
  /** The revision shown; null once it is being edited. */
  readonly opened: { readonly revision: number; readonly updatedAt: string } | null
  /** What was built of it, the oldest first. */
  readonly builds: readonly Build[]
}

export interface PlanPage {
  readonly form: FormPart
  readonly saveFields: SaveFields
  readonly saved: Saved | null
  readonly faults: readonly Fault[]
  readonly worked: WorkedPlan | null
  /** The sheet that is shown, if the plan is worked out. */
  readonly sheet: SheetName
  /** What the addresses of its sheets begin with; null for a plan that is not saved as it is shown. */
  readonly sheetBase: string | null
  /** The units those addresses show without being asked. */
  readonly ownUnits: LengthsIn
  /** The temperature asked on the garden sheet. */
  readonly railAt: string | null
  /** The bench cards that are ticked off, if the bench sheet of a saved plan is shown. */
  readonly finished?: readonly string[]
  readonly conflict?: Conflict | null
  /** Whether the page has the form of the plan; it always has as long as the plan is not worked out. */
  readonly editorOpen: boolean
  /** The table, or the row of one, that a button has just changed. */
  readonly touched?: string
  /** What was typed for figures, and the one to be looked at. */
  readonly figures?: FiguresShown
  /** What the plan, which is not saved yet, extends. */
  readonly extended?: Build | undefined
  /** Prices typed for other metals. */
  readonly metalPrices: MetalPrices
  /** The comparison of metals, if requested. */
  readonly compared?: { readonly comparison: Comparison | null; readonly faults: readonly Fault[] } | undefined
  /** Curve sizes that the plan was started with, separated by semicolons. */
  readonly curves?: string
  /** What stands above the form as long as nothing is worked out. */
  readonly above?: Html | null
}

/** The page of one plan: one of its sheets, or the form alone as long as it is not worked out. */
export function planPage(page: PlanPage): Html {
  const { saveFields, saved, worked, conflict } = page
  const faults = page.faults.map((fault) => faultInUnits(inFormWords(fault), page.saveFields.lengthsIn))
  const action = saved ? `/plans/${saved.id}` : '/'
  const title = saveFields.name || page.form.cells.title || 'New plan'
  return html`<h1>${title}</h1>
${page.extended ? extendsLine(page.extended) : saved && builtLine(saved)}
${saved ? savedLine(saved, page) : worked && shedLine(worked)}
${conflict && saved && conflictNotice(conflict, saved.id, saved.revision)}
${faultSummary(faults)}
${worked ? sheetOf({ ...page, faults }, worked, action) : html`${page.above}<div id="work"><div id="live"></div>${editor({ ...page, faults }, action)}</div>`}`
}

/** The links to all sheets and the one that is shown. A plan that is only in the form takes the form along. */
function sheetOf(page: PlanPage, worked: WorkedPlan, action: string): Html {
  const { sheet, sheetBase, saved, saveFields, railAt, ownUnits } = page
  const { lengthsIn, notes } = saveFields
  const links: SheetLinks = {
    base: sheetBase ?? (saved ? `/plans/${saved.id}` : '/sheets'),
    posted: sheetBase === null,
    lengthsIn,
    ownUnits,
  }
  const form = page.editorOpen ? editor(page, action) : withoutEditor(page, links, action)
  const context: SheetContext = { worked, lengthsIn, links, railAt, finished: finishedOf(page) }
  const tabs = html`${sheetTabs(links, sheet)}${paperLinks(links, sheet, worked.estimate)}${unitsLinks(links, sheet)}`
  if (sheet === 'line') return html`${tabs}${lineSheet(context, form, page.editorOpen)}`
  if (sheet === 'record') return html`${tabs}${recordSheet(context, notes, metals(page, worked), form)}`
  return html`${tabs}${jobSheet(sheet, context)}${links.posted && form}`
}

function finishedOf({ saved, finished }: PlanPage): SheetContext['finished'] {
  if (!saved?.opened || !finished) return null
  return { action: `/plans/${saved.id}/revisions/${saved.opened.revision}/cards`, cards: new Set(finished) }
}

function metals({ form, metalPrices, compared, saveFields }: PlanPage, worked: WorkedPlan): Html {
  return metalsCard({
    metals: metalsOf(planOfForm(form), worked, metalPrices),
    comparison: compared?.comparison ?? null,
    faults: compared?.faults ?? [],
    lengthsIn: saveFields.lengthsIn,
  })
}

/** The shed counts before the first save too, but nothing is reserved yet. */
function shedLine({ estimate }: WorkedPlan): Html | null {
  if (!countsOnShed(estimate)) return null
  return html`<p class="hint">Not saved yet. What is free in <a href="/shed">the shed</a> counts as on hand here; saving the plan reserves it.</p>`
}

function savedLine({ id, revision, opened }: Saved, { saveFields: { lengthsIn }, ownUnits }: PlanPage): Html {
  const show = lengthsIn === ownUnits ? '' : `?show=${lengthsIn}`
  const units = show && `?units=${lengthsIn === 'feet' ? 'in' : 'mm'}`
  const links = html`<span class="no-print"><a href="/plans/${id}/revisions">all revisions</a> · <a href="/v1/projects/${id}/tables/bill.csv${units}">shopping list as CSV</a> · <a href="/v1/projects/${id}/workbook.xlsx${units}">all tables as a workbook</a> · <a href="/plans/${id}/links">links for spreadsheets</a> · <a href="/plans/${id}/shopping${show}">tick off the shopping list</a>${revision > 1 && html` · <a href="/plans/${id}/since${show}">what more to buy</a>`} · <a href="/plans/${id}/built${show}">mark as built</a> · <a href="/plans/${id}/delete">delete</a></span>`
  if (!opened) return html`<p class="hint">Based on revision ${revision}; changes not saved. ${links}</p>`
  const line = html`<p class="hint">Revision ${opened.revision}, saved ${timeOf(opened.updatedAt)} · ${links}</p>`
  if (opened.revision === revision) return line
  return html`${line}<p class="card notice">This is revision ${opened.revision} of ${revision}. Saving it makes it the latest; the others are kept. <a href="/plans/${id}">Go to the latest revision</a></p>`
}

function editor(page: PlanPage, action: string): Html {
  const { saveFields, saved, conflict } = page
  const placed: Placed = {
    part: withRowsReady(page.form),
    path: '',
    faults: faultsByPlace(page.faults),
    shape: planShape,
    lengthsIn: saveFields.lengthsIn,
    touched: page.touched,
  }
  const isSaveOpen = saveFields.name !== '' || saveFields.notes !== '' || hasFaultUnder(placed, 'name', 'notes')
  const form = html`<form method="post" action="${action}" autocomplete="off" id="plan"${attributes({ 'data-saved': saved?.opened !== null && saved !== null })}>
<button class="default-button" name="do" value="work" tabindex="-1" aria-hidden="true">Calculate</button>
${saved && html`<input type="hidden" name="revision" value="${saved.revision}">`}
${carriedFields(page)}
<input type="hidden" name="${SHOWN_IN}" value="${saveFields.lengthsIn}">
${planEditor(placed, action, { figures: figureFold(placed, page.figures ?? { typed: NOTHING_TYPED, tried: null }, action), curves: page.curves ?? '' })}
<details class="card" id="save"${open(isSaveOpen)}><summary>Name and notes <span class="hint">of the saved plan</span></summary>
<div class="fields">
<div class="field"><label for="name">Plan name</label><input id="name" name="name" maxlength="200" value="${saveFields.name}" aria-describedby="name.hint"><span class="hint" id="name.hint">blank: use the title</span>${faultNote('name', placed.faults.get('name') ?? [])}</div>
<div class="field wide"><label for="notes">Notes</label><textarea id="notes" name="notes" rows="3">
${saveFields.notes}</textarea>${faultNote('notes', placed.faults.get('notes') ?? [])}</div>
</div></details>
<div class="bar-buttons buttons">
<button class="first" name="do" value="work">Calculate</button>
${saveButtons(saved, conflict)}
<p class="units">${unitsSwitch(saveFields.lengthsIn)} <span class="hint">${bareNumbers(saveFields.lengthsIn)}</span></p>
</div>
</form>`
  if (!page.worked) return html`<section class="editor" id="edit" aria-label="Plan">${form}</section>`
  return html`<details class="editor" id="edit" open><summary class="button">Edit plan</summary>${form}</details>`
}

/**
 * A page that is not for typing has the plan in one field instead of the form, which would be most of the page. Buttons that
 * change the plan post it, and so does whatever leads to the form of a plan that is not saved.
 */
function withoutEditor(page: PlanPage, links: SheetLinks, action: string): Html {
  const { form, saveFields, saved, conflict } = page
  const { name, notes, lengthsIn } = saveFields
  const fields = {
    ...Object.fromEntries(fieldsOfFigures(page.figures?.typed ?? NOTHING_TYPED)),
    ...{ [WHOLE]: JSON.stringify(planOfForm(form)), name, notes, show: lengthsIn },
  }
  return html`<div class="editor folded" id="edit">
<form method="post" action="${action}" id="plan"${attributes({ 'data-saved': saved?.opened !== null && saved !== null })}>
${saved && html`<input type="hidden" name="revision" value="${saved.revision}">`}
${carriedFields(page)}${Object.entries(fields).map(([key, text]) => text !== '' && html`<input type="hidden" name="${key}" value="${text}">`)}
</form>
<p class="buttons no-print" id="save">${editLink(links, 'Edit plan', EDIT, 'button')}${links.posted && html` ${saveButtons(saved, conflict)}`}</p>
</div>`
}

/** What was typed on another sheet, so that it is still there later. */
function carriedFields({ sheet, sheetBase, worked, metalPrices, railAt, curves = '' }: PlanPage): Html[] {
  const shownHere = worked && sheetBase === null ? sheet : null
  const carried = [
    ...(shownHere === 'record' ? [] : metalPrices),
    ...(shownHere === 'garden' || railAt === null ? [] : [[RAIL_AT, railAt] as const]),
    [CURVES, curves] as const,
  ]
  return carried
    .filter(([, text]) => text !== '')
    .map(([name, text]) => html`<input type="hidden" name="${name}" value="${text}">`)
}

/** Outside the form too. */
function saveButtons(saved: Saved | null, conflict: Conflict | null | undefined): Html {
  if (conflict?.kind === 'saved')
    return html`<button form="plan" name="do" value="save-new">Save as a new plan</button> <button form="plan" class="danger" name="do" value="save over ${conflict.revision}">Save over revision ${conflict.revision}</button>`
  if (conflict) return html`<button form="plan" name="do" value="save-new">Save as a new plan</button>`
  if (!saved) return html`<button form="plan" name="do" value="save">Save</button>`
  return html`<button form="plan" name="do" value="save">Save</button> <button form="plan" name="do" value="save-new">Save as a new plan</button>`
}

function faultSummary(faults: readonly Fault[]): Html | null {
  if (faults.length === 0) return null
  return html`<section class="card errors" role="alert" aria-labelledby="errors-title"><h2 id="errors-title">${counted(faults.length, 'problem')} to fix</h2>
${faultList(faults, 'marked in the form')}
</section>`
}

/** The faults of a plan with links to their fields. */
export function faultList(faults: readonly Fault[], others: string): Html {
  return html`<ul>${faults.slice(0, MOST_LISTED).map((fault) => html`<li><a href="#${anchorOf(fault)}">${placeName(fault.path)}</a>: ${faultText(fault)}</li>`)}</ul>
${faults.length > MOST_LISTED && html`<p>… and ${faults.length - MOST_LISTED} more, ${others}.</p>`}`
}

const MOST_LISTED = 50

function anchorOf(fault: Fault): string {
  return placeInForm(fault.path) || 'plan'
}
