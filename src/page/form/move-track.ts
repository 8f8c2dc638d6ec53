import { readMove } from '../../estimate/questions/read-move.ts'
import { patched } from '../../fitting/json-patch.ts'
import type { Fault } from '../../measure/fault.ts'
import { listAt, valueAt } from '../../plan/reading/value-at.ts'
import type { StoredPlan } from '../../projects/store.ts'
import type { Workers } from '../../workers/workers.ts'
import { type Html, html } from '../html.ts'
import { readLengthsIn } from '../show-length.ts'
import { SHOWN_IN, withUnit } from './bare-numbers.ts'
import type { Placed } from './controls.ts'

/** What a button that moves a track is called in the posted form; the number of the track follows. */
const MOVE = 'move tracks.'

const AXES = { x: 'To the right', y: 'Up the sheet' } as const
type Axis = keyof typeof AXES

const fieldOf = (track: string | number, axis: Axis) => `move.${track}.${axis}`

/** By how much to move a track, and the button that does it. */
export function moveEditor({ path }: Placed): Html {
  const track = path.slice(path.lastIndexOf('.') + 1)
  const fields = (Object.keys(AXES) as Axis[]).map((axis) => {
    const name = fieldOf(track, axis)
    return html`<div class="field"><label for="${name}">${AXES[axis]}</label><input id="${name}" name="${name}" autocomplete="off"></div>`
  })
  return html`<p class="hint">Move this track, with those that continue from it and the place its end must come to. Less than zero: to the left, or down.</p>
<div class="fields" role="group" aria-label="Move this track">${fields}</div>
<p class="below"><button name="do" value="${MOVE}${track}" class="small">Move this track</button></p>`
}

/** The number of the track whose button was pressed; null if it was another button. */
export function readMoveButton(button: string): number | null {
  const [, number] = /^move tracks\.(\d{1,4})$/.exec(button) ?? []
  return number === undefined ? null : Number(number)
}

/** The plan with a track moved by what was typed beside it, or what is wrong with that, at the start of the track. */
export function movedAsTyped(
  track: number,
  fields: ReadonlyMap<string, string>,
  plan: StoredPlan,
  workers: Workers,
): { readonly ok: true; readonly plan: StoredPlan } | { readonly ok: false; readonly faults: Fault[] } {
  const unit = readLengthsIn(fields.get(SHOWN_IN)) === 'feet' ? 'in' : 'mm'
  const typed = (Object.keys(AXES) as Axis[]).flatMap((axis): [Axis, string][] => {
    const text = (fields.get(fieldOf(track, axis)) ?? '').trim()
    return text === '' ? [] : [[axis, withUnit(text, unit)]]
  })
  const name = valueAt(listAt(plan, ['tracks'])[track], ['name'])
  const read = readMove({ plan, track: name, ...Object.fromEntries(typed) })
  const result = read.ok ? workers.moveTrack(read.asked) : read
  if (!result.ok) return { ok: false, faults: result.faults.map((fault) => atStart(fault, track)) }
  return { ok: true, plan: patched(plan, result.answer.remedy) as StoredPlan }
}

function atStart(fault: Fault, track: number): Fault {
  const [first, ...rest] = fault.path
  if (first === 'plan') return { ...fault, path: rest }
  return { ...fault, path: ['tracks', track, 'start', ...(first === 'x' || first === 'y' ? [first] : [])] }
}
