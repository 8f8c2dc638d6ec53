import { type Html, html } from '../html.ts'
import {
  faultNote,
  fieldRow,
  fieldsBut,
  inner,
  isInUse,
  open,
  type Placed,
  partButtons,
  preservedField,
  rowButton,
  rowsOf,
  textAt,
} from './controls.ts'
import { tableEditor } from './table-editor.ts'

/** The id of the list of names of cars, suggested where a train asks for one. */
const CAR_NAMES = 'car-names'

/** Fields of a car that a table has no room for: those for its way up a grade. */
const OF_WEIGHT = ['undersideHeight', 'massKg', 'rollingResistancePct', 'wheelbase']

/** The cars that run on the line, and the trains made up of them. */
export function carsEditor(plan: Placed, action: string): Html {
  const cars = rowsOf(plan, 'cars')
  const names = [...new Set(cars.map((car) => textAt(car, 'name').trim()))].filter((name) => name !== '')
  const trains = rowsOf(plan, 'trains')
  return html`<details class="card"${open(isInUse(plan, 'cars', 'trains'))} id="cars-and-trains">
<summary>Cars and trains <span class="hint">how wide curves must be, and what stands clear where</span></summary>
<p class="hint">Measure your longest and your widest car, and each engine: the body without its couplers, how far apart the trucks turn, and how far a
coupler reaches beyond the body. Then put trains together from them by name. With the mass of each car, and what drives the engine, the line sheet says what it
takes up the grade.</p>
${tableEditor(plan, action, {
  table: 'cars',
  caption: 'Cars and engines',
  className: 'cars',
  row: 'car',
  without: OF_WEIGHT,
  add: 'Add a car',
})}
${cars.map((car, index) => weightEditor(car, index))}
<datalist id="${CAR_NAMES}">${names.map((name) => html`<option value="${name}"></option>`)}</datalist>
<div id="trains">
${faultNote('trains', plan.faults.get('trains') ?? [])}
${trains.map((train, index) => trainEditor(train, action, index, trains.length))}
<p class="below">${rowButton(action, 'add trains', `trains.${trains.length}`, 'Add a train')}</p>
</div>
</details>`
}

/** What a car weighs and what makes it an engine, folded. */
function weightEditor(car: Placed, index: number): Html {
  const engine = inner(car, 'engine')
  const name = textAt(car, 'name').trim()
  const isOpen = isInUse(car, 'engine', ...OF_WEIGHT)
  return html`<details${open(isOpen)} id="${car.path}.weight"><summary>Weight and pull: ${name || `car ${index + 1}`}</summary>
${fieldRow(car, OF_WEIGHT)}
<fieldset id="${engine.path}"><legend>If it is an engine</legend>
${preservedField(engine)}${faultNote(engine.path, engine.faults.get(engine.path) ?? [])}
${fieldRow(engine, fieldsBut(engine))}</fieldset>
</details>`
}

function trainEditor(train: Placed, action: string, index: number, count: number): Html {
  const name = textAt(train, 'name')
  return html`<fieldset class="kind" id="${train.path}">
<legend>Train ${index + 1}${name && html`: ${name}`}</legend>
${preservedField(train)}${faultNote(train.path, train.faults.get(train.path) ?? [])}
${fieldRow(train, fieldsBut(train))}
${tableEditor(train, action, {
  table: 'cars',
  caption: 'Cars behind the engine, from front to back',
  className: 'cars-of-train',
  row: `train ${index + 1}, entry`,
  lists: { car: CAR_NAMES },
  add: 'Add cars',
})}
${partButtons(action, train.path, `train ${index + 1}`, count)}
</fieldset>`
}
