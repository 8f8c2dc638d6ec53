import { z } from '@hono/zod-openapi'
import { formatMm } from '../../measure/length.ts'
import { alongArc, type StockedPanel } from '../../shed/stock.ts'
import { byShape, refTo } from './by-shape.ts'
import { fields } from './fields.ts'
import type { FaultParams } from './leaf.ts'
import { countLeaf, LENGTH, lengthLeaf, numberLeaf } from './measures.ts'
import { exactlyOneOf, requiring } from './one-of.ts'
import { Diameter, Length, MaterialName, SectionId } from './plan-fields.ts'
import { PanelAngle } from './ready-made.ts'

/* Ready-made track as it is written down in the shed: as in a plan, or as the shed is answered. */

export const LengthMm = lengthLeaf('StockedLengthMm', LENGTH, 'The same, as the shed is answered.')
const AngleDeg = numberLeaf(
  'StockedAngleDeg',
  { least: 1e-6, most: 360 },
  'in degrees',
  'The angle, as the shed is answered.',
)

/** Every one may end up in one estimate. */
export const MOST_PIECES = 5_000
export const PiecesCount = countLeaf('StockedSticks', { least: 0, most: MOST_PIECES }, 'How many of them lie there.')
const PanelTies = countLeaf(
  'StockedPanelTies',
  { least: 0, most: 100_000 },
  'Ties on one piece; 0, two rails alone, when left out.',
)

const kind = { section: SectionId, material: MaterialName }
const counted = { ties: PanelTies.optional(), count: PiecesCount }
const noCurve = z.null().optional()

const Straight = fields({
  ...kind,
  length: Length.optional(),
  lengthMm: LengthMm.optional(),
  radiusMm: noCurve,
  angleDeg: noCurve,
  ...counted,
})
  .check(exactlyOneOf('length', 'lengthMm'))
  .openapi('StockedStraightWritten', {
    description: 'Straight pieces of ready-made track. Exactly one of length and lengthMm.',
    oneOf: [requiring('length'), requiring('lengthMm')],
  })

const Curved = fields({
  ...kind,
  radius: Length.optional(),
  diameter: Diameter.optional(),
  radiusMm: LengthMm.optional(),
  angle: PanelAngle.optional(),
  angleDeg: AngleDeg.optional(),
  lengthMm: LengthMm.optional(),
  ...counted,
})
  .check(
    exactlyOneOf('radius', 'diameter', 'radiusMm'),
    exactlyOneOf('angle', 'angleDeg'),
    z.superRefine((value, context) => {
      const { radiusMm, angleDeg } = curveOf(value)
      const alongMm = alongArc(radiusMm, angleDeg)
      // Nothing to compare where one of them is missing.
      if (value.lengthMm === undefined || !(Math.abs(value.lengthMm - alongMm) > SAME_LENGTH_MM)) return
      const params: FaultParams = { fault: 'contradictory', hint: 'leave lengthMm of a curve out' }
      const message = `lengthMm is ${formatMm(value.lengthMm, 3)}, and radius and angle make ${formatMm(alongMm, 3)}`
      context.addIssue({ code: 'custom', path: ['lengthMm'], message, params: { ...params } })
    }),
  )
  .openapi('StockedCurveWritten', {
    description:
      'Curved pieces of ready-made track: exactly one of radius, diameter and radiusMm, of the centre line; exactly one of angle and angleDeg. A lengthMm has to agree with them.',
    allOf: [
      { oneOf: [requiring('radius'), requiring('diameter'), requiring('radiusMm')] },
      { oneOf: [requiring('angle'), requiring('angleDeg')] },
    ],
  })

const SAME_LENGTH_MM = 1e-3

type Straight = z.output<typeof Straight>
type Curved = z.output<typeof Curved>

function curveOf({ radius, diameter, radiusMm, angle, angleDeg }: Curved) {
  return { radiusMm: radius ?? radiusMm ?? diameter! / 2, angleDeg: (angle ?? angleDeg)! }
}

const OF_A_CURVE = ['radius', 'diameter', 'radiusMm', 'angle', 'angleDeg']

export const StockedPanelWritten = byShape<Straight | Curved>(
  'StockedPanelWritten',
  (value) => {
    const given = OF_A_CURVE.map((name) => (value as Readonly<Record<string, unknown>> | null)?.[name])
    return given.some((each) => each !== undefined && each !== null) ? Curved : Straight
  },
  {
    oneOf: [refTo('StockedStraightWritten'), refTo('StockedCurveWritten')],
    description: 'Ready-made pieces of one size, with so many ties or without; a part cut from one is a piece too.',
  },
)

/** Components that only a `$ref` names. */
export const STOCKED_PANEL_COMPONENTS = { StockedStraightWritten: Straight, StockedCurveWritten: Curved }

export function toStockedPanel(written: z.output<typeof StockedPanelWritten>): StockedPanel {
  const { section, material, ties = 0, count } = written
  return { section, material, ...sizeOf(written), ties, count }
}

function sizeOf(written: Straight | Curved) {
  if (isStraight(written)) return { lengthMm: (written.length ?? written.lengthMm)!, radiusMm: null, angleDeg: null }
  const { radiusMm, angleDeg } = curveOf(written)
  return { lengthMm: alongArc(radiusMm, angleDeg), radiusMm, angleDeg }
}

function isStraight(written: Straight | Curved): written is Straight {
  return !OF_A_CURVE.some((name) => (written as Readonly<Record<string, unknown>>)[name] != null)
}
