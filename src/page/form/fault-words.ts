import type { Fault } from '../../measure/fault.ts'
import { fieldAt } from '../../plan/fields/at.ts'
import type { Field, Item } from '../../plan/fields/field.ts'
import { BENDER, OF_ROLLERS } from '../../plan/rows/bender.ts'
import { PLAN } from '../../plan/rows/plan.ts'
import { RAIL } from '../../plan/rows/rail.ts'
import { STOCK } from '../../plan/rows/shed.ts'
import { TURNOUT_TYPE } from '../../plan/rows/turnouts.ts'
import { ofTurnouts } from './turnout-fault-words.ts'

/**
 * Rewords faults that refer to a plan's JSON, since a user of the form sees rows and fields. All others are unchanged.
 */
export function inFormWords(fault: Fault): Fault {
  const { detail, hint, ...rest } = ofTurnouts(fault) ?? ofRowsAndBoxes(fault)
  return { ...rest, detail: withFormNames(detail), hint: hint && withFormNames(hint) }
}

function ofRowsAndBoxes(fault: Fault): Fault {
  const field = String(fault.path.at(-1) ?? '')
  const say = (detail: string, hint?: string): Fault => ({ ...fault, detail, hint })
  if (fault.code === 'too-few' || fault.code === 'missing')
    if (field === 'elements') return say('there are no elements yet', 'fill in at least one row')
  if (fault.path[0] === 'bender' && fault.path.length === 2) {
    if (fault.code === 'missing') return say('a roller bender needs this too', ROLLERS_TOGETHER)
    if (fault.code === 'contradictory' && NEED_ROLLERS.has(field))
      return say('this applies only to a roller bender, and none is given', ROLLERS_TOGETHER)
  }
  if (fault.path[1] === 'calibration' && fault.path.length === 4) {
    if (fault.code === 'missing') return say('a test bend needs this too', TEST_BEND)
    if (fault.code === 'unknown-field') return say('leave this blank in this row', TEST_BEND)
  }
  if (fault.path[0] === 'rail' && (fault.code === 'too-few' || fault.code === 'missing')) {
    if (field === 'rectangles') return say('there are no rectangles yet', 'fill in at least one row')
    if (field === 'model' || field === 'hardening') return say('choose a hardening model')
  }
  if (fault.path[1] === 'panels' && fault.path.length === 4) {
    if (fault.code === 'missing' && PIECE[field]) return say(PIECE[field], A_PIECE)
    if (fault.code === 'unknown-field')
      return say('leave this blank: a curved piece is given by its curve size and angle', A_PIECE)
  }
  switch (fault.code) {
    case 'missing':
      if (field === 'kind' && fault.path.includes('breaks')) return say('choose the type of break')
      if (field === 'kind') return say('choose straight, curve, easement, turnout or crossing')
      if (field === 'turn') return say('choose left or right')
      if (field === 'radius' || field === 'diameter') return say('a curve needs its diameter or its radius')
      if (field === 'degree') return say('a degree of curve is needed here', 'enter only the number of degrees')
      if (field === 'chord' && fault.path.includes('elements'))
        return say('a degree of curve needs its chord', 'for example a degree of 20 over a chord of "2 ft"')
      if (field === 'angle')
        return say(
          fault.detail.startsWith('neither') ? 'a curve needs its angle or its length' : 'an angle is needed here',
        )
      if (isLength(fault.path)) return say('a length is needed here', EXAMPLE)
      return fault
    case 'unknown-field':
      return fault.path.includes('elements')
        ? say('leave this blank: it does not apply to this kind of element')
        : fault
    case 'wrong-type':
      return fault.detail.includes('number') ? say(fault.detail, 'enter only the number') : fault
    case 'unknown-value':
      return fault.detail.startsWith('""') ? say('choose one') : fault
    case 'contradictory':
      if (field === 'joinsExisting')
        return say(fault.detail, 'clear the boxes for its ends, or the box for a closed loop')
      if (field === 'held') return say(fault.detail, 'choose “Rigid clamps”, or clear the box')
      if (field === 'stagger') return say(fault.detail, 'leave the stagger blank, or choose “Staggered”')
      return fault
    default:
      return fault
  }
}

/** Replaces names of a plan's fields in texts about rails, benders and turnouts with the labels of the form. */
function withFormNames(text: string): string {
  return text
    .replace(/\bunder bender\b/g, 'above')
    .replace(/\b(?:[a-z]+\.)?([a-z]+[A-Z][A-Za-z]*)\b/g, (match, name: string) => LABELS.get(name) ?? match)
}

/** The labels of the fields of rails, benders and kinds of turnout, in quotes. */
const LABELS = labelsOf(RAIL, BENDER, TURNOUT_TYPE)

function labelsOf(...items: readonly Item[]): Map<string, string> {
  const labels = new Map<string, string>()
  const look = (item: Item): void => {
    if (item.is === 'variants') for (const option of item.options) look(option)
    if (item.is !== 'shape') return
    for (const [name, row] of Object.entries<Field>(item.fields)) {
      if (row.label !== undefined) labels.set(name, `“${row.label}”`)
      if (row.is !== 'value') look(row.item)
    }
  }
  for (const item of items) look(item)
  return labels
}

const ROLLERS_TOGETHER =
  'fill in the roller span, the outer roller radius, what the rollers bear on and the bending method, or leave all four blank'
const NEED_ROLLERS: ReadonlySet<string> = new Set(OF_ROLLERS)
const TEST_BEND =
  'fill in the radius under load with the radius after springback; or one of radius under load, depth and turns, with chord and ordinate'
const A_PIECE = 'fill in the length of a straight piece, or the curve size and angle of a curved one'
const PIECE: Readonly<Record<string, string>> = {
  length: 'a piece needs a length, or a curve size and an angle',
  radius: 'a curved piece needs its diameter or its radius',
  diameter: 'a curved piece needs its diameter or its radius',
  angle: 'a curved piece needs its angle',
}
const EXAMPLE = 'for example "6 ft", "7 ft 6 in" or "2.4 m"'

/** Whether a length belongs at this place, of a plan or of the shed. */
function isLength(path: Fault['path']): boolean {
  const row = fieldAt(PLAN, path) ?? fieldAt(STOCK, path)
  return row?.is === 'value' && row.kind === 'length'
}
