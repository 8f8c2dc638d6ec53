import type { Fault } from '../../measure/fault.ts'
import { calledInSentence, fieldAt } from '../../plan/fields/at.ts'
import { PLAN } from '../../plan/rows/plan.ts'
import { PROJECT_CONTENT } from '../../projects/rows.ts'

/** The name of a place in the form, such as `track 1, element 3, curve size`, as far as it has a row. */
export function placeName(path: Fault['path']): string {
  const names: string[] = []
  for (let n = 1; n <= path.length; n++) {
    const place = path.slice(0, n)
    const row = fieldAt(PLAN, place) ?? (n === 1 ? fieldAt(PROJECT_CONTENT, place) : null)
    if (!row) break
    const entry = path[n]
    const isEntry = row.is === 'list' && typeof entry === 'number'
    names.push((isEntry && row.entry ? `${row.entry} ${entry + 1}` : calledInSentence(row)) ?? '')
    if (isEntry) n++
  }
  return names.filter(Boolean).join(', ') || 'the plan'
}
