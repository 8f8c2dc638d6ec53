import { formatMm } from '../../measure/length.ts'
import type { TrackInput } from '../../plan/rows/track.ts'
import { facing, leaving, type Names, SHORTEST_MM, startAt, straight } from './elements.ts'
import { type FigureElement, type FigureFault, type FigureResult, ORIGIN, outOfRange, refused } from './figure.ts'
import { type ThroatOf, throatOf } from './throat.ts'

interface LadderOf extends Omit<ThroatOf, 'count'> {
  /** Of each track, the straight one first; at least two. */
  readonly clearsMm: readonly number[]
  readonly names: Names
}

/** A yard of n parallel tracks at a ladder, each as long as it takes to stand clear for the length that is wanted. */
export function ladder({ clearsMm, names, ...asked }: LadderOf): FigureResult {
  const { near, far } = asked
  const turnouts = clearsMm.length - 1
  const result = throatOf({ ...asked, count: clearsMm.length })
  if (!result.ok) return refused(...result.faults)
  const { apartMm, firstMm, nextMm, last, clearMm: fixedMm } = result.throat
  const short = clearsMm.flatMap((clearMm, track) => tooShort(clearMm, fixedMm[track]!, track, turnouts))
  if (short.length > 0) return refused(...short)

  const rest = (track: number) => straight(clearsMm[track]! - fixedMm[track]!)
  const onLadder: FigureElement[] = []
  const tracks: TrackInput[] = []
  for (let track = 1; track < turnouts; track++) {
    const name = names.turnout(track + 1)
    onLadder.push(...straight(track === 1 ? firstMm : nextMm), facing(name, far))
    tracks.push({ name: names.track(`track ${track + 1}`), start: leaving(name, 'diverging'), elements: rest(track) })
  }
  const first = names.turnout(1)
  return {
    ok: true,
    tracks: [
      { name: names.track('track 1'), start: startAt(ORIGIN), elements: [facing(first, near), ...rest(0)] },
      {
        name: names.track(turnouts > 1 ? `ladder and track ${turnouts + 1}` : 'track 2'),
        start: leaving(first, 'diverging'),
        elements: [...onLadder, ...last, ...rest(turnouts)],
      },
      ...tracks,
    ],
    measures: [{ name: 'turnouts apart along the ladder', valueMm: apartMm }],
  }
}

/** Every track but the last has to have some track beyond its turnout, however short. */
function tooShort(clearMm: number, fixedMm: number, track: number, last: number): FigureFault[] {
  if (clearMm - fixedMm >= (track === last ? -1e-9 : SHORTEST_MM)) return []
  return [
    outOfRange(
      'clear',
      `track ${track + 1} stands clear for more than ${formatMm(fixedMm)} as it is, without any length of its own`,
      `use a clear length of ${formatMm(Math.ceil(Math.max(fixedMm, 0)) + 1)} or more`,
    ),
  ]
}
