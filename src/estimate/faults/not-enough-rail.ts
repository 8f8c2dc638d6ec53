import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'

/** With trim, a length on sale may leave nothing after its ends are cut off. */
export function notEnoughRail({
  missingMm,
  trimmed,
}: {
  readonly missingMm: number
  readonly trimmed: boolean
}): Fault {
  return {
    path: ['supplies', 'sticks'],
    code: 'too-little-rail',
    detail: trimmed
      ? `once bent pieces are trimmed the sticks are not enough for the rails: a piece of ${formatMm(missingMm)} cannot be cut`
      : `the sticks on hand are not enough for the rails: a piece of ${formatMm(missingMm)} cannot be cut from what is left`,
    hint: trimmed
      ? 'allow a longer length to be bought, or do not trim the ends'
      : 'allow a length to be bought ("buyable": true), or correct what is on hand',
  }
}
