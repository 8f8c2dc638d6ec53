import { rootBetween } from '../../bending/numeric/root.ts'
import { formatMm } from '../../measure/length.ts'
import type { Leg } from '../../track/turnout/types.ts'
import type { Pose } from '../../track/types.ts'
import { alongCurve, arc, comingTo, facing, leaving, type Names, startAt, straight, trailing } from './elements.ts'
import {
  type FigureElement,
  type FigureFault,
  type FigureKind,
  type FigureResult,
  ORIGIN,
  outOfRange,
  refused,
} from './figure.ts'

interface CurvedCrossoverOf {
  /** Of the track that the crossover starts from, 1/mm, left positive; not 0. */
  readonly curvature: number
  readonly spacingMm: number
  /** Their legs as those of left-hand turnouts; the first lies in the track at the start. */
  readonly first: FigureKind
  readonly second: FigureKind
  readonly names: Names
}

/**
 * A crossover to the concentric track on the left. Of each turnout one leg lies in its track, and so has its curve; the
 * other legs are joined by one arc, or a straight. There is one where the place of the second turnout makes the chord
 * between the two ends leave both at the same angle: (h₁ + h₂)/2 = direction of the chord. That place is searched for along
 * the second track until what is left of it is a rounding error.
 *
 * Range: legs that curve with their track; checked in tests/fitting/figures/curved-crossover.test.ts.
 */
export function curvedCrossover(asked: CurvedCrossoverOf): FigureResult {
  const { curvature, spacingMm, first, second, names } = asked
  const otherRadiusMm = 1 / curvature - spacingMm
  if (curvature > 0 && otherRadiusMm <= 0) return refused(noRoomInside(1 / curvature))
  const otherCurvature = 1 / otherRadiusMm
  const legs = [legIn(first, curvature), legIn(second, otherCurvature)] as const
  const faults = [
    ...(legs[0] ? [] : [noSuchLeg('first', first, curvature)]),
    ...(legs[1] ? [] : [noSuchLeg('second', second, otherCurvature)]),
  ]
  const [inFirst, inSecond] = legs
  if (!inFirst || !inSecond) return refused(...faults)
  const [outFirst, outSecond] = [otherLeg(inFirst), otherLeg(inSecond)]
  const from = onSide(first.legs[outFirst], curvature).end
  const legEnd = onSide(second.legs[outSecond], -otherCurvature).end
  const pointsAt = (turnedRad: number) => onOther(asked, turnedRad)
  const endAt = (turnedRad: number) => backFrom(pointsAt(turnedRad), legEnd)
  const turnedRad = placeOfSecond(from, endAt, curvature)
  if (turnedRad === null) return refused(neverMeets(spacingMm))

  const to = endAt(turnedRad)
  const chordMm = Math.hypot(to.xMm - from.xMm, to.yMm - from.yMm)
  const bendRad = to.headingRad - from.headingRad
  const between: FigureElement[] =
    Math.abs(bendRad) < 1e-12 ? straight(chordMm) : arc(chordMm / (2 * Math.sin(Math.abs(bendRad) / 2)), bendRad)
  if (between.length === 0) return refused(neverMeets(spacingMm))
  const [w1, w2] = [names.turnout(1), names.turnout(2)]
  const alongMm = turnedRad / curvature
  const otherMm = turnedRad / otherCurvature
  const restMm = alongMm - first.legs[inFirst].lengthMm
  const beforeMm = otherMm - second.legs[inSecond].lengthMm
  const begins = pointsAt(Math.min(0, beforeMm) * otherCurvature)
  return {
    ok: true,
    tracks: [
      {
        name: names.track('main'),
        start: startAt(ORIGIN),
        elements: [facing(w1, first, inFirst), ...alongCurve(curvature, Math.max(0, restMm))],
      },
      {
        name: names.track('other'),
        start: startAt(begins),
        elements: [...alongCurve(otherCurvature, Math.max(0, beforeMm)), trailing(w2, second, inSecond)],
      },
      { name: names.track('crossover'), start: leaving(w1, outFirst), end: comingTo(w2, outSecond), elements: between },
    ],
    measures: [
      { name: 'points to points along the track', valueMm: alongMm },
      { name: 'from turnout to turnout, straight across', valueMm: chordMm },
    ],
  }
}

/** The leg with the curve of a track. */
function legIn({ legs }: FigureKind, curvature: number): 'through' | 'diverging' | null {
  const radiusMm = 1 / Math.abs(curvature)
  const fits = ({ pieces }: Leg) =>
    pieces.every(({ startCurvature }) => startCurvature > 0 && Math.abs(1 / startCurvature - radiusMm) < 1e-6)
  return fits(legs.through) ? 'through' : fits(legs.diverging) ? 'diverging' : null
}

function otherLeg(leg: 'through' | 'diverging'): 'through' | 'diverging' {
  return leg === 'through' ? 'diverging' : 'through'
}

/** A leg of a left-hand turnout, of one whose curves turn this way. */
function onSide(leg: Leg, curvature: number): { end: Pose } {
  const { xMm, yMm, headingRad } = leg.end
  return { end: curvature > 0 ? leg.end : { xMm, yMm: -yMm, headingRad: -headingRad } }
}

/** The place on the other track where the radius has turned by an angle from the start. */
function onOther({ curvature, spacingMm }: CurvedCrossoverOf, turnedRad: number): Pose {
  const radiusMm = 1 / curvature - spacingMm
  return {
    xMm: radiusMm * Math.sin(turnedRad),
    yMm: 1 / curvature - radiusMm * Math.cos(turnedRad),
    headingRad: turnedRad,
  }
}

/** Where a leg ends of a turnout that lies backwards, its points at a place; the heading is that of a train towards them. */
function backFrom({ xMm, yMm, headingRad }: Pose, leg: Pose): Pose {
  const [cos, sin] = [Math.cos(headingRad), Math.sin(headingRad)]
  return {
    xMm: xMm - leg.xMm * cos + leg.yMm * sin,
    yMm: yMm - leg.xMm * sin - leg.yMm * cos,
    headingRad: headingRad + leg.headingRad,
  }
}

/** As far round as is looked: a crossover that took more would be none. */
const FURTHEST_RAD = Math.PI / 2
const STEPS = 400

function placeOfSecond(from: Pose, endAt: (turnedRad: number) => Pose, curvature: number): number | null {
  const sign = Math.sign(curvature)
  const skew = (turned: number) => {
    const { xMm, yMm, headingRad } = endAt(sign * turned)
    return Math.atan2(yMm - from.yMm, xMm - from.xMm) - (headingRad + from.headingRad) / 2
  }
  const isAhead = (turned: number) => {
    const { xMm, yMm } = endAt(sign * turned)
    const { headingRad } = from
    return (xMm - from.xMm) * Math.cos(headingRad) + (yMm - from.yMm) * Math.sin(headingRad) > 0
  }
  for (let step = 1; step <= STEPS; step++) {
    const [low, high] = [((step - 1) * FURTHEST_RAD) / STEPS, (step * FURTHEST_RAD) / STEPS]
    if (isAhead(low) && skew(low) <= 0 !== skew(high) <= 0 && Math.abs(skew(low) - skew(high)) < 1)
      return sign * rootBetween(skew, low, high)
  }
  return null
}

function noRoomInside(radiusMm: number): FigureFault {
  return outOfRange(
    'spacing',
    `a track inside a curve of ${formatMm(radiusMm)} cannot be further from it than its centre`,
    `use less than ${formatMm(radiusMm)}`,
  )
}

function noSuchLeg(field: string, { id, legs }: FigureKind, curvature: number): FigureFault {
  const radii = [legs.through, legs.diverging].map(({ pieces }) =>
    pieces.every(({ startCurvature }) => startCurvature > 0) ? formatMm(1 / pieces[0]!.startCurvature) : 'straight',
  )
  return {
    field,
    code: 'contradictory',
    detail: `${id} cannot lie in a track of ${formatMm(1 / Math.abs(curvature))}: its legs are ${radii.join(' and ')}`,
    hint: 'use a both-curved turnout of which one leg has the radius of the track',
  }
}

function neverMeets(spacingMm: number): FigureFault {
  return outOfRange(
    'spacing',
    `no curve joins these turnouts in tracks ${formatMm(spacingMm)} apart`,
    'use a larger spacing, or turnouts whose legs part by other angles',
  )
}
