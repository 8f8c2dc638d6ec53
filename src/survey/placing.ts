import type { Fault } from '../measure/fault.ts'
import { formatMm } from '../measure/length.ts'
import type { Side } from '../plan/rows/survey.ts'
import type { Point } from '../track/sample.ts'
import { type Candidates, candidatesOf, type Misses } from './candidates.ts'
import { CLEARLY_BETTER } from './circles.ts'
import { farEnd, type Net, type Reading } from './net.ts'
import { horizontalMm, misfit } from './taped.ts'

export interface Placed {
  readonly places: readonly (Point | null)[]
  /** Why a point has no place without being at fault: there is too little to go by. */
  readonly reasons: ReadonlyMap<number, string>
  readonly faults: readonly Fault[]
}

/**
 * Rough places of all points, one after another: each from the two circles that cross best around places that are
 * known, or found already. Of the two places where they cross, the one that fits the other distances of the point, or
 * that lies on the side that is given. Two points that are each left with two places, with a distance between them, are
 * placed together, if one pair of their places fits it clearly better than the others.
 *
 * @param elevationsMm as they are known so far; they reduce distances along a slope
 * @param sides by index of the point
 */
export function roughPlaces(
  net: Net,
  elevationsMm: readonly (number | null)[],
  sides: ReadonlyMap<number, Side>,
): Placed {
  const tapes = net.readings.filter(
    (reading) => reading.kind === 'distance' && horizontalMm(reading, elevationsMm) !== null,
  )
  const of = net.names.map((_, index) => tapes.filter(({ from, to }) => from === index || to === index))
  const places = [...net.places]
  const found = new Map<number, Candidates>()
  const open = () => net.names.flatMap((_, index) => (places[index] === null && of[index]!.length > 0 ? [index] : []))
  for (let before = -1; before !== open().length; ) {
    before = open().length
    for (const index of open()) {
      const candidates = candidatesOf(index, of[index]!, places, elevationsMm, sides.get(index))
      found.set(index, candidates)
      if (candidates.is === 'placed') places[index] = candidates.place
    }
    if (before === open().length) placeTogether(tapes, places, found, elevationsMm)
  }
  const left = open().map((index) => [index, found.get(index)!] as const)
  return {
    places,
    reasons: new Map([
      ...net.names.flatMap((_, index) =>
        places[index] === null && of[index]!.length === 0 ? [[index, 'no distance leads to it'] as const] : [],
      ),
      ...left.flatMap(([index, candidates]) =>
        candidates.is === 'too-few' || candidates.is === 'flat' ? [[index, candidates.reason] as const] : [],
      ),
    ]),
    faults: left.flatMap(([index, candidates]) => faultsOf(index, candidates, net)),
  }
}

/** Two points with two places each, and the pair of places that fits the distance between them clearly best. */
function placeTogether(
  tapes: readonly Reading[],
  places: (Point | null)[],
  found: ReadonlyMap<number, Candidates>,
  elevationsMm: readonly (number | null)[],
): void {
  for (const { from, to } of tapes) {
    const [a, b] = [found.get(from), found.get(to)]
    if (a?.is !== 'two' || b?.is !== 'two' || places[from] || places[to]) continue
    const between = tapes.filter((tape) => farEnd(tape, from) === to && farEnd(tape, to) === from)
    const pairs = a.both.flatMap((first) =>
      b.both.map((second) => ({
        first,
        second,
        misfit: between.reduce((sum, tape) => sum + misfit(tape, first, second, elevationsMm), 0),
      })),
    )
    const [best, next] = pairs.sort((one, other) => one.misfit - other.misfit)
    if (next!.misfit - best!.misfit <= CLEARLY_BETTER) continue
    places[from] = best!.first
    places[to] = best!.second
    return
  }
}

function faultsOf(index: number, candidates: Candidates, net: Net): Fault[] {
  const name = net.names[index]!
  if (candidates.is === 'two') {
    const [first, second] = candidates.ends.map((end) => net.names[end]!)
    return [
      {
        path: ['distances', candidates.reading.index],
        code: 'missing',
        detail: `${name} may be on either side of the line from ${first} to ${second}: its distances fit both`,
        hint: `add { "name": "${name}", "side": "left" } or "right" to points, as you look from ${first} to ${second}; or measure to it from a third place off that line`,
      },
    ]
  }
  if (candidates.is === 'other-side')
    return [
      {
        path: ['points'],
        code: 'contradictory',
        detail: `${name} is said to be on the ${candidates.side}, but its other distances fit only on the other side`,
        hint: 'correct the side, or leave it out: these distances tell it',
      },
    ]
  return candidates.is === 'missed' ? [missFault(name, candidates, net)] : []
}

/** Two circles that do not meet: which reading is too short or too long. */
function missFault(name: string, { first, second, gapMm, isInside, apartMm }: Misses, net: Net): Fault {
  const [a, b] = [first, second].map(({ end }) => net.names[end]!)
  const [short, long] = first.radiusMm < second.radiusMm ? [first, second] : [second, first]
  const detail = isInside
    ? `${name} cannot be ${formatMm(long.radiusMm, 1)} from ${net.names[long.end]!} and ${formatMm(short.radiusMm, 1)} from ${net.names[short.end]!}: these are only ${formatMm(apartMm, 1)} apart, so the distances differ by ${formatMm(gapMm, 1)} too much`
    : `${name} cannot be ${formatMm(first.radiusMm, 1)} from ${a} and ${formatMm(second.radiusMm, 1)} from ${b}: these are ${formatMm(apartMm, 1)} apart, so the distances are ${formatMm(gapMm, 1)} too short to meet`
  return {
    path: ['distances', second.reading.index, 'length'],
    code: 'contradictory',
    detail,
    hint: 'measure both again; check their units, and the places of the pegs',
  }
}
