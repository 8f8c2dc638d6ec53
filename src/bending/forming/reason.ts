import type { MethodLimits } from '../../plan/rows/bender.ts'
import type { MethodAdvice } from '../method.ts'

/** Why by hand or by machine, in words, with the figure that decided. */
export function reasonInWords({ reason, checks }: MethodAdvice, limits: MethodLimits): string {
  const value = checks.find((check) => check.reason === reason)?.value ?? 0
  switch (reason) {
    case 'assembled':
      return 'Assembled track is bent with both rails and their ties in one go, which is a machine’s work.'
    case 'hand-force':
      return `It takes ${value.toFixed(0)} N of each hand over a grip of ${limits.grip} mm; ${limits.handForceN} N are comfortable.`
    case 'overbend':
      return `It must be bent ${value.toFixed(2)} times as tight as it shall stay; by hand and eye up to ${limits.overbendRatio} times come out even.`
    case 'joints':
      return `Hands leave the ends of a stick straight: at a joint in this curve the rail would stand ${value.toFixed(1)} mm off; ${limits.jointFlat} mm are allowed.`
    case 'within-limits':
      return 'Force, overbending and joints are all within what hands do evenly.'
  }
}
