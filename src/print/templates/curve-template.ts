import { toDegrees } from '../../measure/angle.ts'
import type { PlanToDraw } from '../../page/drawing/drawn-plan.ts'
import { formatDegrees, type LengthsIn, lengthText } from '../../page/show-length.ts'
import { poseAlong } from '../../track/clothoid.ts'
import { beside } from '../../track/place.ts'
import { railOffsetMm } from '../../track/rails.ts'
import { sampleLine } from '../../track/sample.ts'
import type { PlacedElement, Pose } from '../../track/types.ts'
import { LINE_ERROR_MM, radiusText, type Template, type TemplateLabel, type TemplateLine } from './template.ts'

/** Between marks along the centre line. */
const MARKS_MM = { metric: 100, feet: 101.6 } as const

/**
 * A curve with both rails, to be laid on a bench: the middle of each head, its two sides, the centre line with its marks.
 *
 * @param mostMm nothing longer is bent; of a longer curve that much is drawn
 * @param name of the curve
 */
export function curveTemplate(
  element: PlacedElement,
  drawn: Pick<PlanToDraw, 'gaugeMm' | 'headWidthMm'>,
  { mostMm, name, lengthsIn }: { readonly mostMm: number; readonly name: string; readonly lengthsIn: LengthsIn },
): Template {
  const part = levelled(element, Math.min(mostMm, element.lengthMm))
  const { gaugeMm, headWidthMm } = drawn
  const railMm = railOffsetMm(gaugeMm, headWidthMm)
  const along = (look: TemplateLine['look'], offsetMm: number): TemplateLine => ({
    look,
    points: sampleLine([part], offsetMm, LINE_ERROR_MM).points,
  })
  const rails = [railMm, -railMm].flatMap((offsetMm) => [
    along('rail', offsetMm),
    along('face', offsetMm + headWidthMm / 2),
    along('face', offsetMm - headWidthMm / 2),
  ])
  const marks = marksOf(part, railMm, lengthsIn)
  return {
    title: name,
    facts: `${factsOf(part, railMm, lengthsIn)} Thick lines are the middle of the heads, thin ones their sides${part.lengthMm < element.lengthMm ? `; the first ${lengthText(part.lengthMm, lengthsIn)} of ${lengthText(element.lengthMm, lengthsIn)}, as no piece is longer` : ''}.`,
    lines: [...rails, along('centre', 0), ...marks.lines],
    labels: marks.labels,
  }
}

/** The beginning of an element as if it lay on its own, its two ends as level as its turn allows. */
function levelled(element: PlacedElement, lengthMm: number): PlacedElement {
  const { startCurvature, endCurvature } = element
  const last = startCurvature + ((endCurvature - startCurvature) * lengthMm) / element.lengthMm
  const turnedRad = ((startCurvature + last) / 2) * lengthMm
  const start: Pose = { xMm: 0, yMm: 0, headingRad: -turnedRad / 2 }
  const end = poseAlong(start, startCurvature, last, lengthMm, lengthMm)
  return { ...element, fromMm: 0, toMm: lengthMm, lengthMm, endCurvature: last, turnedRad, start, end }
}

function factsOf(
  { startCurvature: from, endCurvature: to, turnedRad }: PlacedElement,
  railMm: number,
  lengthsIn: LengthsIn,
): string {
  const radius = (curvature: number, offsetMm: number) =>
    Math.abs(curvature) < 1e-12 ? 'straight' : `R ${radiusText(Math.abs(1 / curvature) + offsetMm, lengthsIn)}`
  if (from === to)
    return `Outer rail ${radius(from, railMm)}, inner rail ${radius(from, -railMm)}, over ${formatDegrees(Math.abs(toDegrees(turnedRad)))}.`
  return `Centre line ${radius(from, 0)} to ${radius(to, 0)}.`
}

/** Strokes across the track at both ends and at round distances between, each with its distance. */
function marksOf(
  part: PlacedElement,
  railMm: number,
  lengthsIn: LengthsIn,
): { lines: TemplateLine[]; labels: TemplateLabel[] } {
  const stepMm = MARKS_MM[lengthsIn === 'feet' ? 'feet' : 'metric']
  const count = Math.ceil(part.lengthMm / stepMm - 1e-6)
  const places = [...Array.from({ length: count }, (_, index) => index * stepMm), part.lengthMm]
  const poses = places.map((mm) => poseAlong(part.start, part.startCurvature, part.endCurvature, part.lengthMm, mm))
  const isEnd = (index: number) => index === 0 || index === places.length - 1
  return {
    lines: poses.map((pose, index): TemplateLine => {
      const reachMm = isEnd(index) ? railMm * 1.5 : 5
      return { look: 'mark', points: [beside(pose, reachMm), beside(pose, -reachMm)] }
    }),
    labels: poses.flatMap((pose, index) =>
      isEnd(index) ? [] : [{ at: beside(pose, -9), text: markText(places[index]!, lengthsIn) }],
    ),
  }
}

function markText(mm: number, lengthsIn: LengthsIn): string {
  return lengthsIn === 'feet' ? lengthText(mm, 'feet') : String(Math.round(mm))
}
