import type { Fault } from '../../measure/fault.ts'
import { STOCK } from '../../plan/rows/shed.ts'
import type { Reservation } from '../../projects/store.ts'
import { faultNote, field, type Placed } from '../form/controls.ts'
import type { FormPart } from '../form/plan-form.ts'
import { tableEditor } from '../form/table-editor.ts'
import { type Html, html } from '../html.ts'
import { shedFaultsByPlace, shedShape } from './shed-form.ts'
import { stockInWords } from './stock-words.ts'

export interface ShedPage {
  readonly form: FormPart
  /** That was read; whoever saves replaces it and no later one. */
  readonly revision: number
  readonly reservations: readonly Reservation[]
  readonly faults: readonly Fault[]
  /** Somebody else wrote in between. */
  readonly stale: boolean
}

/** What lies in the shed, to be put right, and which plan has what of it. */
export function shedPage({ form, revision, reservations, faults, stale }: ShedPage): Html {
  const placed: Placed = {
    part: form,
    path: '',
    faults: shedFaultsByPlace(faults, form),
    shape: shedShape,
    lengthsIn: 'both',
  }
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
  caption: STOCK.fields.sticks.label!,
  className: 'stocked',
  row: 'stick',
  add: 'One more length',
})}
${tableEditor(placed, '/shed', {
  table: 'panels',
  caption: STOCK.fields.panels.label!,
  className: 'stocked shelved',
  row: 'piece',
  first: ['section', 'material', 'length', 'across', 'angle'],
  add: 'One more size',
})}
<p class="hint">A straight piece has a length, a curved one the diameter of its centre line and its angle. Ties left blank: two rails alone.
A plan draws on these if it lists ready-made track or asks for it.</p>
${tableEditor(placed, '/shed', {
  table: 'parts',
  caption: 'Joiners and joints',
  className: 'stocked parts',
  row: 'part',
  add: 'One more kind',
})}
${tableEditor(placed, '/shed', {
  table: 'tieStrips',
  caption: STOCK.fields.tieStrips.label!,
  className: 'stocked moulded',
  row: 'strip',
  add: 'One more strip',
})}
<div class="fields">
${field(placed, 'ties')}
${field(placed, 'fasteners')}
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
