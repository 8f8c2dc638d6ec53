import type { Fault } from '../../measure/fault.ts'
import { STOCK } from '../../plan/rows/shed.ts'
import type { Reservation } from '../../projects/store.ts'
import { bareNumbers, SHOWN_IN, unitsSwitch } from '../form/bare-numbers.ts'
import { faultNote, field, type Placed } from '../form/controls.ts'
import type { FormPart } from '../form/plan-form.ts'
import { tableEditor } from '../form/table-editor.ts'
import { type Html, html } from '../html.ts'
import { faultInUnits } from '../in-units.ts'
import type { LengthsIn } from '../show-length.ts'
import { shedFaultsByPlace, shedShape } from './shed-form.ts'
import { stockInWords } from './stock-words.ts'

export interface ShedPage {
  readonly form: FormPart
  /** The revision the form was made from; saving replaces only this one. */
  readonly revision: number
  readonly reservations: readonly Reservation[]
  readonly faults: readonly Fault[]
  readonly lengthsIn: LengthsIn
  /** Someone else saved in the meantime. */
  readonly stale: boolean
  /** It was saved just now. */
  readonly saved: boolean
}

/** The stock in the shed, which can be edited, and which plan has reserved what. */
export function shedPage({ form, revision, reservations, faults, lengthsIn, stale, saved }: ShedPage): Html {
  const placed: Placed = {
    part: form,
    path: '',
    faults: shedFaultsByPlace(
      faults.map((fault) => faultInUnits(fault, lengthsIn)),
      form,
    ),
    shape: shedShape,
    lengthsIn,
  }
  return html`<h1>Stock in the shed</h1>
<p>All saved plans share this stock. Each plan that is not yet built reserves what it needs, the oldest plan first; no stick or piece is reserved twice.
If a plan gives its own quantity on hand for an item, it takes none of that item from the shed.</p>
${saved && html`<p class="card notice" role="status">Saved. What each plan reserves has been worked out again.</p>`}
${stale && html`<p class="card notice" role="alert">Someone else changed the shed, or a plan was built, while you were editing. Your input is still here but not saved. Save again to replace the current stock with it.</p>`}
${faults.length > 0 && html`<p class="card notice" role="alert">Not saved yet: fix the marked fields below.</p>`}
<form method="post" action="/shed" class="card">
<input type="hidden" name="revision" value="${revision}">
${faultNote('shed', placed.faults.get('') ?? [])}
${tableEditor(placed, '/shed', {
  table: 'sticks',
  caption: STOCK.fields.sticks.label!,
  className: 'stocked',
  row: 'stick',
  add: 'Add a length',
})}
${tableEditor(placed, '/shed', {
  table: 'panels',
  caption: STOCK.fields.panels.label!,
  className: 'stocked shelved',
  row: 'piece',
  first: ['section', 'material', 'length', 'across', 'angle'],
  add: 'Add a size',
})}
<p class="hint">Enter the length of a straight piece, or the diameter or radius of the centre line and the angle of a curved one. Leave ties blank for pieces without ties.
A plan uses these pieces if it lists ready-made track or asks for it.</p>
${tableEditor(placed, '/shed', {
  table: 'parts',
  caption: 'Joiners and joints',
  className: 'stocked parts',
  row: 'part',
  add: 'Add a part',
})}
${tableEditor(placed, '/shed', {
  table: 'tieStrips',
  caption: STOCK.fields.tieStrips.label!,
  className: 'stocked moulded',
  row: 'strip',
  add: 'Add a strip',
})}
<div class="fields">
${field(placed, 'ties')}
${field(placed, 'fasteners')}
</div>
<input type="hidden" name="${SHOWN_IN}" value="${lengthsIn}">
<div class="buttons"><button class="first" name="do" value="save">Save</button> <button name="do" value="show">Show</button>
<p class="units">${unitsSwitch(lengthsIn)} <span class="hint">${bareNumbers(lengthsIn)}</span></p></div>
</form>
<section class="card" aria-labelledby="reserved"><h2 id="reserved">Reserved by plans</h2>
${reservations.length === 0 ? html`<p class="hint">No saved plan has reserved stock.</p>` : html`<ul class="plans">${reservations.map((each) => reservationItem(each, lengthsIn))}</ul>`}
</section>`
}

function reservationItem({ project, name, stock }: Reservation, lengthsIn: LengthsIn): Html {
  return html`<li><a href="/plans/${project}">${name}</a> <span class="hint">${stockInWords(stock, lengthsIn).join('; ')}</span></li>`
}
