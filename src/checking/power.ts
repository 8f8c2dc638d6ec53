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

/** The allowed drop cannot be kept by any reasonable number of feeders. */
export function dropNotKept(wireDropV: number, allowedV: number): Finding {
  return {
    ...OF_PLAN,
    rule: 'drop-not-kept',
    severity: 'warn',
    message: `A drop of at most ${allowedV.toFixed(2)} V would take more than ${MOST_FEEDERS} feeders; the drop in one feeder alone is ${wireDropV.toFixed(2)} V.`,
    measured: null,
    limit: allowedV,
    unit: 'V',
    cure: 'Use thicker wire, bond the joints with wire, move the supply closer, check the resistivity, or allow a greater drop.',
  }
}
