import { toDegrees } from '../../measure/angle.ts'
import { formatMm } from '../../measure/length.ts'
import { crossingLengthMm } from '../../track/turnout/special-track.ts'
import { arc, facing, leaving, type Names, SHORTEST_MM, startAt, straight } from './elements.ts'
import {
  type FigureElement,
  type FigureFault,
  type FigureKind,
  type FigureResult,
  ORIGIN,
  outOfRange,
  refused,
} from './figure.ts'

interface JunctionOf {
  readonly near: FigureKind
  readonly gaugeMm: number
  readonly radiusMm: number
  /** Through which the branch turns, the turnout included. */
  readonly angleRad: number
  /** Of the double track; null: the line and the branch are single. */
  readonly spacingMm: number | null
  readonly names: Names
}

/** A branch of a line. Of double track, the branch of the further track crosses the nearer one on the level. */
export function junction(asked: JunctionOf): FigureResult {
  const { near, angleRad, radiusMm } = asked
  const legRad = near.legs.diverging.end.headingRad
  if (radiusMm * (angleRad - legRad) < SHORTEST_MM)
    return refused(
      outOfRange(
        'angle',
        `${near.id} alone turns by ${toDegrees(legRad).toFixed(1)}°`,
        `use an angle of more than ${Math.ceil(toDegrees(legRad))}°`,
      ),
    )
  return asked.spacingMm === null ? single(asked) : double(asked, asked.spacingMm)
}

function single({ near, radiusMm, angleRad, names }: JunctionOf): FigureResult {
  const name = names.turnout(1)
  return {
    ok: true,
    tracks: [
      { name: names.track('main'), start: startAt(ORIGIN), elements: [facing(name, near)] },
      {
        name: names.track('branch'),
        start: leaving(name, 'diverging'),
        elements: arc(radiusMm, angleRad - near.legs.diverging.end.headingRad),
      },
    ],
    measures: [],
  }
}

/**
 * Both turnouts alike, their diverging legs F apart from the line: the tracks of the branch are as far apart as those of
 * the line if the nearer track's turnout lies p·tan(F/2) before the further one's. The further branch crosses the nearer
 * track p·cot F beyond where it leaves the line of its own. Both curves have one centre.
 *
 * p spacing. Range: 0 < F < 90°. Closed form; checked in tests/fitting/figures/junction.test.ts.
 */
function double({ near, gaugeMm, radiusMm, angleRad, names }: JunctionOf, spacingMm: number): FigureResult {
  const { through, diverging } = near.legs
  const { xMm, yMm, headingRad: legRad } = diverging.end
  const angle = toDegrees(legRad)
  const halfMm = crossingLengthMm(gaugeMm, angle) / 2
  const earlierMm = spacingMm * Math.tan(legRad / 2)
  const meetingMm = xMm - yMm / Math.tan(legRad)
  // Along the branch of the further track, and along the nearer track, from the ends of their turnouts.
  const onBranchMm = (spacingMm - yMm) / Math.sin(legRad) - halfMm
  const onTrackMm = meetingMm + spacingMm / Math.tan(legRad) + earlierMm - through.lengthMm - halfMm
  const faults: FigureFault[] = []
  if (angle < 5)
    faults.push({
      field: 'near',
      code: 'contradictory',
      detail: `${near.id} diverges by ${angle.toFixed(1)}°, and no crossing is that sharp`,
      hint: 'use a turnout of a smaller number, which diverges by 5° or more',
    })
  // The curves begin beside each other, beyond the crossing.
  const beyondMm = onBranchMm + 2 * halfMm
  const nearerMm = beyondMm - earlierMm
  const missingMm = Math.max(
    -onBranchMm * Math.sin(legRad),
    -onTrackMm / (1 / Math.tan(legRad) + Math.tan(legRad / 2)),
    -nearerMm / (1 / Math.sin(legRad) - Math.tan(legRad / 2)),
  )
  if (missingMm > 1e-9)
    faults.push(
      outOfRange(
        'spacing',
        `the crossing would lie over a turnout where tracks are ${formatMm(spacingMm)} apart`,
        `use a spacing of ${formatMm(Math.ceil((spacingMm + missingMm) * 10) / 10)} or more, or shorter turnouts`,
      ),
    )
  if (faults.length > 0) return refused(...faults)
  const crossing = (): FigureElement => ({ kind: 'crossing', name: names.crossing(1), angle })
  const turnRad = angleRad - legRad
  const [w1, w2] = [names.turnout(1), names.turnout(2)]
  return {
    ok: true,
    tracks: [
      { name: names.track('main'), start: startAt(ORIGIN), elements: [facing(w1, near)] },
      {
        name: names.track('nearer main'),
        start: startAt({ xMm: -earlierMm, yMm: spacingMm, headingRad: 0 }),
        elements: [facing(w2, near), ...straight(onTrackMm), crossing()],
      },
      {
        name: names.track('branch'),
        start: leaving(w1, 'diverging'),
        elements: [...straight(onBranchMm), crossing(), ...arc(radiusMm + spacingMm, turnRad)],
      },
      {
        name: names.track('nearer branch'),
        start: leaving(w2, 'diverging'),
        elements: [...straight(nearerMm), ...arc(radiusMm, turnRad)],
      },
    ],
    measures: [
      { name: 'turnouts apart along the line', valueMm: earlierMm },
      { name: 'length of the crossing', valueMm: 2 * halfMm },
    ],
  }
}
