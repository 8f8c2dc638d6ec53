import type { Fault } from '../../measure/fault.ts'
import type { PlanDraft } from '../../plan/reading/draft.ts'
import { USUAL } from '../../plan/usual.ts'
import { turnoutOf } from '../../track/turnout/turnout.ts'

/** What contradicts itself in the size of a kind of turnout. */
export function turnoutSizeFaults({ turnoutTypes = [], gauge }: PlanDraft): Fault[] {
  if (gauge === null) return []
  return turnoutTypes.flatMap((type, index) => {
    const result = type ? turnoutOf(type, gauge ?? USUAL.gauge) : null
    if (!result || result.ok) return []
    return result.faults.map(({ field, code, detail, hint }) => ({
      path: ['turnoutTypes', index, field],
      code,
      detail,
      hint,
    }))
  })
}
