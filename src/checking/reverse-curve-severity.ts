/** Between the curves of two turnouts, so much of the straight that is required makes a note of the warning. */
const ENOUGH_BETWEEN_TURNOUTS = 0.5

/**
 * How grave too short a straight between opposite curves is. A crossover of two turnouts with straight frogs has one
 * that is shorter than a long car, and is used everywhere: with half of what is required it is a note (own choice, no
 * source). Back to back with curved frogs it has hardly any.
 */
export function reverseCurveSeverity(straightMm: number, limitMm: number, betweenTurnouts: boolean): 'warn' | 'note' {
  return betweenTurnouts && straightMm >= ENOUGH_BETWEEN_TURNOUTS * limitMm ? 'note' : 'warn'
}
