import type { z } from '@hono/zod-openapi'
import { DEFAULTS } from '../../estimate/complete-plan.ts'
import type { PanelInput } from '../../estimate/plan.ts'
import { byShape, has, refTo } from './by-shape.ts'
import { fields } from './fields.ts'
import { countLeaf, numberLeaf } from './measures.ts'
import { exactlyOneOf, requiring } from './one-of.ts'
import { Diameter, Flag, Length, OnHand, PackSize, Price } from './plan-fields.ts'
import { MassEachG } from './way.ts'
import { choiceLeaf, nameLeaf } from './words.ts'

/* Ready-made track: what of it can be had, and where it lies in the end. */

const READY_MADE = ['cheapest', 'always', 'never'] as const

export const ReadyMadeName = choiceLeaf(
  'ReadyMade',
  READY_MADE,
  'a choice',
  `Whether ready-made pieces take the place of loose rail: where the bill is lower, wherever one fits, or nowhere; ${DEFAULTS.readyMade} when left out.`,
)

export const PanelAngle = numberLeaf(
  'PanelAngle',
  { least: 1e-3, most: 360, hint: 'the angle one piece turns through' },
  'in degrees',
  'The angle one curved piece turns through, degrees.',
)

const common = {
  name: nameLeaf('PanelName', 100, 'How it is called, besides its measures.').optional(),
  ties: countLeaf(
    'PanelTies',
    { least: 0, most: 100_000 },
    'Ties that come with one piece; 0, two rails alone, when left out.',
  ).optional(),
  joiners: countLeaf(
    'PanelJoiners',
    { least: 0, most: 1_000 },
    'Joiners that come with one piece; 0 when left out.',
  ).optional(),
  price: Price.optional(),
  packSize: PackSize.optional(),
  onHand: OnHand.optional(),
  buyable: Flag.optional(),
  massEachG: MassEachG.optional(),
}

const StraightPanel = fields({ length: Length, ...common }).openapi('StraightPanel', {
  description: 'A straight piece of ready-made track, by its length.',
})

const CurvedPanel = fields({
  radius: Length.optional(),
  diameter: Diameter.optional(),
  angle: PanelAngle,
  ...common,
})
  .check(exactlyOneOf('radius', 'diameter'))
  .openapi('CurvedPanel', {
    description:
      'A curved piece of ready-made track: radius or diameter of its centre line, and its angle. It fits either turn.',
    oneOf: [requiring('radius'), requiring('diameter')],
  })

export const PanelSchema = byShape<z.output<typeof StraightPanel> | z.output<typeof CurvedPanel>>(
  'Panel',
  (value) => (has(value, 'radius', 'diameter', 'angle') ? CurvedPanel : StraightPanel),
  {
    oneOf: [refTo('StraightPanel'), refTo('CurvedPanel')],
    description:
      "Two rails of the plan's own rail as one piece, straight or of one radius, with ties or without; the price is that of one pack.",
  },
)

/** Components that only a `$ref` names. */
export const READY_MADE_COMPONENTS = { StraightPanel, CurvedPanel }

export function toPanel(panel: z.output<typeof PanelSchema>): PanelInput {
  const { name, ties, joiners, price, packSize, onHand, buyable, massEachG } = panel
  return {
    ...('angle' in panel
      ? { radius: panel.radius ?? panel.diameter! / 2, angle: panel.angle }
      : { length: panel.length }),
    name,
    ties,
    joiners,
    price,
    packSize,
    onHand,
    buyable,
    massEachG,
  }
}
