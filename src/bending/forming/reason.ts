import type { MethodLimits } from '../../plan/rows/bender.ts'
import type { MethodAdvice } from '../method.ts'

/** Why sprung in, by hand or by machine, in sentences with the figures that decided. */
export function reasonInWords({ method, reason, checks }: MethodAdvice, limits: MethodLimits): string {
  const figure = (id: string) => checks.find((check) => check.reason === id)?.value ?? 0
  const newtons = (id: string) => `${figure(id).toFixed(0)} N`
  if (method === 'spring-in')
    return `The ties can hold the rail in the curve: ${newtons('tie-force')} on each of the last two, where ${limits.tieForceN} N is allowed; ${percent(figure('set-share'))} of the curvature would set.`

  const tooMuch = checks.find(({ favours }) => favours === 'hand')?.reason
  return [notSprungIn(), byHandOrMachine()].filter((sentence) => sentence !== null).join(' ')

  /** The first check against it. Force of hands is named once, where bending takes more of it. */
  function notSprungIn(): string | null {
    switch (tooMuch) {
      case 'set-share':
        return `The rail would not spring in: ${percent(figure('set-share'))} of the curvature would set; up to ${percent(limits.setShare)} is allowed.`
      case 'tie-force':
        return `Sprung in, the rail would push on the last ties with ${newtons('tie-force')} each; ${limits.tieForceN} N is allowed.`
      case 'joint-force':
        return `Sprung in, the rail would push on the ties at a joint with ${newtons('joint-force')}, even with set ends; ${limits.jointForceN} N is allowed.`
      default:
        return null
    }
  }

  function byHandOrMachine(): string {
    switch (reason) {
      case 'assembled':
        return 'Assembled track, with both rails and its ties, can only be bent by a machine.'
      case 'hand-force':
        return `It takes ${newtons('hand-force')} from each hand with the hands ${limits.grip} mm apart; up to ${limits.handForceN} N is comfortable.`
      case 'joints':
        return `Bending by hand leaves the ends of a stick straight: at a joint in this curve the rail would be ${figure('joints').toFixed(1)} mm off, where ${limits.jointFlat} mm is allowed, and the ties cannot pull it in. The track would kink there.`
      case 'overbend':
        return `The overbend ratio is ${figure('overbend').toFixed(2)}; by hand and eye, bends come out even up to a ratio of ${limits.overbendRatio}, and that would leave the last ties ${newtons('left-to-ties')} to hold.`
      case 'left-to-ties':
        return `By hand and eye, bends come out even up to an overbend ratio of ${limits.overbendRatio}. On the way into this curve, that would leave the last ties ${newtons('left-to-ties')} to hold; ${limits.tieForceN} N is allowed.`
      default:
        return withinLimits()
    }
  }

  /** Hands may leave a bend uneven, and the ends of a stick straight, where the ties hold the rest. */
  function withinLimits(): string {
    const uneven =
      figure('overbend') > limits.overbendRatio &&
      `Bent as far as comes out even by hand and eye, to an overbend ratio of ${limits.overbendRatio}, it leaves the last ties ${newtons('left-to-ties')} to hold; ${limits.tieForceN} N is allowed.`
    const flat =
      figure('joints') > limits.jointFlat &&
      `Hands leave the ends of a stick straight: at a joint, set them round a form, or let the ties pull them in with ${newtons('tie-force')} each.`
    if (!uneven && !flat) return 'Force, overbend ratio and joints are all within the limits for bending by hand.'
    return ['It can be bent by hand.', uneven, flat].filter(Boolean).join(' ')
  }
}

function percent(share: number): string {
  return `${Number((100 * share).toFixed(1))} %`
}
