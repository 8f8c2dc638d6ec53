import { toDegrees } from '../measure/angle.ts'
import type { PlanToDraw, TrackToDraw } from '../page/drawing/drawn-plan.ts'
import { planToDraw, specialTrackIn } from '../page/drawing/plan-to-draw.ts'
import { unitsOf } from '../page/pages/units-of-plan.ts'
import { pegsOf } from '../page/sheets/garden/pegs.ts'
import { type LengthsIn, lengthText } from '../page/show-length.ts'
import { elementNumber } from '../page/words.ts'
import { type DxfLayer, type DxfShape, dxfOf } from '../paper/dxf.ts'
import type { PlanOnPaper } from '../paper/papers.ts'
import { beside, elementAt, poseOn } from '../track/place.ts'
import { railOffsetMm, signedRailOffsetMm } from '../track/rails.ts'
import { sampleLine } from '../track/sample.ts'
import { type PlacedElement, type Pose, partsOf } from '../track/types.ts'

/** No point of an easement is further from its polyline, mm. */
const EASEMENT_ERROR_MM = 0.01
/** A straight, where a curvature is no more than what rounding leaves. */
const STRAIGHT = 1e-12

/** The whole plan as DXF: every line of a straight or an arc as such, easements as fine polylines. */
export function planDxf({ plan, estimate }: PlanOnPaper): string {
  const drawn = planToDraw(plan, estimate)
  const special = specialTrackIn(plan)
  const lengthsIn = unitsOf(plan, undefined)
  const several = drawn.tracks.length > 1
  const shapes = drawn.tracks.flatMap((track, index): DxfShape[] => [
    ...linesOf(track.placed, { 'centre line': [0], rails: railOffsets(drawn) }),
    ...tiesOf(drawn, track),
    ...turnoutShapes(drawn, track),
    ...labelsOf(track, (element) => elementNumber(element, index, several), lengthsIn),
    ...pegsOf(estimate.tracks[index]!, track.closed, special).map(
      (centre): DxfShape => ({ layer: 'pegs', is: 'circle', centre, radiusMm: PEG_MM }),
    ),
  ])
  const joints = estimate.joints.map(({ track, rail, stationMm }): DxfShape => {
    const { placed } = drawn.tracks.find(({ name }) => name === track)!
    const pose = poseOn(elementAt(placed, stationMm), stationMm)
    const centre = beside(pose, signedRailOffsetMm(rail, drawn.gaugeMm, drawn.headWidthMm))
    return { layer: 'joints', is: 'circle', centre, radiusMm: drawn.headWidthMm }
  })
  return dxfOf([...shapes, ...joints, toleranceNote(drawn)])
}

const PEG_MM = 10
const TEXT_MM = 60

function railOffsets({ gaugeMm, headWidthMm }: PlanToDraw): number[] {
  return [railOffsetMm(gaugeMm, headWidthMm), -railOffsetMm(gaugeMm, headWidthMm)]
}

/** The lines at these offsets from the centre line, by layer. */
function linesOf(placed: readonly PlacedElement[], offsets: Partial<Record<DxfLayer, readonly number[]>>): DxfShape[] {
  return Object.entries(offsets).flatMap(([layer, all]) =>
    all.flatMap((offsetMm) => placed.flatMap(partsOf).map((element) => lineOf(element, offsetMm, layer as DxfLayer))),
  )
}

/**
 * The line at an offset from an element. An arc of curvature κ has its centre at 1/κ to the left of the track, and the
 * line beside it the radius |1/κ − offset|, offset and κ positive to the left; one of a whole turn or more is a circle.
 * Checked in tests/print/plan-dxf.test.ts against the plan, as another library reads the file.
 */
function lineOf(element: PlacedElement, offsetMm: number, layer: DxfLayer): DxfShape {
  const { start, end, startCurvature: from, endCurvature: to, turnedRad } = element
  if (Math.abs(from) < STRAIGHT && Math.abs(to) < STRAIGHT)
    return { layer, is: 'line', from: beside(start, offsetMm), to: beside(end, offsetMm) }
  if (from !== to) return { layer, is: 'polyline', points: sampleLine([element], offsetMm, EASEMENT_ERROR_MM).points }
  const radiusMm = Math.abs(1 / from - offsetMm)
  const centre = beside(start, 1 / from)
  if (Math.abs(turnedRad) >= 2 * Math.PI) return { layer, is: 'circle', centre, radiusMm }
  // Seen from the centre, the track is to the right of its heading on a left-hand curve.
  const directionOf = ({ headingRad }: Pose) => toDegrees(headingRad) - (from > 0 ? 90 : -90)
  const [first, last] = from > 0 ? [start, end] : [end, start]
  return { layer, is: 'arc', centre, radiusMm, fromDeg: directionOf(first), toDeg: directionOf(last) }
}

/** A tie reaches this many gauges to each side, as on the drawing of the page: how long ties are is not in the plan. */
const TIE_REACH = 0.875

/** A line along the middle of each tie; turnouts have ties of their own. */
function tiesOf(
  { gaugeMm, headWidthMm }: PlanToDraw,
  { placed, tieSpacingMm, closed, state }: TrackToDraw,
): DxfShape[] {
  const lengthMm = placed.at(-1)?.toMm ?? 0
  if (state === 'existing' || !(tieSpacingMm > 0)) return []
  const reachMm = (gaugeMm + headWidthMm) * TIE_REACH
  const count = Math.round(lengthMm / tieSpacingMm) + (closed ? 0 : 1)
  return Array.from({ length: count }, (_, index): DxfShape => {
    const atMm = Math.min(index * tieSpacingMm, lengthMm)
    const pose = poseOn(elementAt(placed, atMm), atMm)
    return { layer: 'ties', is: 'line', from: beside(pose, reachMm), to: beside(pose, -reachMm) }
  })
}

/** The legs that the track does not run along, the points as a line across, and the point of the frog. */
function turnoutShapes(drawn: PlanToDraw, { turnouts = [] }: TrackToDraw): DxfShape[] {
  const reachMm = (drawn.gaugeMm + drawn.headWidthMm) * TIE_REACH
  return turnouts.flatMap(({ name, otherLeg, points, frog }): DxfShape[] => [
    ...linesOf(otherLeg, { turnouts: [0, ...railOffsets(drawn)] }),
    { layer: 'turnouts', is: 'line', from: beside(points, reachMm), to: beside(points, -reachMm) },
    { layer: 'turnouts', is: 'circle', centre: frog, radiusMm: drawn.headWidthMm },
    { layer: 'text', is: 'text', at: beside(points, 1.5 * reachMm), text: name, ...upright(points) },
  ])
}

/** The name of the track at its start, and the number of each element in its middle, with the radius of a curve. */
function labelsOf(
  { name, placed }: TrackToDraw,
  numberOf: (element: number) => string,
  lengthsIn: LengthsIn,
): DxfShape[] {
  const labels = placed.map((element): DxfShape => {
    const pose = poseOn(element, (element.fromMm + element.toMm) / 2)
    const radius = element.kind === 'arc' ? ` R ${lengthText(1 / Math.abs(element.startCurvature), lengthsIn)}` : ''
    const at = beside(pose, element.turnedRad > 0 ? -2 * TEXT_MM : TEXT_MM)
    return { layer: 'text', is: 'text', at, text: `${numberOf(element.index)}${radius}`, ...upright(pose) }
  })
  const start = placed[0]
  if (!start) return labels
  return [
    ...labels,
    { layer: 'text', is: 'text', at: beside(start.start, 3 * TEXT_MM), text: name, ...upright(start.start) },
  ]
}

/** Along the track, and never upside down. */
function upright({ headingRad }: Pose): { heightMm: number; turnedDeg: number } {
  const deg = toDegrees(headingRad)
  return { heightMm: TEXT_MM, turnedDeg: Math.cos(headingRad) < -1e-9 ? deg + 180 : deg }
}

/** What the lines are, for whoever opens the file without having read the guide. */
function toleranceNote({ tracks }: PlanToDraw): DxfShape {
  const xMm = Math.min(...tracks.flatMap(({ placed }) => placed.map(({ start }) => start.xMm)))
  const yMm = Math.min(...tracks.flatMap(({ placed }) => placed.map(({ start }) => start.yMm)))
  const text = `Millimetres. Arcs are true arcs; easements are polylines within ${EASEMENT_ERROR_MM} mm. Rails: the middle of the head.`
  return { layer: 'text', is: 'text', at: { xMm, yMm: yMm - 8 * TEXT_MM }, text, heightMm: TEXT_MM, turnedDeg: 0 }
}
