import { formatMm } from '../../measure/length.ts'
import type { TrackInput } from '../../plan/rows/track.ts'
import { beside, placeElements } from '../../track/place.ts'
import type { PlacedElement, Pose } from '../../track/types.ts'
import { arc, type Names, startAt, straight } from './elements.ts'
import { type FigureElement, type FigureFault, type FigureResult, ORIGIN, outOfRange, refused } from './figure.ts'
import { parallelEasement, worstError } from './parallel-easement.ts'

interface ParallelOf {
  readonly elements: TrackInput['elements']
  readonly spacingMm: number
  readonly names: Names
}

/**
 * The track beside another one, p to its left. The parallel of a straight is a straight and that of an arc of radius R one
 * of R ∓ p with the same centre: exactly. The parallel of an easement is no easement. Instead of it there is the easement
 * that leads from the parallel of its straight or arc before to that of the one behind, whose length is solved for; so only
 * within the easements is the distance not exactly p, and how far it is from that is answered.
 *
 * Checked in tests/fitting/figures/parallel.test.ts.
 */
export function parallel({ elements, spacingMm, names }: ParallelOf): FigureResult {
  const placed = placeElements(ORIGIN, elements, false)
  const faults = placed.flatMap((element) => tooTight(element, spacingMm))
  if (faults.length > 0) return refused(...faults)
  const joints = placed.map((each) => (each.kind === 'easement' ? parallelEasement(each, spacingMm) : null))
  const start = joints[0]?.start ?? beside(placed[0]!.start, spacingMm)
  const made = placed.map((each, index) => {
    const joint = joints[index]
    if (each.kind === 'easement')
      return joint ? { element: easement(joint.lengthMm), fault: null } : noEasement(each, spacingMm)
    const from = joints[index - 1]?.end ?? beside(each.start, spacingMm)
    const to = joints[index + 1]?.start ?? beside(each.end, spacingMm)
    return between(each, from, to, spacingMm)
  })
  const missing = made.flatMap(({ fault }) => fault ?? [])
  if (missing.length > 0) return refused(...missing)
  const laid = made.flatMap(({ element }) => element ?? [])
  const errorMm = worstError(placed, placeElements(start, laid, false), spacingMm)
  return {
    ok: true,
    tracks: [
      { name: names.track('main'), start: startAt(ORIGIN), elements },
      { name: names.track('parallel'), start: startAt(start), elements: laid },
    ],
    measures: [{ name: 'largest error of the spacing, in easements', valueMm: errorMm }],
  }
}

function tooTight({ index, kind, startCurvature, endCurvature }: PlacedElement, spacingMm: number): FigureFault[] {
  const curvature = Math.max(startCurvature, endCurvature)
  if (kind === 'easement' || curvature * spacingMm < 1) return []
  const radius = formatMm(1 / curvature)
  return [
    outOfRange(
      'spacing',
      `element ${index + 1} curves to this side with ${radius}: nothing is parallel to it ${formatMm(spacingMm)} inside`,
      `use less than ${radius}, or the other side`,
    ),
  ]
}

interface Made {
  readonly element: FigureElement | null
  readonly fault: FigureFault | null
}

function easement(lengthMm: number): FigureElement {
  return { kind: 'easement', length: lengthMm }
}

/** A straight or an arc from where the easement before it ends to where the one behind it begins. */
function between({ index, startCurvature }: PlacedElement, from: Pose, to: Pose, spacingMm: number): Made {
  const { headingRad } = from
  const alongMm = (to.xMm - from.xMm) * Math.cos(headingRad) + (to.yMm - from.yMm) * Math.sin(headingRad)
  const turnedRad = to.headingRad - headingRad
  const isAhead = startCurvature === 0 || turnedRad * startCurvature > 0
  const radiusMm = Math.abs(1 / startCurvature - spacingMm)
  const [element] = startCurvature === 0 ? straight(alongMm) : isAhead ? arc(radiusMm, turnedRad) : []
  if (element) return { element, fault: null }
  return {
    element: null,
    fault: outOfRange(
      'spacing',
      `nothing would be left of element ${index + 1} between its easements ${formatMm(spacingMm)} aside`,
      'use a smaller spacing, or make that element longer',
    ),
  }
}

function noEasement({ index }: PlacedElement, spacingMm: number): Made {
  return {
    element: null,
    fault: outOfRange(
      'spacing',
      `no easement leads from track to track beside element ${index + 1}, ${formatMm(spacingMm)} aside`,
      'use a smaller spacing, or the other side',
    ),
  }
}
