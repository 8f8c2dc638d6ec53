import { formatMm } from '../../measure/length.ts'
import { arc, comingTo, facing, leaving, type Names, startAt, straight } from './elements.ts'
import { type FigureKind, type FigureResult, ORIGIN, outOfRange, refused } from './figure.ts'

interface ReverseLoopOf {
  readonly kind: FigureKind
  /** Both legs leave by the same angle. */
  readonly isWye: boolean
  readonly radiusMm: number
  /** Straight between the curve away and the curve around. */
  readonly betweenMm: number
  readonly names: Names
}

/**
 * A loop from one leg of a turnout to the other, of one radius r. From the diverging leg it curves further away to the
 * heading ψ, then, after a straight m, around the other way. Without a wye it comes back along the through leg's straight:
 *
 * 2r·cos ψ − m·sin ψ = y + r·cos A − r
 *
 * With a wye it is the same on both sides of the middle: 2r·cos ψ − m·sin ψ = y + r·cos A.
 *
 * Both are √(4r² + m²)·cos(ψ + δ) = K with tan δ = m/2r. y, A offset and heading of the diverging leg's end, from the line
 * through the points. Range: ψ ≥ A. Closed form; checked in tests/fitting/figures/loops.test.ts.
 */
export function reverseLoop({ kind, isWye, radiusMm: r, betweenMm: m, names }: ReverseLoopOf): FigureResult {
  const { through, diverging } = kind.legs
  const { xMm, yMm, headingRad: legRad } = diverging.end
  const aside = yMm + r * Math.cos(legRad) - (isWye ? 0 : r)
  const furthestRad = Math.acos(Math.min(1, aside / Math.hypot(2 * r, m))) - Math.atan2(m, 2 * r)
  const awayRad = furthestRad - legRad
  if (!(awayRad > 0) || aside >= Math.hypot(2 * r, m)) {
    const enough = (yMm + (isWye ? 0 : m)) / (isWye ? 1 : 2)
    return refused(
      outOfRange(
        'radius',
        `a loop of ${formatMm(r)} is too small for the legs of ${kind.id}, which end ${formatMm(yMm)} beside the line through its points`,
        `use a radius of ${formatMm(Math.ceil(enough + yMm))} or more`,
      ),
    )
  }
  const out = [...arc(r, awayRad), ...straight(m)]
  // From where the loop is at its furthest from the points, back along the line of the through leg.
  const beyondMm = xMm + r * (2 * Math.sin(furthestRad) - Math.sin(legRad)) + m * Math.cos(furthestRad)
  const backMm = beyondMm - through.lengthMm
  const around = Math.PI + (isWye ? 2 : 1) * furthestRad
  if (!isWye && backMm < -1e-9)
    return refused(
      outOfRange(
        'radius',
        `a loop of ${formatMm(r)} comes back ${formatMm(-backMm)} before the end of the turnout`,
        `use a radius of ${formatMm(Math.ceil(r - backMm))} or more`,
      ),
    )
  const home = isWye ? [...straight(m), ...arc(r, awayRad)] : straight(backMm)
  const loopMm = 2 * r * awayRad * (isWye ? 1 : 0.5) + r * around + (isWye ? 2 * m : m + backMm)
  const name = names.turnout(1)
  return {
    ok: true,
    tracks: [
      { name: names.track('lead'), start: startAt(ORIGIN), elements: [facing(name, kind)] },
      {
        name: names.track('loop'),
        start: leaving(name, 'diverging'),
        end: comingTo(name, 'through'),
        elements: [...out, ...arc(r, -around), ...home],
      },
    ],
    measures: [
      { name: 'length of the loop', valueMm: loopMm },
      { name: 'from the points to the far side', valueMm: beyondMm + r },
    ],
  }
}
