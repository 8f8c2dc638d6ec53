import { formatMm } from '../../measure/length.ts'
import { poseAlong } from '../../track/clothoid.ts'
import type { Leg } from '../../track/turnout/types.ts'
import { backToParallel, foulingOf, neverClear, type PathPiece, spacingOrMore, whereApart } from './beside.ts'
import { arc, straight } from './elements.ts'
import { type FigureElement, type FigureFault, type Kinds, outOfRange } from './figure.ts'

export interface ThroatOf extends Kinds {
  readonly spacingMm: number
  readonly foulingMm: number
  readonly radiusMm: number
  /** How many tracks there are, the straight one among them; at least two. */
  readonly count: number
}

/** An end of a yard: its turnouts, and where each track begins behind them. */
export interface Throat {
  /** From turnout to turnout along the ladder. */
  readonly apartMm: number
  /** Straights on the ladder before its first turnout and between the others. */
  readonly firstMm: number
  readonly nextMm: number
  /** The end of the ladder beyond its last turnout, back to parallel; of two tracks all of the second one. */
  readonly last: readonly FigureElement[]
  /** Of each track, the straight one first: how much of it stands clear as it is. */
  readonly clearMm: readonly number[]
  /** Of each track: how far along the straight from the first points it goes on parallel. */
  readonly reachMm: readonly number[]
}

/**
 * A ladder: a turnout of the near hand in the straight track begins it, and it runs on straight at the angle A of its
 * diverging leg; on it lie turnouts of the far hand, p/sin A apart, whose diverging legs are parallel to the straight again.
 * The last track is the ladder itself, turned back by a curve.
 *
 * p spacing. A track stands clear from where the two centre lines that part at its turnout are `foulingMm` apart: on the
 * diverging track by its distance from the straight one, on the straight one as far from the points. Source: ladder of
 * field books, p/sin F; checked in tests/published/figures-between-parallels.test.ts and tests/fitting/figures/ladder.test.ts.
 */
export function throatOf(asked: ThroatOf): { readonly ok: true; readonly throat: Throat } | Refused {
  const { near, far, spacingMm, foulingMm, count } = asked
  const angleRad = near.legs.diverging.end.headingRad
  const apartMm = spacingMm / Math.sin(angleRad)
  const firstMm = apartMm - fromMeeting(near.legs.diverging) - toMeeting(far.legs.diverging)
  const nextMm = apartMm - far.legs.through.lengthMm
  const faults = count > 2 ? faultsOfLadder(asked, [firstMm, ...(count > 3 ? [nextMm] : [])]) : []
  if (foulingMm > spacingMm + 1e-9) faults.push(neverClear(foulingMm, spacingMm))
  const last = count > 2 ? lastOfSeveral(asked) : onlyOne(asked)
  if (!last.ok) faults.push(last.fault)
  if (faults.length > 0 || !last.ok) return { ok: false, faults }
  const between = Array.from({ length: count - 2 }, (_, n) => n)
  /** The points of a turnout on the ladder. */
  const pointsMm = (n: number) => near.legs.diverging.end.xMm + (firstMm + n * apartMm) * Math.cos(angleRad)
  const { end } = far.legs.diverging
  const parallelMm = pointsMm(0) + end.xMm * Math.cos(angleRad) + end.yMm * Math.sin(angleRad)
  const legMm = far.legs.diverging.lengthMm - foulingOf(far.legs.diverging, foulingMm)
  return {
    ok: true,
    throat: {
      ...{ apartMm, firstMm, nextMm, last: last.elements },
      clearMm: [
        near.legs.through.lengthMm - foulingOf(near.legs.diverging, foulingMm),
        ...between.map(() => legMm),
        last.lengthMm - whereApart(last.pieces, foulingMm)!,
      ],
      reachMm: [
        near.legs.through.lengthMm,
        ...between.map((n) => parallelMm + n * apartMm * Math.cos(angleRad)),
        (count > 2 ? pointsMm(count - 3) : 0) + last.reachMm,
      ],
    },
  }
}

interface Refused {
  readonly ok: false
  readonly faults: readonly FigureFault[]
}

/** From the points to where the lines of the two legs meet, along the straight. */
function toMeeting({ end }: Leg): number {
  return end.xMm - end.yMm / Math.tan(end.headingRad)
}

/** From there to the end of the diverging leg. */
function fromMeeting({ end }: Leg): number {
  return end.yMm / Math.sin(end.headingRad)
}

function faultsOfLadder({ near, far, spacingMm }: ThroatOf, betweenMm: readonly number[]): FigureFault[] {
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
      /** How far it reaches along the straight from the points of its turnout. */
      readonly reachMm: number
    }
  | { readonly ok: false; readonly fault: FigureFault }

/** The second of two tracks: the diverging leg, brought back. */
function onlyOne({ near, spacingMm, radiusMm }: ThroatOf): Last {
  const back = backToParallel(near.legs.diverging, spacingMm, radiusMm)
  return back.ok ? { ok: true, ...back.path } : back
}

/** The end of the ladder beyond its last turnout, seen from the track that diverges there. */
function lastOfSeveral({ far, spacingMm, radiusMm }: ThroatOf): Last {
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
    reachMm: along * Math.cos(angleRad) + radiusMm * sin,
  }
}
