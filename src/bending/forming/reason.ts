import type { MethodLimits } from '../../plan/rows/bender.ts'
import type { MethodAdvice } from '../method.ts'

/** Why by hand or by machine, as a sentence with the figure that decided. */
export function reasonInWords({ reason, checks }: MethodAdvice, limits: MethodLimits): string {
  const value = checks.find((check) => check.reason === reason)?.value ?? 0
  switch (reason) {
    case 'assembled':
      return 'Assembled track, with both rails and its ties, can only be bent by a machine.'
    case 'hand-force':
      return `It takes ${value.toFixed(0)} N from each hand with the hands ${limits.grip} mm apart; up to ${limits.handForceN} N is comfortable.`
    case 'overbend':
      return `The overbend ratio is ${value.toFixed(2)}; by hand and eye, bends come out even up to a ratio of ${limits.overbendRatio}.`
    case 'joints':
      return `Bending by hand leaves the ends of a stick straight: at a joint in this curve the rail would be ${value.toFixed(1)} mm off; ${limits.jointFlat} mm is allowed.`
    case 'within-limits':
      return 'Force, overbend ratio and joints are all within the limits for bending by hand.'
  }
}
