import { type Fit, type Fits, fits } from '../../fitting/unknowns.ts'
import { type OpenFigure, openChain } from './open-chain.ts'
import type { TrackToFit } from './track-to-fit.ts'

/** What is left of a straight that the widest curve uses up: as short as can be laid. Common practice, no source. */
const LEAST_STRAIGHT_MM = 1
/** By so much longer it is tried which way the radius goes. */
const STEP_MM = 1e-3

/** The widest curve, or what stands in its way. */
export interface Widest extends Omit<Fits, 'found'> {
  readonly found: Fit | null
}

/**
 * The widest curve with a straight on either side, the lengths of both left open: one more unknown than there are
 * conditions.
 *
 * Along the answers the radius changes evenly with the lengths of both straights (R·tan(Δ/2) = A − a = B − b where they
 * meet at a corner that is A and B from where they begin, a and b what is left of them), so that it is widest where one
 * of them is at its least. Each is held there in turn, and the rest worked out; `any` where the radius grows
 * with the straights. With easements the same by Newton steps. Of several answers the widest.
 * Checked in tests/estimate/fitted-radii.test.ts against the closed form, and against a search over the lengths.
 *
 * @param open two lengths of straights, a radius, and perhaps its angle
 */
export function widestCurve(
  track: TrackToFit,
  open: readonly OpenFigure[],
  enough: Parameters<typeof fits>[2],
): Widest | 'any' {
  const radiusAt = open.findIndex(({ kind }) => kind === 'radius')
  const straights = open.flatMap(({ element, kind }, index) =>
    kind === 'length' && track.elements[element]!.kind === 'tangent' ? [index] : [],
  )
  let best: Fit | null = null
  let near: Widest = { found: null, beyond: null, nearest: null }
  let isBounded = false
  for (const held of straights) {
    const heldAt = (mm: number) => fitHolding(track, open, held, mm, enough)
    const widestOf = ({ found, beyond }: Fits) =>
      found.toSorted((a, b) => b.values[radiusAt]! - a.values[radiusAt]!)[0] ?? beyond
    const result = heldAt(LEAST_STRAIGHT_MM)
    near = { found: null, beyond: near.beyond ?? result.beyond, nearest: near.nearest ?? result.nearest }
    const [fit, longer] = [widestOf(result), widestOf(heldAt(LEAST_STRAIGHT_MM + STEP_MM))]
    if (fit && longer && longer.values[radiusAt]! > fit.values[radiusAt]!) continue
    isBounded = true
    if (fit && result.found.includes(fit) && !(best && best.values[radiusAt]! >= fit.values[radiusAt]!)) best = fit
  }
  if (best) return { found: best, beyond: null, nearest: best }
  return isBounded ? near : 'any'
}

function fitHolding(
  track: TrackToFit,
  open: readonly OpenFigure[],
  held: number,
  heldMm: number,
  enough: Parameters<typeof fits>[2],
): Fits {
  const others = open.filter((_, index) => index !== held)
  const chain = openChain(track, others, new Map([[open[held]!.element, heldMm]]))
  const whole = (fit: Fit): Fit => ({ ...fit, values: fit.values.toSpliced(held, 0, heldMm) })
  const { found, beyond, nearest } = fits(chain, track.goal, enough)
  return { found: found.map(whole), beyond: beyond && whole(beyond), nearest: nearest && whole(nearest) }
}
