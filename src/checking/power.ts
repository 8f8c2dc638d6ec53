import { MOST_FEEDERS } from '../laying/power.ts'
import type { Finding } from './finding.ts'

const OF_PLAN = { track: null, element: null }

/** The rail's resistance is not known: its metal is not given. */
export function resistivityUnknown(): Finding {
  return {
    ...OF_PLAN,
    rule: 'resistivity-unknown',
    severity: 'warn',
    message:
      'The resistivity of the rail is not known, so the voltage at the far end and the feeders are not calculated.',
    measured: null,
    limit: null,
    unit: null,
    cure: 'Enter resistivityOhmM with the metal’s other numbers, or measure a stick: resistance × cross-section ÷ length.',
  }
}

/** The allowed drop cannot be kept, because of the wire or the rail. */
export function dropNotKept(wireDropV: number, allowedV: number): Finding {
  const wire = wireDropV >= allowedV
  return {
    ...OF_PLAN,
    rule: 'drop-not-kept',
    severity: 'warn',
    message: wire
      ? `The drop in one feeder alone is ${wireDropV.toFixed(2)} V; ${allowedV.toFixed(2)} V is allowed at the train. More feeders do not help.`
      : `The rails and joints conduct so badly that a drop of ${allowedV.toFixed(2)} V would take more than ${MOST_FEEDERS} feeders.`,
    measured: wire ? wireDropV : null,
    limit: allowedV,
    unit: 'V',
    cure: wire
      ? 'Use thicker wire, move the supply closer, or allow a greater drop.'
      : 'Check the resistivity and the joints, bond the joints with wire, or allow a greater drop.',
  }
}
