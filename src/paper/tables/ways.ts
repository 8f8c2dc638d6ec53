import type { Estimate } from '../../estimate/answer.ts'
import { REVERSE_CURVE, TRACK_OF_WAY, WAY } from '../../network/ways-answer.ts'
import type { Answer } from '../../plan/fields/answer.ts'
import { columnsOf } from '../columns.ts'
import { type ColumnOf, count } from '../table.ts'

type Way = Answer<typeof WAY>

/** A part of a track on a way, and the worst reverse curve of the way that begins on it. */
interface Row {
  readonly number: number
  readonly way: Way
  readonly part: Way['tracks'][number]
  readonly reverse: Way['reverseCurves'][number] | null
}

const ofWay = columnsOf(WAY, ({ way }: Row) => way)
const ofPart = columnsOf(TRACK_OF_WAY, ({ part }: Row) => part)
const ofReverse = columnsOf(REVERSE_CURVE, ({ reverse }: Row) => reverse)

export const WAY_COLUMNS: readonly ColumnOf<Row>[] = [
  count('way', 'Way', ({ number }) => number),
  ...ofWay('loop'),
  ...ofPart('track', 'fromMm', 'toMm', 'reversed'),
  count('reverseCurves', 'Reverse curves', ({ way, part }) => reversesOn(way, part).length),
  ...ofReverse({ of: 'atMm', key: 'worstAtMm', title: 'Worst at' }, 'straightMm', 'couplerOffsetMm'),
]

/** Every part of a track on every way, in the order in which a train comes to them. */
export function wayRows({ ways }: Estimate): Row[] {
  return ways.flatMap((way, index) =>
    way.tracks.map((part): Row => ({ number: index + 1, way, part, reverse: worstOf(reversesOn(way, part)) })),
  )
}

function reversesOn({ reverseCurves }: Way, { track, fromMm, toMm }: Row['part']): Way['reverseCurves'] {
  return reverseCurves.filter(({ atTrack, atMm }) => atTrack === track && atMm >= fromMm && atMm <= toMm)
}

/** That with the most between the couplers; without cars that with the shortest straight. */
function worstOf(curves: Way['reverseCurves']): Row['reverse'] {
  return (
    curves.toSorted((a, b) => (b.couplerOffsetMm ?? 0) - (a.couplerOffsetMm ?? 0) || a.straightMm - b.straightMm)[0] ??
    null
  )
}
