import type { Standards } from '../plan/rows/standards.ts'
import type { Finding } from './finding.ts'

/** Says that something was not looked at, or not all of it, so that nothing found there is not taken for nothing wrong. */
export function unchecked(message: string, cure: string, track: string | null = null): Finding {
  return {
    rule: 'not-checked',
    severity: 'note',
    track,
    element: null,
    message,
    measured: null,
    limit: null,
    unit: null,
    cure,
  }
}

/** Says which rules were not checked, so that a plan without other findings is not taken to be sound. */
export function notChecked({ minimumTangentBetweenReverseCurves }: Standards): Finding[] {
  if (minimumTangentBetweenReverseCurves !== null) return []
  return [
    unchecked(
      'The straight between reverse curves was not checked: the plan names neither the longest car nor how long that straight must be.',
      'Enter the longest car under standards; minimum radius and reverse curves are then checked against it.',
    ),
  ]
}
