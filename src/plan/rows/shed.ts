import type { OpenItem } from '../fields/field.ts'
import { alsoCalled, count, length, list, nothing, number, radiusOrDiameter, shape, variants } from '../fields/kinds.ts'
import { LIMITS } from './limits.ts'
import { ofRailParts } from './parts.ts'
import { materialName, sectionId } from './rail.ts'
import { panelAngleSpec, tieCountSpec } from './supplies.ts'

/* What a client writes of the shed. Lengths and angles may be given as in a plan, or as the shed is answered. */

const lengthMm = length({
  component: 'StockedLengthMm',
  says: 'The same field as in the answer, so that an answer can be sent back',
})
const angleDeg = number({
  component: 'StockedAngleDeg',
  least: 1e-6,
  most: 360,
  unit: 'in degrees',
  says: 'The angle in degrees, named as in the answer, so that an answer can be sent back',
})

const rail = { section: sectionId, material: materialName }
const either = { ...length({ required: true, label: 'Length' }), aliases: { lengthMm: alsoCalled(lengthMm) } }

const lying = { required: true, least: 0, says: 'How many are in stock', label: 'Quantity' } as const
const counted = count({ ...lying, component: 'StockedCount', most: LIMITS.pieces })
const pieces = count({ ...lying, component: 'StockedSticks', most: LIMITS.stocked })

const STICK = shape(
  'StockedStickWritten',
  'Sticks of one length; offcuts are sticks too. Give exactly one of length and lengthMm.',
  {
    ...rail,
    length: either,
    count: pieces,
  },
)

const ties = count({
  component: 'StockedPanelTies',
  least: 0,
  most: 100_000,
  usual: 0,
  says: 'Ties on one piece',
  label: 'Ties on each',
})

const STRAIGHT = shape(
  'StockedStraightWritten',
  'Straight pieces of ready-made track. Give exactly one of length and lengthMm.',
  { ...rail, length: either, radiusMm: nothing, angleDeg: nothing, ties, count: pieces },
)

const radius = radiusOrDiameter({ required: true, label: 'or curve size', called: 'curve size' })

const CURVED = shape(
  'StockedCurveWritten',
  'Curved pieces of ready-made track. Give exactly one of radius, diameter and radiusMm, for the centre line, and exactly one of angle and angleDeg. If lengthMm is given, it must agree with them.',
  {
    ...rail,
    radius: { ...radius, aliases: { ...radius.aliases, radiusMm: alsoCalled(lengthMm) } },
    angle: { ...number({ ...panelAngleSpec, required: true }), aliases: { angleDeg: alsoCalled(angleDeg) } },
    lengthMm,
    ties,
    count: pieces,
  },
)

const OF_A_CURVE = ['radius', 'diameter', 'radiusMm', 'angle', 'angleDeg']

export const STOCKED_PANEL = variants(
  'StockedPanelWritten',
  [STRAIGHT, CURVED] as const,
  (value) => (OF_A_CURVE.some((name) => (value as Readonly<Record<string, unknown>> | null)?.[name] != null) ? 1 : 0),
  'Ready-made pieces of one size and number of ties; a part cut from a piece is a piece too.',
)

/** Of joiners and joints of each kind. */
export const STOCKED_PART = shape('StockedJoinerWritten', undefined, { ...rail, count: counted })

const TIE_STRIP = shape('StockedTieStripWritten', 'Moulded tie strips with the same number of ties.', {
  ties: count({ ...tieCountSpec, label: 'Ties per strip' }),
  count: counted,
})

const rows = { most: LIMITS.shedRows }
const loose = { ...counted, presence: 'optional' as const }

/** Everything that lies in the shed. */
export const STOCK = shape(
  'StockWritten',
  `The whole stock in the shed; there is none of what is left out. Rows of the same kind and size are added together. At most ${LIMITS.stocked} sticks and ${LIMITS.stocked} ready-made pieces in all.`,
  {
    sticks: list(STICK, { ...rows, label: 'Rail sticks, including offcuts' }),
    panels: list(STOCKED_PANEL, { ...rows, label: 'Ready-made track, including cut pieces' }),
    ...ofRailParts(() => list(STOCKED_PART, rows)),
    ties: { ...loose, label: 'Loose ties' },
    tieStrips: list(TIE_STRIP, { ...rows, label: 'Tie strips' }),
    fasteners: { ...loose, label: 'Fasteners' },
  },
)

export type StockedPanelWritten = OpenItem<typeof STOCKED_PANEL>
