import type { Fault } from '../../measure/fault.ts'
import { formField } from '../../plan/rows/turnouts.ts'

type Words = readonly [detail: string, hint?: string]

/** Words for the form of faults of turnouts and their kinds; null for any other fault. */
export function ofTurnouts(fault: Fault): Fault | null {
  const words = fault.path[0] === 'turnoutTypes' ? ofKind(fault) : ofElement(fault)
  return words && { ...fault, detail: words[0], hint: words[1] }
}

function ofKind({ path, code, detail, hint }: Fault): Words | null {
  const field = String(path.at(-1))
  if (detail.startsWith('neither number')) return ['its size is not given yet', SIZE]
  if (code === 'contradictory' && detail.startsWith('both ')) return ['its size is given twice', SIZE]
  if (code === 'missing' && field === 'id') return ['give this kind of turnout a name', 'for example "six-left"']
  if (code === 'missing' && field === 'hand') return ['choose left, right or wye']
  const isSize = path.length === 3 && (code === 'contradictory' || (code === 'missing' && field !== 'radius'))
  return isSize ? [withForms(detail), hint && withForms(hint)] : null
}

function ofElement({ path, code, detail, hint }: Fault): Words | null {
  const field = String(path.at(-1))
  const inElements = path[2] === 'elements'
  if (code === 'missing' && !detail.startsWith('neither')) {
    if (inElements && MISSING[field]) return [MISSING[field]]
    if (field === 'turnout') return ['enter the name of the turnout']
    if (field === 'leg') return ['choose an end of the turnout']
  }
  if (inElements && field === 'leaves' && code === 'contradictory')
    return [detail, 'leave this at “–”, or let the track enter at the points']
  if (inElements && field === 'type' && hint === 'list it under turnoutTypes')
    return [detail, 'describe it under “Turnouts”']
  return null
}

const SIZE = 'fill in one of the frog number, the angle (with the diverging curve), or “As measured”'

const MISSING: Readonly<Record<string, string>> = {
  name: 'give this turnout or crossing a name',
  type: 'enter one of the kinds of turnout',
  enters: 'choose where the track comes to the turnout',
}

/** Texts in which the forms of turnouts are called as in the form. */
function withForms(text: string): string {
  return (formField.choices ?? []).reduce((said, { value, label }) => said.replaceAll(value, `“${label}”`), text)
}
