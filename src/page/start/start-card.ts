import { fieldCalled, inner, type Placed } from '../form/controls.ts'
import type { Option } from '../form/form-shape.ts'
import { OWN_METAL, planShape } from '../form/plan-shape.ts'
import { blankForm } from '../form/rows.ts'
import { attributes, type Html, html } from '../html.ts'
import type { LengthsIn } from '../show-length.ts'
import { CURVES_ASKED } from './started.ts'

/** The six fields that a plan starts with; the form that follows has everything else. */
export function startCard(lengthsIn: LengthsIn): Html {
  const plan: Placed = { part: blankForm(), path: '', faults: new Map(), shape: planShape, lengthsIn }
  const rail = inner(plan, 'rail')
  const choice = (key: 'section' | 'material') => {
    const { label, options = [] } = fieldCalled(rail, key)
    return html`<div class="field"><label for="${key}">${label}</label><select id="${key}" name="${key}">${options
      .filter(({ value }) => value !== '')
      .map((option) => optionOfStart(option, rail.part.cells[key]!))}</select></div>`
  }
  const hints = lengthsIn === 'metric' ? ['such as 6 m', 'such as 5 m', ''] : ['such as 20 ft', 'such as 16 ft', '']
  return html`<section class="card" id="start" aria-labelledby="start-title"><h2 id="start-title">Start your own</h2>
<form method="get" action="/new" autocomplete="off">${lengthsIn !== 'both' && html`<input type="hidden" name="show" value="${lengthsIn}">`}
<div class="fields">
${choice('section')}
${choice('material')}
${lengthField('stick', 'stick', 'Stick length', 'as the rail is sold; blank: 5 ft')}
${Array.from({ length: CURVES_ASKED }, (_, n) =>
  lengthField('curve', `curve-${n + 1}`, n === 0 ? 'Curve, diameter' : `Curve ${n + 1}, diameter`, hints[n]!),
)}
</div>
<p class="buttons"><button class="first">Start the plan</button> <span class="hint">You see how far to bend each curve, then lay the track out. <a href="/new">Start without curve sizes</a></span></p>
</form></section>`
}

function lengthField(name: string, id: string, label: string, hint: string): Html {
  const hintId = hint === '' ? null : `${id}.hint`
  return html`<div class="field"><label for="${id}">${label}</label><input${attributes({ id, name, 'aria-describedby': hintId })}>${hintId && html`<span class="hint" id="${hintId}">${hint}</span>`}</div>`
}

function optionOfStart({ value, label }: Option, chosen: string): Html {
  const words = value === OWN_METAL ? 'Another metal' : label
  return html`<option${attributes({ value, selected: value === chosen })}>${words}</option>`
}
