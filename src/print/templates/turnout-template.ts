import { type LengthsIn, lengthText } from '../../page/show-length.ts'
import { placeShapes } from '../../track/place.ts'
import { railOffsetMm } from '../../track/rails.ts'
import { sampleLine } from '../../track/sample.ts'
import { offsetAt } from '../../track/turnout/offsets.ts'
import { turnoutShape } from '../../track/turnout/special-track.ts'
import type { Leg, TurnoutGeometry } from '../../track/turnout/types.ts'
import type { PlacedElement } from '../../track/types.ts'
import { LINE_ERROR_MM, type Template, type TemplateLine } from './template.ts'

/** A tie reaches this far beyond the outer rails, as a part of the gauge: as on the drawing of the page. */
const TIE_REACH = 0.375

interface TurnoutToPrint {
  readonly name: string
  readonly geometry: TurnoutGeometry
  readonly gaugeMm: number
  readonly headWidthMm: number
  readonly tieSpacingMm: number
  readonly lengthsIn: LengthsIn
}

/** A turnout from its points: both legs with their rails, and the middle of each tie, square to the line through the points. */
export function turnoutTemplate(turnout: TurnoutToPrint): Template {
  const { name, geometry, gaugeMm, headWidthMm, tieSpacingMm, lengthsIn } = turnout
  const railMm = railOffsetMm(gaugeMm, headWidthMm)
  const legs = (['through', 'diverging'] as const).map((leaves) => placedLeg(geometry, leaves))
  const rails = legs.flatMap((leg) => [
    ...[railMm, -railMm].map((offsetMm): TemplateLine => lineAlong('rail', leg, offsetMm)),
    ...[gaugeMm / 2, -gaugeMm / 2].map((offsetMm): TemplateLine => lineAlong('face', leg, offsetMm)),
    lineAlong('centre', leg, 0),
  ])
  const { frog, leadMm } = geometry
  const frogMark: TemplateLine[] = [
    {
      look: 'mark',
      points: [
        { xMm: frog.xMm - 6, yMm: frog.yMm },
        { xMm: frog.xMm + 6, yMm: frog.yMm },
      ],
    },
    {
      look: 'mark',
      points: [
        { xMm: frog.xMm, yMm: frog.yMm - 6 },
        { xMm: frog.xMm, yMm: frog.yMm + 6 },
      ],
    },
  ]
  const points: TemplateLine = {
    look: 'cut',
    points: [
      { xMm: 0, yMm: -railMm * 1.6 },
      { xMm: 0, yMm: railMm * 1.6 },
    ],
  }
  return {
    title: `Turnout ${name}`,
    facts: `From the points, left, to the theoretical point of the frog: ${lengthText(leadMm, lengthsIn)}. Thick lines are the middle of the heads, thin ones the gauge sides. Ties: the middle of each, ${lengthText(tieSpacingMm, lengthsIn)} apart; how long they are is yours to choose.`,
    lines: [...rails, points, ...frogMark, ...tieLines(turnout, railMm)],
    labels: [
      { at: { xMm: 2, yMm: railMm * 1.6 }, text: 'Points' },
      { at: { xMm: frog.xMm + 7, yMm: frog.yMm + 2 }, text: 'Frog' },
    ],
  }
}

function placedLeg(geometry: TurnoutGeometry, leaves: 'through' | 'diverging'): PlacedElement[] {
  const shape = turnoutShape(geometry, { enters: 'points', leaves })
  return placeShapes({ xMm: 0, yMm: 0, headingRad: 0 }, [{ kind: 'turnout', label: null, ...shape }])
}

function lineAlong(look: TemplateLine['look'], leg: readonly PlacedElement[], offsetMm: number): TemplateLine {
  return { look, points: sampleLine(leg, offsetMm, LINE_ERROR_MM).points }
}

/** Under both legs, as far as the shorter one goes. */
function tieLines({ geometry, gaugeMm, tieSpacingMm }: TurnoutToPrint, railMm: number): TemplateLine[] {
  const { through, diverging } = geometry.legs
  const endMm = Math.min(through.end.xMm, diverging.end.xMm)
  const count = Math.floor(endMm / tieSpacingMm + 1e-6) + 1
  const reachMm = railMm + gaugeMm * TIE_REACH
  const offset = (leg: Leg, atMm: number) => offsetAt(leg, atMm).offsetMm
  return Array.from({ length: count }, (_, index): TemplateLine => {
    const xMm = Math.min(index * tieSpacingMm, endMm)
    const sides = [offset(through, xMm), offset(diverging, xMm)]
    return {
      look: 'tie',
      points: [
        { xMm, yMm: Math.min(...sides) - reachMm },
        { xMm, yMm: Math.max(...sides) + reachMm },
      ],
    }
  })
}
