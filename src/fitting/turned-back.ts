import type { PlacedElement, Pose, Shape } from '../track/types.ts'
import type { Change } from './change.ts'
import { loopOf, type Tolerances } from './loop.ts'
import { followedBy, motionOf, withinHalfTurn } from './motion.ts'
import { turnedAgain } from './slips.ts'

/**
 * The arcs of a loop that bring its heading home when they turn the other way, that which leaves the smallest gap first.
 * A loop may have other slips as well: whether its ends meet in place is another question. None where the heading is home
 * already.
 *
 * With k the curvature of an arc (1/mm, left above zero), L its length and E those of the easements beside it (mm), the
 * whole turning changes by −2·k·L − Σ k·E; the heading is home where what is left is a whole number of turns, within the
 * tolerance. Any arc but a turnout's. Checked by hand in tests/fitting/turned-back.test.ts.
 */
export function turnedBack(placed: readonly PlacedElement[], tolerances: Tolerances): Change[] {
  const { shapes, motions, headingRad } = loopOf(placed, tolerances)
  if (placed.length === 0 || Math.abs(withinHalfTurn(motions.reduce(followedBy).headingRad)) <= headingRad) return []
  return shapes
    .flatMap((shape, element) => {
      if (shape.kind !== 'arc') return []
      const { xMm, yMm, headingRad: endRad } = endAfter(shapes, motions, element)
      if (Math.abs(withinHalfTurn(endRad)) > headingRad) return []
      const change: Change = { element, field: 'turn', to: shape.startCurvature > 0 ? 'right' : 'left' }
      return [{ change, gapMm: Math.hypot(xMm, yMm) }]
    })
    .toSorted((a, b) => a.gapMm - b.gapMm)
    .map(({ change }) => change)
}

/** Where the loop ends, as seen from its start, with one arc turned the other way and its easements with it. */
function endAfter(shapes: readonly Shape[], motions: readonly Pose[], arc: number): Pose {
  const count = shapes.length
  const curvature = -shapes[arc]!.startCurvature
  const [before, after] = [(arc + count - 1) % count, (arc + 1) % count]
  return shapes
    .map((shape, index) => {
      if (index === arc) return motionOf(turnedAgain({ ...shape, startCurvature: curvature, endCurvature: curvature }))
      if (shape.kind !== 'easement') return motions[index]!
      return motionOf(
        turnedAgain({
          ...shape,
          ...(index === before && { endCurvature: curvature }),
          ...(index === after && { startCurvature: curvature }),
        }),
      )
    })
    .reduce(followedBy)
}
