import { PATCH, type Patch, patched } from '../../../fitting/json-patch.ts'
import { type FormPart, formOfPlan, planOfForm } from '../../form/plan-form.ts'
import { withoutBlankRows } from '../../form/rows.ts'
import { type Content, type Html, html } from '../../html.ts'
import { inUnits } from '../../in-units.ts'
import type { LengthsIn } from '../../show-length.ts'

/** What a button that carries out a remedy is called in the posted form; the patch follows. */
const REMEDY = 'remedy '

/**
 * A button that posts the plan's form with the remedy carried out.
 *
 * @param fitted the steps at its beginning that only write down what was fitted
 */
export function remedyButton(patch: Patch, lengthsIn: LengthsIn, fitted: number): Html {
  const words = inUnits(remedyInWords(patch.slice(fitted)), lengthsIn)
  return patchButton(patch, fitted > 0 ? html`Apply to the fitted elements: ${words}` : html`Apply: ${words}`)
}

/** A button that posts the plan's form with a patch carried out. It may stand outside the form. */
export function patchButton(patch: Patch, label: Content): Html {
  return html`<p class="remedy no-print"><button form="plan" name="do" value="${REMEDY}${JSON.stringify(patch)}">${label}</button></p>`
}

/** The patch of the button that was pressed; null if it was another button. */
export function readRemedy(button: string): Patch | null {
  if (!button.startsWith(REMEDY)) return null
  try {
    const read: unknown = JSON.parse(button.slice(REMEDY.length))
    return Array.isArray(read) && read.every(isStep) ? read : null
  } catch {
    return null
  }
}

function isStep(step: unknown): step is Patch[number] {
  if (typeof step !== 'object' || step === null) return false
  const { op, path } = step as Partial<Patch[number]>
  return typeof path === 'string' && PATCH.of.fields.op.words.some((word) => word === op)
}

/** The posted form with the remedy of the button that was pressed; as it is where there is none or it does not fit. */
export function withRemedy(form: FormPart, button: string): FormPart {
  const patch = readRemedy(button)
  const plan = patch && patched(planOfForm(withoutBlankRows(form)), patch)
  return typeof plan === 'object' && plan !== null ? formOfPlan(plan as Record<string, unknown>) : form
}

/** What a patch changes, in a few words; elements counted from 1. */
export function remedyInWords(patch: Patch): string {
  return patch
    .map(stepInWords)
    .filter((words) => words !== '')
    .join(', ')
}

const UNITS: Readonly<Record<string, string>> = { angle: '°', degree: '°', heading: '°', gradePct: ' %' }
const ELEMENT = /^\/tracks\/\d+\/elements\/(\d+)(?:\/(\w+))?$/
const BREAK = /^\/tracks\/\d+\/breaks\/(\d+)\/at$/
const TURNOUT_KIND = /^\/turnoutTypes\/(?:-|\d+\/hand)$/
const GRADE_POINT = /^\/tracks\/\d+\/gradeLine\/(\d+)\/(\w+)$/
const OF_GRADE_POINT: Readonly<Record<string, string>> = { gradePct: 'grade', verticalCurve: 'vertical curve' }
const START_PLACE = /^\/tracks\/\d+\/start\/([xy])$/
const CARS_OF_TRAIN = /^\/trains\/(\d+)\/cars\/(\d+)(\/count)?$/

function stepInWords({ op, path, value }: Patch[number]): string {
  const [, index, field] = ELEMENT.exec(path) ?? []
  if (index !== undefined) {
    const number = Number(index) + 1
    if (field === undefined) return `${newElement(value)} as element ${number}`
    return op === 'remove' ? '' : `${field} of element ${number}: ${figure(field, value)}`
  }
  const [, point, part] = GRADE_POINT.exec(path) ?? []
  if (point !== undefined && part !== undefined)
    return `${OF_GRADE_POINT[part] ?? part} of grade line point ${Number(point) + 1}: ${figure(part, value)}`
  const [, train, entry, count] = CARS_OF_TRAIN.exec(path) ?? []
  if (train !== undefined)
    return `${count === undefined ? 'without' : `only ${value} of`} entry ${Number(entry) + 1} behind the engine of train ${Number(train) + 1}`
  const [, axis] = START_PLACE.exec(path) ?? []
  if (axis !== undefined) return `${axis} of the start: ${figure(axis, value)}`
  if (path.startsWith('/chords')) return 'leave this chord out'
  if (path === '/joints/stagger') return `stagger of the joints: ${figure('stagger', value)}`
  if (TURNOUT_KIND.test(path))
    return typeof value === 'string' ? `${value} hand for this kind of turnout` : newKind(value)
  const [, at] = BREAK.exec(path) ?? []
  if (at !== undefined) return `break ${Number(at) + 1} at ${figure('at', value)}`
  const startsAt = path.endsWith('/start')
    ? fieldsOf(value).elevation
    : path.endsWith('/start/elevation')
      ? value
      : null
  if (startsAt != null) return `elevation of the start: ${figure('elevation', startsAt)}`
  const { at: station, elevation, kind } = fieldsOf(value)
  if (elevation !== undefined) return `elevation ${figure('elevation', elevation)} at ${figure('at', station)}`
  return kind === undefined ? '' : `an ${String(kind).replace('-', ' ')} break at ${figure('at', station)}`
}

function fieldsOf(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {}
}

function newKind(value: unknown): string {
  const { id, hand } = value as { id: string; hand: string }
  return `a new kind of turnout “${id}”, ${hand} hand`
}

function newElement(value: unknown): string {
  const { kind, length, radius, angle } = value as Readonly<Record<string, unknown>>
  if (kind === 'arc') return `a curve of ${figure('radius', radius)} radius and ${figure('angle', angle)}`
  return `${kind === 'tangent' ? 'a straight' : 'an easement'} of ${figure('length', length)}`
}

function figure(field: string, value: unknown): string {
  if (typeof value !== 'number') return String(value)
  return `${value}${UNITS[field] ?? ' mm'}`
}
