import { type Hill, hillOf } from '../../src/hauling/hill.ts'
import { type Block, pullAt } from '../../src/hauling/pull.ts'

/** Feet in a mile-long curve of so many degrees: R = 5729.578/D ft (arc definition). */
export const radiusOfDegreeMm = (degrees: number) => (5729.578 / degrees) * 304.8

const LONG_MM = 1e7

/** An endless hill of one grade, in a curve of one radius or straight. */
export function evenHill(grade: number, radiusMm = Number.POSITIVE_INFINITY): Hill {
  const curvature = 1 / radiusMm
  const start = { xMm: 0, yMm: 0, headingRad: 0 }
  const element = {
    index: 0,
    kind: 'arc' as const,
    fromMm: 0,
    toMm: LONG_MM,
    lengthMm: LONG_MM,
    startCurvature: curvature,
    endCurvature: curvature,
    turnedRad: curvature * LONG_MM,
    start,
    end: start,
  }
  return hillOf({
    lengthMm: LONG_MM,
    closed: false,
    grades: [{ fromMm: 0, toMm: LONG_MM, grade }],
    placed: [element],
  })
}

/** What blocks of weight and rolling resistance ask for there, in the unit of their weight. */
export function asked(hill: Hill, blocks: readonly Omit<Block, 'lengthMm'>[]): number {
  return pullAt(
    hill,
    blocks.map((block) => ({ ...block, lengthMm: 20_000 })),
    LONG_MM / 2,
  ).pullN
}
