import { formatMm } from '../../measure/length.ts'
import type { TrackInput } from '../../plan/rows/track.ts'
import { poseAlong } from '../../track/clothoid.ts'
import type { Leg } from '../../track/turnout/types.ts'
import { backToParallel, foulingOf, neverClear, type PathPiece, spacingOrMore, whereApart } from './beside.ts'
import { arc, facing, leaving, type Names, SHORTEST_MM, startAt, straight } from './elements.ts'
import {
  type FigureElement,
  type FigureFault,
  type FigureResult,
  type Kinds,
  ORIGIN,
  outOfRange,
  refused,
} from './figure.ts'

interface LadderOf extends Kinds {
  readonly spacingMm: number
  readonly foulingMm: number
  /** Of each track, the straight one first; at least two. */
  readonly clearsMm: readonly number[]
  readonly radiusMm: number
  readonly names: Names
}

/**
 * A yard of n parallel tracks at a ladder. A turnout of the near hand in the straight track begins the ladder, which runs
 * on straight at the angle A of its diverging leg; on it lie turnouts of the far hand, p/sin A apart, whose diverging legs
 * are parallel to the straight again. The last track is the ladder itself, turned back by a curve.
 *
 * p spacing. A track stands clear from where the two centre lines that part at its turnout are `foulingMm` apart: on the
 * diverging track by its distance from the straight one, on the straight one as far from the points. Source: ladder of
 * field books, p/sin F; checked in tests/published/figures-between-parallels.test.ts and tests/fitting/figures/ladder.test.ts.
 */
export function ladder(asked: LadderOf): FigureResult {
  const { near, far, spacingMm, foulingMm, clearsMm, names } = asked
  const turnouts = clearsMm.length - 1
  const apartMm = spacingMm / Math.sin(near.legs.diverging.end.headingRad)
  const firstMm = apartMm - fromMeeting(near.legs.diverging) - toMeeting(far.legs.diverging)
  const nextMm = apartMm - far.legs.through.lengthMm
  const faults = turnouts > 1 ? faultsOfLadder(asked, [firstMm, ...(turnouts > 2 ? [nextMm] : [])]) : []
  if (foulingMm > spacingMm + 1e-9) faults.push(neverClear(foulingMm, spacingMm))
  const last = turnouts > 1 ? lastOfSeveral(asked) : onlyOne(asked)
  if (!last.ok) faults.push(last.fault)
  if (faults.length > 0 || !last.ok) return refused(...faults)

  const straightMm = near.legs.through.lengthMm - foulingOf(near.legs.diverging, foulingMm)
  const parallelMm = far.legs.diverging.lengthMm - foulingOf(far.legs.diverging, foulingMm)
  const curvedMm = last.lengthMm - whereApart(last.pieces, foulingMm)!
  const fixedMm = clearsMm.map((_, track) => (track === 0 ? straightMm : track === turnouts ? curvedMm : parallelMm))
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
        elements: [...onLadder, ...last.elements, ...rest(turnouts)],
      },
      ...tracks,
    ],
    measures: [{ name: 'turnouts apart along the ladder', valueMm: apartMm }],
  }
}

/** From the points to where the lines of the two legs meet, along the straight. */
function toMeeting({ end }: Leg): number {
  return end.xMm - end.yMm / Math.tan(end.headingRad)
}

/** From there to the end of the diverging leg. */
function fromMeeting({ end }: Leg): number {
  return end.yMm / Math.sin(end.headingRad)
}

function faultsOfLadder({ near, far, spacingMm }: LadderOf, betweenMm: readonly number[]): FigureFault[] {
  const [a, b] = [near, far].map(({ legs }) => legs.diverging.end.headingRad) as [number, number]
  if (Math.abs(a - b) > 1e-9)
    return [
      {
        field: 'far',
        code: 'contradictory',
        detail: `${near.id} and ${far.id} diverge by different angles, so that the tracks of the yard would not be parallel`,
        hint: 'use turnouts of both hands with the same frog',
      },
    ]
  const missingMm = Math.max(...betweenMm.map((mm) => -mm)) * Math.sin(a)
  if (missingMm <= 1e-9) return []
  return [
    outOfRange(
      'spacing',
      `turnouts for tracks ${formatMm(spacingMm)} apart would lie over each other on the ladder`,
      `use ${spacingOrMore(spacingMm + missingMm)}, or shorter turnouts`,
    ),
  ]
}

type Last =
  | {
      readonly ok: true
      readonly elements: readonly FigureElement[]
      readonly pieces: readonly PathPiece[]
      readonly lengthMm: number
    }
  | { readonly ok: false; readonly fault: FigureFault }

/** The second of two tracks: the diverging leg, brought back. */
function onlyOne({ near, spacingMm, radiusMm }: LadderOf): Last {
  const back = backToParallel(near.legs.diverging, spacingMm, radiusMm)
  return back.ok ? { ok: true, ...back.path } : back
}

/** The end of the ladder beyond its last turnout, seen from the track that diverges there. */
function lastOfSeveral({ far, spacingMm, radiusMm }: LadderOf): Last {
  const { through, diverging } = far.legs
  const angleRad = diverging.end.headingRad
  const sin = Math.sin(angleRad)
  const versine = 2 * Math.sin(angleRad / 2) ** 2
  const meetingMm = toMeeting(diverging)
  const straightMm = (spacingMm - radiusMm * versine) / sin - (through.lengthMm - meetingMm)
  if (straightMm < -1e-9) {
    const sharpest = Math.floor((spacingMm - (through.lengthMm - meetingMm) * sin) / versine)
    const least = spacingOrMore(spacingMm - straightMm * sin)
    return {
      ok: false,
      fault: outOfRange(
        'spacing',
        `no curve of ${formatMm(radiusMm)} brings the ladder back parallel ${formatMm(spacingMm)} beside its last turnout`,
        sharpest > 0 ? `use ${least}, or a radius of ${formatMm(sharpest)} or less` : `use ${least}`,
      ),
    }
  }
  const along = through.lengthMm + Math.max(0, straightMm)
  const start = { xMm: 0, yMm: -meetingMm * sin, headingRad: angleRad }
  const atArc = poseAlong(start, 0, 0, along, along)
  const arcMm = radiusMm * angleRad
  const end = { ...poseAlong(atArc, -1 / radiusMm, -1 / radiusMm, arcMm, arcMm), headingRad: 0 }
  return {
    ok: true,
    elements: [...straight(straightMm), ...arc(radiusMm, -angleRad)],
    pieces: [
      { start, startCurvature: 0, lengthMm: along, end: atArc },
      { start: atArc, startCurvature: -1 / radiusMm, lengthMm: arcMm, end },
    ],
    lengthMm: along + arcMm,
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
