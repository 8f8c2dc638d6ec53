import type { JointAnswer } from '../estimate/answer.ts'
import type { PlanToDraw, TrackToDraw } from '../page/drawing/drawn-plan.ts'
import { planToDraw } from '../page/drawing/plan-to-draw.ts'
import type { PlanOnPaper } from '../paper/papers.ts'
import { elementAt, poseOn } from '../track/place.ts'
import { type Point, sampleLine } from '../track/sample.ts'
import { type PlacedElement, partsOf } from '../track/types.ts'

/** No point of a curve is further from its line, mm. */
const ERROR_MM = 1

/**
 * What the coordinates are. RFC 7946 has degrees on the earth and leaves other frames to an agreement between sender and
 * receiver (section 4): this member is where the file says so itself.
 */
const FRAME = {
  unit: 'm',
  axes: 'x to the right and y up the sheet of the plan, from its own origin',
  note: 'A local frame, no longitude and latitude: RFC 7946, section 4, by agreement. Heights are not in it.',
  errorMm: ERROR_MM,
} as const

type Geometry =
  | { readonly type: 'Point'; readonly coordinates: Coordinates }
  | { readonly type: 'LineString'; readonly coordinates: readonly Coordinates[] }
  | { readonly type: 'Polygon'; readonly coordinates: readonly (readonly Coordinates[])[] }

type Coordinates = readonly [number, number]

/** The centre lines, turnouts, joints, obstacles and pegs of a plan as GeoJSON, in metres on the sheet of the plan. */
export function planGeoJson({ plan, estimate }: PlanOnPaper): string {
  const drawn = planToDraw(plan, estimate)
  const features = [
    ...drawn.tracks.flatMap(elementsOf),
    ...drawn.tracks.flatMap(turnoutsOf),
    ...estimate.joints.map((joint) => jointOf(joint, drawn)),
    ...(drawn.obstacles ?? []).map(({ name, outline }) =>
      feature({ type: 'Polygon', coordinates: [ring(outline)] }, { is: 'obstacle', name }),
    ),
    ...(drawn.pegs ?? []).map((peg) =>
      feature({ type: 'Point', coordinates: metres(peg) }, { is: 'peg', name: peg.name }),
    ),
  ]
  return `${JSON.stringify({ type: 'FeatureCollection', name: estimate.title, frame: FRAME, features })}\n`
}

function feature(geometry: Geometry, properties: Readonly<Record<string, string | number | null>>) {
  return { type: 'Feature', geometry, properties }
}

function elementsOf({ name, placed, state = 'new' }: TrackToDraw) {
  return placed.map((element) => {
    const { index, kind, lengthMm, startCurvature, endCurvature } = element
    const radiusMm = startCurvature === endCurvature && startCurvature !== 0 ? 1 / Math.abs(startCurvature) : null
    const own = { track: name, element: index, kind, state, lengthMm, radiusMm }
    return feature(lineAlong(partsOf(element)), { is: 'centre-line', ...own })
  })
}

function turnoutsOf({ name: track, turnouts = [] }: TrackToDraw) {
  return turnouts.flatMap(({ name, otherLeg, points }) => [
    feature(lineAlong(otherLeg), { is: 'other-leg', track, turnout: name }),
    feature({ type: 'Point', coordinates: metres(points) }, { is: 'points', track, turnout: name }),
  ])
}

function jointOf({ track, rail, stationMm, kind }: JointAnswer, { tracks }: PlanToDraw) {
  const { placed } = tracks.find(({ name }) => name === track)!
  const at = poseOn(elementAt(placed, stationMm), stationMm)
  return feature({ type: 'Point', coordinates: metres(at) }, { is: 'joint', track, rail, kind, stationMm })
}

function lineAlong(placed: readonly PlacedElement[]): Geometry {
  return { type: 'LineString', coordinates: sampleLine(placed, 0, ERROR_MM).points.map(metres) }
}

/** Counter-clockwise and closed, as RFC 7946 has the outer ring of a polygon. */
function ring(outline: readonly Point[]): Coordinates[] {
  const doubleAreaMm2 = outline.reduce((sum, { xMm, yMm }, index) => {
    const next = outline[(index + 1) % outline.length]!
    return sum + xMm * next.yMm - next.xMm * yMm
  }, 0)
  const corners = (doubleAreaMm2 < 0 ? outline.toReversed() : outline).map(metres)
  return [...corners, corners[0]!]
}

/** To a thousandth of a millimetre. */
function metres({ xMm, yMm }: Point): Coordinates {
  return [Math.round(xMm * 1e3) / 1e6 + 0, Math.round(yMm * 1e3) / 1e6 + 0]
}
