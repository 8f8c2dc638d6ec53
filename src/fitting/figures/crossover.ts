import { formatMm } from '../../measure/length.ts'
import type { Leg } from '../../track/turnout/types.ts'
import { spacingOrMore } from './beside.ts'
import { comingTo, facing, leaving, type Names, SHORTEST_MM, startAt, straight, trailing } from './elements.ts'
import { type FigureKind, type FigureResult, ORIGIN, outOfRange, refused } from './figure.ts'

interface CrossoverOf {
  readonly near: FigureKind
  readonly spacingMm: number
  readonly names: Names
}

/**
 * A crossover to a straight track parallel to the left, by two turnouts of one kind: a straight of length s between the
 * ends of their legs.
 *
 * s = (p − 2y)/sin A, points to points 2x + (p − 2y)·cot A
 *
 * p spacing; x, y, A place and heading of the end of the diverging leg, from the points. Range: p > 2y. Closed form; checked
 * in tests/published/figures-between-parallels.test.ts.
 */
export function crossover({ near, spacingMm, names }: CrossoverOf): FigureResult {
  const { through, diverging } = near.legs
  const { xMm, yMm, headingRad: angleRad } = diverging.end
  const straightMm = (spacingMm - 2 * yMm) / Math.sin(angleRad)
  if (straightMm < SHORTEST_MM) return refused(tooClose(spacingMm, diverging))
  const reachMm = 2 * xMm + straightMm * Math.cos(angleRad)
  const rest = straight(reachMm - through.lengthMm)
  const [w1, w2] = [names.turnout(1), names.turnout(2)]
  return {
    ok: true,
    tracks: [
      { name: names.track('main'), start: startAt(ORIGIN), elements: [facing(w1, near), ...rest] },
      {
        name: names.track('other'),
        start: startAt({ xMm: Math.min(0, reachMm - through.lengthMm), yMm: spacingMm, headingRad: 0 }),
        elements: [...rest, trailing(w2, near)],
      },
      {
        name: names.track('crossover'),
        start: leaving(w1, 'diverging'),
        end: comingTo(w2, 'diverging'),
        elements: straight(straightMm),
      },
    ],
    measures: [
      { name: 'points to points', valueMm: reachMm },
      { name: 'straight between the turnouts', valueMm: straightMm },
    ],
  }
}

function tooClose(spacingMm: number, { pieces, end }: Leg) {
  const least = 2 * end.yMm + SHORTEST_MM * Math.sin(end.headingRad)
  const { start } = pieces.at(-1)!
  const halfMm = spacingMm / 2 - SHORTEST_MM
  // Along the straight end of the leg, the length at which two of them have room; none where the curve is too far aside.
  const lengthMm = start.xMm + (halfMm - start.yMm) / Math.tan(end.headingRad)
  const isShorter = pieces.at(-1)!.startCurvature === 0 && start.yMm < halfMm
  return outOfRange(
    'spacing',
    `each turnout ends ${formatMm(end.yMm)} beside its straight, so two of them do not fit between tracks ${formatMm(spacingMm)} apart`,
    isShorter
      ? `use ${spacingOrMore(least)}, or end the turnouts earlier with a length of ${formatMm(Math.floor(lengthMm))} or less`
      : `use ${spacingOrMore(least)}`,
  )
}
