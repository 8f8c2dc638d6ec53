import { attributes, type Html, html } from '../html.ts'
import type { LengthsIn } from '../show-length.ts'
import type { Bare, Cell } from './cells.ts'
import type { Shape } from './form-shape.ts'
import { type FormPart, mapped } from './plan-form.ts'

/*
 * In a plan, and in the parts of a form, a bare number is millimetres or °C. A page in feet shows it with its unit, and
 * reads what is typed there without one as inches or °F. So the form says in which units it was shown.
 */

/** The hidden field that says in which units the form was shown. */
export const SHOWN_IN = 'shownIn'

const METRIC: Readonly<Record<Bare, string>> = { length: 'mm', temperature: 'C' }
const IMPERIAL: Readonly<Record<Bare, string>> = { length: 'in', temperature: 'F' }

const BARE = /^[-+−]?(?:\d+(?:\.\d*)?|\.\d+|\d+\/\d+|\d+[ -]\d+\/\d+)$/

const LENGTHS_IN: readonly (readonly [LengthsIn, string])[] = [
  ['both', 'mm with feet and inches, °C'],
  ['metric', 'millimetres, °C'],
  ['feet', 'feet and inches, °F'],
]

/** The switch of units of a form. */
export function unitsSwitch(lengthsIn: LengthsIn): Html {
  return html`<label for="show">Units</label> <select id="show" name="show">${LENGTHS_IN.map(([value, label]) => html`<option${attributes({ value, selected: value === lengthsIn })}>${label}</option>`)}</select>`
}

/** How the page reads a bare number. */
export function bareNumbers(lengthsIn: LengthsIn): string {
  return lengthsIn === 'feet'
    ? 'A number without a unit is inches or °F.'
    : 'A number without a unit is millimetres or °C.'
}

/** The text of a cell as the page shows it. */
export function shownIn(text: string, cell: Pick<Cell, 'bare'> | undefined, lengthsIn: LengthsIn): string {
  return lengthsIn === 'feet' && cell?.bare ? withUnit(text, METRIC[cell.bare]) : text
}

/** What a bare number in a cell is; a curve given by its degree has no length there. */
export function bareCell({ cells }: FormPart, shape: Shape, key: string): Pick<Cell, 'bare'> | undefined {
  return key === 'across' && cells.acrossIs === 'degree' ? undefined : shape.cells[key]
}

/** A posted form as it is meant: on a page in feet a bare number is inches or °F. */
export function asMeant(form: FormPart, shape: Shape, lengthsIn: LengthsIn): FormPart {
  if (lengthsIn !== 'feet') return form
  const { groups = {}, tables = {} } = shape
  return {
    ...form,
    cells: mapped(form.cells, (text, key) => {
      const { bare } = bareCell(form, shape, key) ?? {}
      return bare ? withUnit(text, IMPERIAL[bare]) : text
    }),
    groups: mapped(form.groups, (part, key) => asMeant(part, groups[key]!, lengthsIn)),
    tables: mapped(form.tables, (rows, key) => rows.map((row) => asMeant(row, tables[key]!, lengthsIn))),
  }
}

/** Each bare number of a text, which may be a list, with a unit. */
export function withUnit(text: string, unit: string): string {
  return text
    .split(/([;,])/)
    .map((each) => (BARE.test(each.trim()) ? each.replace(each.trim(), `${each.trim()} ${unit}`) : each))
    .join('')
}
