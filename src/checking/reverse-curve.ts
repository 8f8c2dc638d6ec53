import { exceeds } from '../measure/counting.ts'
import { formatMm } from '../measure/length.ts'
import { worstCouplersOn } from '../room/couplers-on-form.ts'
import { type PlacedElement, partsOf } from '../track/types.ts'
import type { CheckedTrack, Rule } from './checked-track.ts'
import type { Finding } from './finding.ts'
import { couplersSaid, reverseCurveSeverity } from './reverse-curve-severity.ts'

/** Two consecutive curves of opposite turn, with the straight between them. */
interface Reversal {
  /** Index of the element with which the second curve begins. */
  readonly element: number
  readonly straightMm: number
  /** The station at which the second curve begins. */
  readonly atMm: number
  /** Both curves meet the straight, or each other, through an easement. */
  readonly eased: boolean
  /** Both are curves of turnouts. */
  readonly betweenTurnouts: boolean
}

/**
 * Between curves of opposite turn a car needs a straight as long as itself, or its couplers are forced sideways. Where
 * both curves have easements NEM 111 and NEM 113 require none: then a shorter straight only gets a note.
 */
export const reverseCurve: Rule = (track, standards) => {
  const { minimumTangentBetweenReverseCurves: limitMm, maximumCouplerOffset } = standards
  if (limitMm === null) return []
  return reversals(track)
    .filter(({ straightMm }) => exceeds(limitMm, straightMm))
    .map((reversal): Finding => {
      const { element, straightMm, eased, betweenTurnouts } = reversal
      const couplers = eased ? null : couplersOn(track, reversal)
      const maximumCouplerOffsetMm = maximumCouplerOffset
      const reverse = { straightMm, limitMm, betweenTurnouts, couplers, maximumCouplerOffsetMm }
      const said = couplers && couplersSaid(reverse, `at ${formatMm(couplers.atMm, 0)}`)
      const between = straightMm === 0 ? 'no straight' : `only ${formatMm(straightMm)} of straight track`
      return {
        rule: 'reverse-curve',
        severity: eased ? 'note' : reverseCurveSeverity(reverse),
        track: track.name,
        element,
        message: eased
          ? `Reverse curve with easements and ${between} between the two curves: NEM 113 allows it, your own rule requires ${formatMm(limitMm)}.`
          : `Reverse curve with ${between} between the two curves; at least ${formatMm(limitMm)} is required.${said ?? ''}`,
        measured: straightMm,
        limit: limitMm,
        unit: 'mm',
        cure: eased
          ? 'Leave it if the couplers of your longest cars swing far enough; try it with two of them.'
          : `Put ${formatMm(limitMm - straightMm)} more straight track between the curves, or add easements to both.`,
      }
    })
}

/** The worst of couplers on it, and the station at which they are then. */
function couplersOn({ placed, closed, lengthMm, cars = [] }: CheckedTrack, { atMm, straightMm }: Reversal) {
  if (cars.length === 0) return null
  const parts = placed.flatMap(partsOf)
  const aroundMm = closed ? lengthMm : 0
  const toMm = atMm + aroundMm
  const worst = worstCouplersOn(closed ? [...parts, ...parts, ...parts] : parts, cars, toMm - straightMm, toMm)
  if (!worst) return null
  const alongMm = worst.atMm - aroundMm
  return { ...worst, atMm: closed ? (alongMm + lengthMm) % lengthMm : alongMm }
}

function reversals({ placed, closed }: CheckedTrack): Reversal[] {
  const found: Reversal[] = []
  let turning = 0
  let straightMm = 0
  let easedOut = false
  let afterTurnout = false
  const visit = (element: PlacedElement, report: boolean) => {
    const { kind, startCurvature, endCurvature, lengthMm, index, fromMm: atMm } = element
    if (startCurvature === 0 && endCurvature === 0) {
      straightMm += lengthMm
      return
    }
    const first = Math.sign(startCurvature || endCurvature)
    const last = Math.sign(endCurvature || startCurvature)
    const eased = kind === 'easement'
    const betweenTurnouts = afterTurnout && kind === 'turnout'
    if (report && turning === -first)
      found.push({ element: index, straightMm, atMm, eased: easedOut && eased, betweenTurnouts })
    if (report && first !== last)
      found.push({ element: index, straightMm: 0, atMm, eased: true, betweenTurnouts: false })
    turning = last
    straightMm = 0
    easedOut = eased && endCurvature === 0
    afterTurnout = kind === 'turnout'
  }
  // On a closed track the curve before element 0 is the last one: the first round finds it, the second reports.
  const parts = placed.flatMap(partsOf)
  if (closed) for (const element of parts) visit(element, false)
  for (const element of parts) visit(element, true)
  return found
}
