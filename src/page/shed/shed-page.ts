import { MATERIALS } from '../../catalogue/materials.ts'
import { SECTIONS } from '../../catalogue/sections.ts'
import type { Fault } from '../../measure/fault.ts'
import type { Reservation } from '../../projects/store.ts'
import { faultNote, field, type Option } from '../form/controls.ts'
import type { FormPart } from '../form/plan-form.ts'
import { tableEditor } from '../form/table-editor.ts'
import { type Html, html } from '../html.ts'
import { shedFaultsByPlace } from './shed-form.ts'
import { PARTS, stockInWords } from './stock-words.ts'

export interface ShedPage {
  readonly form: FormPart
  /** That was read; whoever saves replaces it and no later one. */
  readonly revision: number
  readonly reservations: readonly Reservation[]
  readonly faults: readonly Fault[]
  /** Somebody else wrote in between. */
  readonly stale: boolean
}

const SECTION_OPTIONS: readonly Option[] = [
  { value: '', label: '–' },
  ...SECTIONS.map(({ id, name }) => ({ value: id, label: name })),
]
const MATERIAL_OPTIONS: readonly Option[] = [
  { value: '', label: '–' },
  ...MATERIALS.map(({ id, name }) => ({ value: id, label: name })),
]
const PART_OPTIONS: readonly Option[] = PARTS.map(({ key, one }) => ({ value: key, label: one }))
const RAIL_COLUMNS = [
  { key: 'section', label: 'Rail section', options: SECTION_OPTIONS },
  { key: 'material', label: 'Metal', options: MATERIAL_OPTIONS },
]

const COUNT_COLUMN = { key: 'count', label: 'How many', numeric: true }

/** What lies in the shed, to be put right, and which plan has what of it. */
export function shedPage({ form, revision, reservations, faults, stale }: ShedPage): Html {
  const placed = { part: form, path: '', faults: shedFaultsByPlace(faults, form) }
  return html`<h1>What lies in the shed</h1>
<p>One stock for all saved plans. Each plan that is still to be built has what it takes of it, the oldest plan first; no two have the same stick or piece.
A plan that says itself what is on hand takes none of that from here.</p>
${stale && html`<p class="card notice" role="alert">Somebody changed the shed while you were at it, or a plan was built. What you typed is all here, but not saved. Save again to put it in the place of what is there now.</p>`}
${faults.length > 0 && html`<p class="card notice" role="alert">Nothing is saved yet: look at what is marked below.</p>`}
<form method="post" action="/shed" class="card">
<input type="hidden" name="revision" value="${revision}">
${faultNote('shed', placed.faults.get('') ?? [])}
${tableEditor(placed, '/shed', {
  table: 'sticks',
  caption: 'Sticks of rail, offcuts too',
  className: 'stocked',
  row: 'stick',
  add: 'One more length',
  columns: [...RAIL_COLUMNS, { key: 'length', label: 'Length' }, COUNT_COLUMN],
})}
${tableEditor(placed, '/shed', {
  table: 'panels',
  caption: 'Ready-made track, cut pieces too',
  className: 'stocked shelved',
  row: 'piece',
  add: 'One more size',
  columns: [
    ...RAIL_COLUMNS,
    { key: 'length', label: 'Length of a straight' },
    { key: 'diameter', label: 'Diameter of a curve' },
    { key: 'angle', label: 'Its angle, °', numeric: true },
    { key: 'ties', label: 'Ties on one', numeric: true },
    COUNT_COLUMN,
  ],
})}
<p class="hint">A straight piece has a length, a curved one the diameter of its centre line and its angle. Ties left blank: two rails alone.
A plan draws on these if it lists ready-made track or asks for it.</p>
${tableEditor(placed, '/shed', {
  table: 'parts',
  caption: 'Joiners and joints',
  className: 'stocked parts',
  row: 'part',
  add: 'One more kind',
  columns: [{ key: 'part', label: 'What', options: PART_OPTIONS }, ...RAIL_COLUMNS, COUNT_COLUMN],
})}
${tableEditor(placed, '/shed', {
  table: 'tieStrips',
  caption: 'Ties moulded in strips',
  className: 'stocked moulded',
  row: 'strip',
  add: 'One more strip',
  columns: [{ key: 'ties', label: 'Ties in a strip', numeric: true }, COUNT_COLUMN],
})}
<div class="fields">
${field(placed, { key: 'ties', label: 'Ties, single', numeric: true })}
${field(placed, { key: 'fasteners', label: 'Fasteners', numeric: true })}
</div>
<p class="buttons"><button class="first" name="do" value="save">Save</button></p>
</form>
<section class="card" aria-labelledby="reserved"><h2 id="reserved">Which plan has what</h2>
${reservations.length === 0 ? html`<p class="hint">No saved plan takes anything from the shed.</p>` : html`<ul class="plans">${reservations.map(reservationItem)}</ul>`}
</section>`
}

function reservationItem({ project, name, stock }: Reservation): Html {
  return html`<li><a href="/plans/${project}">${name}</a> <span class="hint">${stockInWords(stock).join('; ')}</span></li>`
}
