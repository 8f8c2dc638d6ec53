import { exceeds } from '../measure/counting.ts'
import { formatMm } from '../measure/length.ts'
import { sum } from '../measure/sum.ts'
import type { CoupledCar } from '../room/coupled-cars.ts'
import { worstCouplersOn } from '../room/couplers-on-form.ts'
import type { LinePiece } from '../room/line.ts'
import { type PlacedElement, partsOf } from '../track/types.ts'
import type { Finding } from './finding.ts'
import { couplersSaid, reverseCurveSeverity } from './reverse-curve-severity.ts'

/** Where a track to be laid meets existing track. */
export interface Join {
  /** Its name. */
  readonly track: string
  readonly end: 'start' | 'end'
  readonly placed: readonly PlacedElement[]
  readonly there: ExistingTrack
}

/** The existing track: its metal where it is known, and its nearest curve. */
interface ExistingTrack {
  readonly material: string | null
  readonly curve: NearestCurve | null
  /** The track itself as far as it is known, in the direction of the new track. */
  readonly pieces?: readonly LinePiece[] | undefined
}

/** The cars that run over the joins, and how far their couplers may be off each other. */
interface CarsAtJoins {
  readonly cars: readonly CoupledCar[]
  readonly maximumCouplerOffsetMm: number
}

/** The curve nearest to an end of a track. */
export interface NearestCurve {
  /** 1 to the left, −1 to the right. */
  readonly sign: number
  /** Between the end and the curve. */
  readonly straightMm: number
  /** Seen from the end, it begins with an easement from straight. */
  readonly eased: boolean
  /** Null for track that is not part of the plan. */
  readonly element: number | null
}

/** Findings where new track meets existing track. */
export function joinFindings(
  joins: readonly Join[],
  material: { readonly id: string },
  limitMm: number | null,
  of: CarsAtJoins = { cars: [], maximumCouplerOffsetMm: 0 },
): Finding[] {
  return joins.flatMap((join) => [...mixedMetals(join, material), ...reversedAcross(join, limitMm, of)])
}

/** The copper alloys and steels, beside which wet aluminium corrodes. */
const NOBLER: readonly string[] = ['brass', 'nickel-silver', 'steel', 'stainless']

/**
 * Aluminium in wet contact with copper alloys or steel corrodes: it is the less noble metal of the pair (galvanic
 * series; common practice outdoors is to separate the metals or keep the joint dry).
 */
function mixedMetals({ track, end, there }: Join, material: { readonly id: string }): Finding[] {
  const pair = [material.id, there.material]
  const other = pair.find((one) => one !== null && NOBLER.includes(one))
  if (!pair.includes('aluminium') || other === undefined) return []
  return [
    {
      rule: 'mixed-metals',
      severity: 'note',
      track,
      element: null,
      message: `At the ${end} of ${track} aluminium meets ${other}: the aluminium corrodes if the joint stays wet.`,
      measured: null,
      limit: null,
      unit: null,
      cure: 'Join them with an insulated joiner and a wire, or grease the joint, keep it drained and inspect it every year.',
    },
  ]
}

/** Curves of opposite turn on either side of a join, with too little straight between. */
function reversedAcross(join: Join, limitMm: number | null, of: CarsAtJoins): Finding[] {
  const { track, end, placed, there } = join
  const own = nearestCurve(placed, end)
  const other = there.curve
  if (!own || !other || own.sign === other.sign) return []
  const straightMm = own.straightMm + other.straightMm
  if (limitMm === null ? straightMm > 0 : !exceeds(limitMm, straightMm)) return []
  const eased = own.eased && other.eased
  const between = straightMm === 0 ? 'no straight' : `only ${formatMm(straightMm)} of straight track`
  const couplers = couplersAcross(join, own.straightMm, other.straightMm, of.cars)
  const { maximumCouplerOffsetMm } = of
  const reverse = { straightMm, limitMm: limitMm ?? 0, betweenTurnouts: false, couplers, maximumCouplerOffsetMm }
  const asked = limitMm === null ? '' : ` At least ${formatMm(limitMm)} is required.`
  return [
    {
      rule: 'reverse-curve',
      severity: eased ? 'note' : reverseCurveSeverity(reverse),
      track,
      element: own.element,
      message: `Reverse curve across the join at the ${end} of ${track}, with ${between} between the two curves.${asked}${couplersSaid(reverse, 'there')}`,
      measured: straightMm,
      limit: limitMm,
      unit: 'mm',
      cure: `Put ${limitMm === null ? 'a straight' : `${formatMm(limitMm - straightMm)} more straight track`} between the curves, or add easements to both.`,
    },
  ]
}

/** What the couplers of the worst cars do on the S across a join; null where that is not known. */
function couplersAcross(
  { end, placed, there: { pieces } }: Join,
  ownStraightMm: number,
  otherStraightMm: number,
  cars: readonly CoupledCar[],
) {
  if (cars.length === 0 || !pieces) return null
  const own = placed.flatMap(partsOf)
  const line = end === 'start' ? [...pieces, ...own] : [...own, ...pieces]
  const before = end === 'start' ? pieces : own
  const joinMm = sum(before.map(({ lengthMm }) => lengthMm))
  const [beforeMm, behindMm] = end === 'start' ? [otherStraightMm, ownStraightMm] : [ownStraightMm, otherStraightMm]
  return worstCouplersOn(line, cars, joinMm - beforeMm, joinMm + behindMm)
}

/** The first curve from an end of a track, its turn in the direction from start to end; null where all is straight. */
export function nearestCurve(placed: readonly PlacedElement[], end: 'start' | 'end'): NearestCurve | null {
  let straightMm = 0
  for (const element of end === 'start' ? placed : placed.toReversed()) {
    const { startCurvature, endCurvature } = element
    const [near, far] = end === 'start' ? [startCurvature, endCurvature] : [endCurvature, startCurvature]
    if (near !== 0 || far !== 0)
      return { sign: Math.sign(near || far), straightMm, eased: near === 0, element: element.index }
    straightMm += element.lengthMm
  }
  return null
}
