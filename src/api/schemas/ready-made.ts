import { z } from '@hono/zod-openapi'
import type * as answer from '../../estimate/answer.ts'
import { DEFAULTS } from '../../estimate/complete-plan.ts'
import type { PanelInput } from '../../estimate/plan.ts'
import { byShape, has, refTo } from './by-shape.ts'
import { fields } from './fields.ts'
import { countLeaf, numberLeaf } from './measures.ts'
import { exactlyOneOf, requiring } from './one-of.ts'
import { Diameter, Flag, Length, OnHand, PackSize, Price } from './plan-fields.ts'
import type { Same } from './same-type.ts'
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

const number = z.number()
const count = z.int().min(0)
const amount = z.string().regex(/^\d+\.\d\d$/)
const said = (description: string) => ({ description })
const size = {
  lengthMm: number.openapi(said('Along the centre line.')),
  angleDeg: number.nullable().openapi(said('Null on a straight piece.')),
}

export const ReadyMadeSchema = z
  .object({
    choice: z.enum(READY_MADE),
    cost: amount
      .nullable()
      .openapi(said('Rail, pieces, joiners, ties and fasteners; null where something to buy has no price.')),
    looseCost: amount
      .nullable()
      .openapi(said('The same without ready-made pieces; null also where there is too little of it.')),
    stretches: z
      .array(
        z
          .object({
            track: z.string(),
            element: count,
            radiusMm: number.nullable(),
            fromMm: number.openapi(said('Stations.')),
            toMm: number,
            leftOpenMm: number.openapi(said('What whole pieces fall short of it, left open in its joints.')),
            pieces: z.array(
              z.object({
                panel: count.openapi(said('Its place in supplies.panels.')),
                fromMm: number.openapi(said('Stations.')),
                toMm: number,
                ...size,
                whole: z.boolean().openapi(said('Nothing is cut off it.')),
              }),
            ),
          })
          .openapi('CoveredStretch'),
      )
      .openapi(said('Elements, or parts of them between breaks, that are covered from end to end.')),
    panels: z
      .array(
        z
          .object({
            panel: count.openapi(said('Its place in supplies.panels.')),
            name: z.string(),
            lengthMm: number,
            fromStock: z.boolean(),
            kerfMm: number,
            offcutMm: number,
            pieces: z.array(z.object({ track: z.string(), element: count, ...size })),
          })
          .openapi('UsedPanel'),
      )
      .openapi(said('One for each that is used. Its length = pieces + kerf + offcut.')),
    loose: z
      .array(z.object({ track: z.string(), element: count, reason: z.string() }))
      .openapi(said('Elements that stay loose rail, and why.')),
  })
  .openapi('ReadyMadeTrack', said('Track that is made of ready-made pieces.'))

true satisfies Same<z.output<typeof ReadyMadeSchema>, answer.ReadyMadeAnswer>
