import type { Fault } from '../../measure/fault.ts'
import type { FormPart } from '../form/plan-form.ts'
import type { SaveFields } from './plan-page.ts'
import { nameOf } from './shown-plan.ts'

const NAME_LONGEST = 200
const NOTES_LONGEST = 10_000

/** What is wrong with the name and notes that a plan is to be saved with. */
export function saveFaults(saveFields: SaveFields, form: FormPart): Fault[] {
  const faults: Fault[] = []
  const name = nameOf(saveFields, form)
  if (name === '')
    faults.push({
      path: ['name'],
      code: 'missing',
      detail: 'the plan needs a name before it can be saved',
      hint: 'fill in “Plan name” or the title',
    })
  if (name.length > NAME_LONGEST)
    faults.push({ path: ['name'], code: 'too-long', detail: `the name is longer than ${NAME_LONGEST} characters` })
  if (saveFields.notes.length > NOTES_LONGEST)
    faults.push({ path: ['notes'], code: 'too-long', detail: `the notes are longer than ${NOTES_LONGEST} characters` })
  return faults
}
