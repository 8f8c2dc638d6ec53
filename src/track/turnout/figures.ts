import { toDegrees } from '../../measure/angle.ts'
import { component, length, list, nullable, number, object } from '../../plan/fields/answer.ts'
import { guardRailsOf } from './guard-rails.ts'
import type { TurnoutGeometry } from './types.ts'

const FROM_POINTS = 'along the straight through the points, mm.'

/** What is answered of a turnout, in a plan or alone. */
export const TURNOUT_FIGURES = component('TurnoutFigures', 'The geometry of one turnout.', {
  frogAngleDeg: number({ says: 'Angle between the gauge lines that cross at the frog.', title: 'Frog angle (°)' }),
  heelAngleDeg: number('Angle of the straight switch rails; 0 where the curve begins at the points.'),
  outerGaugeRadiusMm: length('Radius of the outer gauge line of the closure, mm.'),
  closureRadiusMm: length({ says: 'Radius of the centre line of the closure, mm.', title: 'Closure radius' }),
  curvedClosureMm: nullable(
    length('Length of the curved closure rail along its gauge line, mm; null for a turnout as measured.'),
  ),
  straightClosureMm: nullable(length('Length of the straight closure rail, mm; null for a turnout as measured.')),
  leadMm: length({ says: `From the points to the theoretical point of the frog, ${FROM_POINTS}`, title: 'Lead' }),
  toeLengthMm: length('Straight from the toe of the frog to its theoretical point, mm.'),
  toeSpreadMm: nullable(length('Between the gauge lines at the toe of the frog, mm; null for a turnout as measured.')),
  lengthMm: length({ says: 'From the points to the end of the through leg, along it, mm.', title: 'Length' }),
  divergingLengthMm: length('From the points to the end of the diverging leg, along it, mm.'),
  divergingAngleDeg: number('Angle between the ends of the two legs.'),
  divergingOffsetMm: length(
    'Distance of the end of the diverging leg from the line through the points, square to it, mm.',
  ),
  guardRails: list(
    object({ fromMm: length(), toMm: length() }),
    `Guard rails opposite the frog, that of the through leg first, ${FROM_POINTS} They reach from a gauge ahead of the point of the frog to half a gauge behind it (own choice, no source); their flangeways are those of your wheel standard.`,
  ),
})

export function turnoutFigures(turnout: TurnoutGeometry, gaugeMm: number) {
  const { legs, frogRad, heelRad, ...figures } = turnout
  const { through, diverging } = legs
  return {
    frogAngleDeg: toDegrees(frogRad),
    heelAngleDeg: toDegrees(heelRad),
    outerGaugeRadiusMm: figures.outerGaugeRadiusMm,
    closureRadiusMm: figures.closureRadiusMm,
    curvedClosureMm: figures.curvedClosureMm,
    straightClosureMm: figures.straightClosureMm,
    leadMm: figures.leadMm,
    toeLengthMm: figures.toeLengthMm,
    toeSpreadMm: figures.toeSpreadMm,
    lengthMm: through.lengthMm,
    divergingLengthMm: diverging.lengthMm,
    divergingAngleDeg: toDegrees(Math.abs(diverging.end.headingRad - through.end.headingRad)),
    divergingOffsetMm: Math.abs(diverging.end.yMm),
    guardRails: guardRailsOf(turnout, gaugeMm),
  }
}
