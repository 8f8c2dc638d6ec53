import { MOST_FEEDERS } from '../laying/power.ts'
import type { Finding } from './finding.ts'

const OF_PLAN = { track: null, element: null }

/** Rail as a conductor cannot be reckoned with: nobody has said what metal it is. */
export function resistivityUnknown(): Finding {
  return {
    ...OF_PLAN,
    rule: 'resistivity-unknown',
    severity: 'warn',
    message:
      'How well the rail conducts is not known, so neither the voltage at its far end nor feeders are worked out.',
    measured: null,
    limit: null,
    unit: null,
    cure: 'Enter resistivityOhmM with the metal’s other numbers, or measure a stick: its resistance times its section over its length.',
  }
}

/** The allowed drop cannot be kept, because of the wire or because of the rail. */
export function dropNotKept(wireDropV: number, allowedV: number): Finding {
  const wire = wireDropV >= allowedV
  return {
    ...OF_PLAN,
    rule: 'drop-not-kept',
    severity: 'warn',
    message: wire
      ? `A feeder alone drops ${wireDropV.toFixed(2)} V; ${allowedV.toFixed(2)} V are allowed at the train. No number of feeders keeps that.`
      : `The rails and their joints conduct so badly that over ${MOST_FEEDERS} feeders would be needed to keep a drop of ${allowedV.toFixed(2)} V.`,
    measured: wire ? wireDropV : null,
    limit: allowedV,
    unit: 'V',
    cure: wire
      ? 'Use thicker wire, bring the supply nearer, or allow a greater drop.'
      : 'Check resistivity and joints, bond the joints with wire, or allow a greater drop.',
  }
}
