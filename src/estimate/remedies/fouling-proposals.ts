import type { Finding } from '../../checking/finding.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import { lengthLike } from '../../measure/as-written.ts'
import { networkOf } from '../../network/network.ts'
import { sidingsOf } from '../../network/sidings.ts'
import type { PlacedElement } from '../../track/types.ts'
import { type Line, sentElements } from './line.ts'

/** How many straights of either track are tried, the longest first. */
const MOST_STRAIGHTS = 3
/** Angles are often written with two or three decimals; over a metre this is a tenth of a millimetre. */
const PARALLEL_RAD = 1e-4
/** Additions in round numbers first. */
const ROUND_MM = [10, 1]

/** A siding made longer by what is missing: a passing siding together with the straight beside it, a spur alone. */
export function longerSiding({ measured, limit }: Finding, line: Line, track: number): Patch[] {
  const siding = sidingsOf(networkOf(line.tracks, line.plan.standards)).find((each) => each.track === track)
  if (!siding) return []
  const own = straights(line.tracks[track]!.placed)
  if (siding.kind === 'spur') return own.map((each) => [lengthened(each, limit! - measured!, line, track)])
  const { placed, turnouts } = line.tracks[siding.host]!
  const at = siding.turnouts.map((name) => turnouts.find((turnout) => turnout.name === name)!.element)
  const beside = straights(placed.slice(Math.min(...at), Math.max(...at)))
  return own.flatMap((one) =>
    beside
      .filter((other) => Math.abs(Math.sin(one.start.headingRad - other.start.headingRad)) < PARALLEL_RAD)
      .flatMap((other) =>
        ROUND_MM.map((round): Patch => {
          const byMm = Math.ceil((limit! - measured!) / round) * round
          return [lengthened(one, byMm, line, track), lengthened(other, byMm, line, siding.host)]
        }),
      ),
  )
}

function straights(placed: readonly PlacedElement[]): PlacedElement[] {
  return placed
    .filter(({ kind }) => kind === 'tangent')
    .toSorted((a, b) => b.lengthMm - a.lengthMm)
    .slice(0, MOST_STRAIGHTS)
}

/** A number grows by exactly so much, so that what is made longer beside it still meets it. */
function lengthened({ index, lengthMm }: PlacedElement, byMm: number, line: Line, track: number): Patch[number] {
  const given = sentElements(line, track)[index]!.length
  const value =
    typeof given === 'number' ? Number((given + byMm).toFixed(6)) : lengthLike(given, lengthMm + byMm, 2, 'up')
  return { op: 'replace', path: `/tracks/${track}/elements/${index}/length`, value }
}
