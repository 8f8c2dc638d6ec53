import { formatMm } from '../../measure/length.ts'
import type { TrackInput } from '../../plan/rows/track.ts'
import { comingTo, facing, leaving, type Names, SHORTEST_MM, startAt, straight, trailing } from './elements.ts'
import { type FigureElement, type FigureResult, ORIGIN, outOfRange, refused } from './figure.ts'
import { type Throat, type ThroatOf, throatOf } from './throat.ts'

interface DoubleLadderOf extends Omit<ThroatOf, 'count'> {
  /** Of each track, the straight one first; at least two. */
  readonly clearsMm: readonly number[]
  readonly names: Names
}

/**
 * A yard of n parallel tracks between two ladders that lean towards each other. The ladders fix by how much the tracks
 * differ, so only the straight track can be chosen, from the first points to the last:
 *
 * T = max (cₖ + aₖ + bₖ − uₖ − vₖ)
 *
 * cₖ wanted clear length of a track; aₖ, bₖ how far it begins behind the first points and ends before the last ones; uₖ, vₖ
 * what of both its ends stands clear already (`throatOf`). No track is clear for less than is wanted, and one for no more.
 *
 * Closed form; checked in tests/fitting/figures/double-ladder.test.ts.
 */
export function doubleLadder({ clearsMm, names, ...asked }: DoubleLadderOf): FigureResult {
  const { near, far } = asked
  const count = clearsMm.length
  const [left, right] = [throatOf({ ...asked, count }), throatOf({ ...asked, near: far, far: near, count })]
  if (!left.ok) return refused(...left.faults)
  if (!right.ok) return refused(...right.faults)
  const [entry, exit] = [left.throat, right.throat]
  const reachMm = clearsMm.map((_, track) => entry.reachMm[track]! + exit.reachMm[track]!)
  const fixedMm = clearsMm.map((_, track) => entry.clearMm[track]! + exit.clearMm[track]!)
  const totals = clearsMm.map((clearMm, track) => clearMm + reachMm[track]! - fixedMm[track]!)
  const totalMm = Math.max(...totals)
  const missingMm = Math.max(...reachMm) + SHORTEST_MM - totalMm
  if (missingMm > 0) return refused(tooShort(clearsMm[totals.indexOf(totalMm)]!, missingMm))
  const rest = (track: number) => straight(totalMm - reachMm[track]!)
  const first = (track: number) => names.turnout(track)
  const second = (track: number) => names.turnout(count - 1 + track)
  const middle = Array.from({ length: count - 2 }, (_, n) => n + 1)
  const ladderOf = (throat: Throat, turnout: (n: number) => FigureElement): FigureElement[] => [
    ...middle.flatMap((n) => [...straight(n === 1 ? throat.firstMm : throat.nextMm), turnout(n + 1)]),
    ...throat.last,
  ]
  const tracks: TrackInput[] = [
    {
      name: names.track('track 1'),
      start: startAt(ORIGIN),
      elements: [facing(first(1), near), ...rest(0), trailing(second(1), far)],
    },
    {
      name: names.track(count > 2 ? `ladders and track ${count}` : 'track 2'),
      start: leaving(first(1), 'diverging'),
      end: comingTo(second(1), 'diverging'),
      elements: [
        ...ladderOf(entry, (n) => facing(first(n), far)),
        ...rest(count - 1),
        ...ladderOf(exit, (n) => trailing(second(n), near)).toReversed(),
      ],
    },
    ...middle.map((n) => ({
      name: names.track(`track ${n + 1}`),
      start: leaving(first(n + 1), 'diverging'),
      end: comingTo(second(n + 1), 'diverging'),
      elements: rest(n),
    })),
  ]
  return {
    ok: true,
    tracks,
    measures: [
      { name: 'turnouts apart along the ladders', valueMm: entry.apartMm },
      { name: 'points to points', valueMm: totalMm },
      ...clearsMm.map((_, track) => ({
        name: `clear length of track ${track + 1}`,
        valueMm: totalMm - reachMm[track]! + fixedMm[track]!,
      })),
    ],
  }
}

function tooShort(clearMm: number, missingMm: number) {
  return outOfRange(
    'clear',
    `the ladders would run into each other: the shortest track lacks ${formatMm(missingMm)}`,
    `use a clear length of ${formatMm(Math.ceil(clearMm + missingMm) + 1)} or more`,
  )
}
