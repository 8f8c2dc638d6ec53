import type { Fault } from '../../measure/fault.ts'
import { formatFeetInches, formatMm } from '../../measure/length.ts'
import { attributes, type Content, type Html, html } from '../html.ts'
import { inUnits } from '../in-units.ts'
import type { LengthsIn } from '../show-length.ts'
import { bareCell, shownIn } from './bare-numbers.ts'
import type { FaultsByPlace } from './fault-places.ts'
import type { Look, Option, Shape } from './form-shape.ts'
import { type FormPart, PRESERVED } from './plan-form.ts'
import { isBlank } from './rows.ts'

/** A part of the form and its path. A field's name is the path of its part and its own key. */
export interface Placed {
  readonly part: FormPart
  /** '' for the plan itself. */
  readonly path: string
  readonly faults: FaultsByPlace
  /** Its fields, with their labels and hints. */
  readonly shape: Shape
  /** The units in which default lengths are shown. */
  readonly lengthsIn: LengthsIn
  /** The table, or the row of one, that a button has just changed. */
  readonly touched?: string | null | undefined
}

/** A field of the form, with its label and hint. */
export interface Field extends Look {
  readonly key: string
}

/** A field of a part, by its key. */
export function fieldCalled({ shape }: Placed, key: string): Field {
  const look = shape.looks[key]
  if (!look) throw new RangeError(`the form has no field ${key} here`)
  return { key, ...look }
}

/** All fields of a part except some, in the order of their rows. */
export function fieldsBut({ shape }: Placed, ...others: readonly string[]): Field[] {
  return Object.entries(shape.looks).flatMap(([key, look]) => (others.includes(key) ? [] : [{ key, ...look }]))
}

export function inner(placed: Placed, group: string): Placed {
  return {
    ...placed,
    part: placed.part.groups[group]!,
    path: pathTo(placed, group),
    shape: placed.shape.groups![group]!,
  }
}

export function rowsOf(placed: Placed, table: string): Placed[] {
  const rows = placed.part.tables[table] ?? []
  const shape = placed.shape.tables![table]!
  return rows.map((part, index) => ({ ...placed, part, path: `${pathTo(placed, table)}.${index}`, shape }))
}

export function pathTo(placed: Placed, key: string): string {
  return placed.path === '' ? key : `${placed.path}.${key}`
}

export function textAt(placed: Placed, key: string): string {
  return placed.part.cells[key] ?? ''
}

export function faultsAt(placed: Placed, key: string): readonly Fault[] {
  return placed.faults.get(pathTo(placed, key)) ?? []
}

/** Whether a field, group or table at or under these paths has a fault, so that it must be shown open. */
export function hasFaultUnder(placed: Placed, ...keys: readonly string[]): boolean {
  const paths = keys.map((key) => pathTo(placed, key))
  return [...placed.faults.keys()].some((place) => paths.some((path) => place === path || place.startsWith(`${path}.`)))
}

/**
 * Whether a field, group or table at or under these keys is filled in, has a fault, or has just been changed by a button,
 * so that it must be shown open.
 */
export function isInUse(placed: Placed, ...keys: readonly string[]): boolean {
  if (hasFaultUnder(placed, ...keys)) return true
  const { part, shape, touched } = placed
  return keys.some((key) => {
    const path = pathTo(placed, key)
    if (touched === path || touched?.startsWith(`${path}.`)) return true
    if (key in shape.cells) return textAt(placed, key) !== shape.cells[key]!.show(undefined)
    const group = shape.groups?.[key]
    if (group) return part.groups[key] !== undefined && !isBlank(group, part.groups[key])
    return (part.tables[key] ?? []).some((row) => !isBlank(shape.tables![key]!, row))
  })
}

/** Whether one of these fields has a value, so that they must be shown open. */
export function isFilledIn(placed: Placed, keys: readonly string[] = Object.keys(placed.shape.looks)): boolean {
  return keys.some((key) => textAt(placed, key) !== '')
}

/** A hidden field that preserves what the form has no field for. */
export function preservedField(placed: Placed): Html | null {
  const { preserved } = placed.part
  return (
    preserved && html`<input type="hidden" name="${pathTo(placed, PRESERVED)}" value="${JSON.stringify(preserved)}">`
  )
}

/** A field with its label above and its faults below; a checkbox has its label after it. */
export function field(placed: Placed, named: Field | string): Html {
  const spec = typeof named === 'string' ? fieldCalled(placed, named) : named
  if (spec.tick) return tickField(placed, spec)
  const path = pathTo(placed, spec.key)
  const faults = faultsAt(placed, spec.key)
  const hint = hintOf(placed, spec)
  const hintId = hint === '' ? null : `${path}.hint`
  const described = [hintId, faults.length > 0 ? `${path}.fault` : null].filter(Boolean).join(' ')
  return html`<div class="field">
<label for="${path}">${spec.label}</label>
${control(placed, spec, { id: path, 'aria-describedby': described || null })}
${hint !== '' && html`<span class="hint" id="${hintId}">${hint}</span>`}
${faultNote(path, faults)}
</div>`
}

/** How to fill in a field, and what it means when blank, in the units of the page. */
function hintOf({ lengthsIn }: Placed, { hint, blank }: Look): string {
  const usual = typeof blank === 'object' ? usualLength(blank.mm, lengthsIn) : blank
  return inUnits([hint, usual && `blank: ${usual}`].filter(Boolean).join('; '), lengthsIn)
}

function usualLength(mm: number, lengthsIn: LengthsIn): string {
  return lengthsIn === 'feet' ? formatFeetInches(mm, 64) : formatMm(mm)
}

/** Fields side by side, checkboxes below them. */
export function fieldRow(placed: Placed, named: readonly (Field | string)[]): Html {
  const specs = named.map((each) => (typeof each === 'string' ? fieldCalled(placed, each) : each))
  const ticks = specs.filter(({ tick }) => tick)
  return html`<div class="fields">${specs.filter(({ tick }) => !tick).map((spec) => field(placed, spec))}</div>
${ticks.length > 0 && html`<div class="ticks">${ticks.map((spec) => tickField(placed, spec))}</div>`}`
}

/** All fields of a group under a legend. */
export function fieldGroup(placed: Placed, key: string, legend: string): Html {
  const group = inner(placed, key)
  return html`<fieldset id="${group.path}"><legend>${legend}</legend>
${preservedField(group)}${faultNote(group.path, placed.faults.get(group.path) ?? [])}
${fieldRow(group, fieldsBut(group))}</fieldset>`
}

/** A group of fields under its own heading, folded unless `isOpen`. */
export function foldedGroup(
  group: Placed,
  {
    isOpen,
    summary,
    isCard = false,
  }: { readonly isOpen: boolean; readonly summary: Content; readonly isCard?: boolean },
  body: Content,
): Html {
  return html`<details${attributes({ class: isCard ? 'card' : null, open: isOpen, id: group.path })}>
<summary>${summary}</summary>
${preservedField(group)}${faultNote(group.path, group.faults.get(group.path) ?? [])}
${body}
</details>`
}

/** A checkbox with its label after it. */
function tickField(placed: Placed, { key, label }: Field): Html {
  const path = pathTo(placed, key)
  const faults = faultsAt(placed, key)
  const described = faults.length > 0 ? `${path}.fault` : null
  const ticked = textAt(placed, key) !== ''
  return html`<div class="tick"><input type="checkbox"${attributes({ id: path, name: path, checked: ticked, 'aria-describedby': described })}>
<label for="${path}">${label}</label>${faultNote(path, faults)}</div>`
}

/** The control of a field without its label; the attributes name the label. */
export function control(placed: Placed, spec: Field, extra: Parameters<typeof attributes>[0]): Html {
  const value = shownIn(textAt(placed, spec.key), bareCell(placed.part, placed.shape, spec.key), placed.lengthsIn)
  const common = { name: pathTo(placed, spec.key), ...extra, ...(faultsAt(placed, spec.key).length > 0 && INVALID) }
  if (!spec.options)
    return html`<input${attributes({ ...common, inputmode: spec.numeric ? 'decimal' : null, value: value || null })}>`
  const known = spec.options.some((option) => option.value === value)
  const options = known ? spec.options : [...spec.options, { value, label: value }]
  return html`<select${attributes(common)}>${options.map((option) => optionOf(option, value))}</select>`
}

const INVALID = { 'aria-invalid': 'true' }

export function optionOf({ value, label }: Option, chosen: string): Html {
  return html`<option${attributes({ value, selected: value === chosen })}>${label}</option>`
}

/** What is wrong and how to fix it, with the id that `aria-describedby` of the field refers to. */
export function faultNote(path: string, faults: readonly Fault[]): Html | null {
  if (faults.length === 0) return null
  return html`<p class="fault" id="${path}.fault">${faults.map(faultText)}</p>`
}

export function faultText({ detail, hint }: Fault): Html {
  return html`<span>${sentence(detail)}${hint && html` <em>${sentence(hint)}</em>`}</span> `
}

/** A button that changes a table and returns to it. */
export function rowButton(action: string, change: string, anchor: string, label: Content, name?: string): Html {
  return html`<button name="do" value="${change}" formaction="${action}#${anchor}"${attributes({ 'aria-label': name, title: name })} class="small">${label}</button>`
}

/** The buttons of one of several parts of a kind, such as tracks: each works as a page. */
export function partButtons(action: string, path: string, name: string, count: number, canRemove = true): Html {
  const [, table = '', number] = /^(.+)\.(\d+)$/.exec(path) ?? []
  const index = Number(number)
  return html`<p class="below part-buttons">${rowButton(action, `duplicate ${path}`, `${table}.${index + 1}`, 'Duplicate', `Duplicate ${name}`)}
${index > 0 && rowButton(action, `up ${path}`, `${table}.${index - 1}`, 'Move up', `Move ${name} up`)}
${index < count - 1 && rowButton(action, `down ${path}`, `${table}.${index + 1}`, 'Move down', `Move ${name} down`)}
${canRemove && rowButton(action, `remove ${path}`, table, `Remove ${name}`)}</p>`
}

export function sentence(text: string): string {
  const first = text.charAt(0).toUpperCase() + text.slice(1)
  return /[.!?…]$/.test(first) ? first : `${first}.`
}

/** The `open` attribute of a `details` element. */
export function open(isOpen: boolean): Html {
  return isOpen ? html` open` : html``
}
