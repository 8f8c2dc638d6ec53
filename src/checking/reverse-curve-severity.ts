import { formatMm } from '../measure/length.ts'
import { betweenTrucksMm, type CoupledCar } from '../room/coupled-cars.ts'

/** Between the curves of two turnouts, so much of the straight that is required makes a note of the warning. */
const ENOUGH_BETWEEN_TURNOUTS = 0.5

/** A reverse curve whose straight is too short. */
export interface ShortReverse {
  readonly straightMm: number
  readonly limitMm: number
  /** Both are curves of turnouts. */
  readonly betweenTurnouts: boolean
  /** What the couplers of the worst cars do there; null where the plan has no cars that fit. */
  readonly couplers: { readonly offsetMm: number; readonly car: CoupledCar } | null
  readonly maximumCouplerOffsetMm: number
}

/**
 * How grave too short a straight between opposite curves is: a warning where the couplers of two coupled cars come
 * further off each other than is allowed, and between two turnouts also where the neighbouring trucks of both cars are
 * in opposite curves at once; otherwise a note.
 *
 * Of a plan without cars: a warning, but between two turnouts with half of what is required a note (own choice, no
 * source). A crossover of two turnouts with straight frogs has a straight that is shorter than a long car and is used
 * everywhere; back to back with curved frogs it has hardly any.
 */
export function reverseCurveSeverity(reverse: ShortReverse): 'warn' | 'note' {
  const { straightMm, limitMm, betweenTurnouts, couplers, maximumCouplerOffsetMm } = reverse
  if (!couplers) return betweenTurnouts && straightMm >= ENOUGH_BETWEEN_TURNOUTS * limitMm ? 'note' : 'warn'
  const trucksOpposed = betweenTurnouts && straightMm < betweenTrucksMm(couplers.car)
  return trucksOpposed || couplers.offsetMm > maximumCouplerOffsetMm ? 'warn' : 'note'
}

/** What is said of the couplers, with a space before it; nothing where they are not known. */
export function couplersSaid({ couplers, maximumCouplerOffsetMm }: ShortReverse, where: string): string {
  if (!couplers) return ''
  const { offsetMm, car } = couplers
  return ` Two coupled cars (${car.name}) have their couplers ${formatMm(offsetMm)} off each other sideways at worst, ${where}; ${formatMm(maximumCouplerOffsetMm)} is allowed.`
}
