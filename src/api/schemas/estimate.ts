import { z } from '@hono/zod-openapi'
import type * as answer from '../../estimate/answer.ts'
import type { Assumption } from '../../plan/fields/complete.ts'
import { BillSchema, PowerAnswerSchema, RoadbedAnswerSchema } from './bill.ts'
import { BendSchema, CalibrationSchema, EasementFormingSchema } from './forming.ts'
import { ExpansionSchema, JointSchema } from './joints-answer.ts'
import { ReadyMadeSchema } from './ready-made.ts'
import type { Same } from './same-type.ts'
import { SectionPropertiesSchema } from './section-properties.ts'

/*
 * The answer to a plan as the OpenAPI document shows it. The program answers its own `Estimate` as it stands; the last
 * line of this file does not compile when the two differ.
 */

const number = z.number()
const count = z.int().min(0)
const Side = z.enum(['left', 'right'])
const said = (description: string) => ({ description })

const PoseSchema = z
  .object({ xMm: number, yMm: number, headingDeg: number.openapi(said('Counter-clockwise from +x, in [0, 360).')) })
  .openapi('PoseAnswer')

const PlaceSchema = z
  .object({ xMm: number, yMm: number, headingDeg: number, elevationMm: number })
  .openapi('PlaceAnswer', said('A pose with its elevation.'))

const RailOfElementSchema = z
  .object({
    lengthMm: number.openapi(said('As laid, grade included.')),
    radiusMm: number.nullable().openapi(said("Of the rail's own line; null unless an arc.")),
  })
  .openapi('RailOfElement')

const ElementAnswerSchema = z
  .object({
    index: count,
    kind: z.enum(['tangent', 'easement', 'arc']),
    label: z.string().nullable(),
    fromMm: number.openapi(said('Station of its start, horizontal.')),
    toMm: number,
    lengthMm: number,
    radiusMm: number.nullable().openapi(said('Of the centre line; null on tangents and easements.')),
    startRadiusMm: number.nullable().optional().openapi(said('Easements only; null where it is straight.')),
    endRadiusMm: number.nullable().optional().openapi(said('Easements only; null where it is straight.')),
    angleDeg: number.openapi(said("An arc's own angle, > 0; an easement's turn, left positive; 0 on a tangent.")),
    turn: Side.nullable(),
    rails: z.object({ left: RailOfElementSchema, right: RailOfElementSchema }),
    start: PoseSchema,
    end: PoseSchema,
  })
  .openapi('ElementAnswer')

const LaidRailSchema = z.object({ lengthMm: number })

const TrackAnswerSchema = z
  .object({
    name: z.string(),
    label: z.string().nullable(),
    state: z
      .enum(['new', 'existing', 'lifted'])
      .openapi(said('Track that is not new has no ties and joints here, and is not cut, bent or bought.')),
    lengthMm: number.openapi(said('Of the centre line, horizontal.')),
    turnedDeg: number.openapi(said('Signed, left positive, not reduced: a turn and an eighth is 405.')),
    rails: z.object({ left: LaidRailSchema, right: LaidRailSchema }),
    start: PlaceSchema,
    end: PlaceSchema,
    closure: z
      .object({ gapMm: number, headingDeg: number, elevationMm: number })
      .nullable()
      .openapi(said('For a closed track, how far its end misses its start.')),
    grades: z.array(z.object({ fromMm: number, toMm: number, gradePct: number })),
    ties: count,
    tieSpacingMm: number,
    jointTies: count.openapi(said('Added beside joints, where supplies.ties.jointTies asks for it; not among ties.')),
    joints: count,
    elements: z.array(ElementAnswerSchema),
  })
  .openapi('TrackAnswer')

const BendMarkSchema = z
  .object({
    fromMm: number,
    toMm: number,
    radiusMm: number.nullable().openapi(said('Null along an easement.')),
    startRadiusMm: number.nullable().optional(),
    endRadiusMm: number.nullable().optional(),
    turn: Side,
  })
  .openapi('BendMark', said("Where on a piece a bend begins and ends, from the piece's own start."))

const CutStickSchema = z
  .object({
    lengthMm: number,
    fromStock: z.boolean(),
    kerfMm: number,
    trimMm: number.openapi(said('Cut off bent pieces. Stick = pieces + trim + kerf + offcut.')),
    offcutMm: number,
    pieces: z.array(
      z
        .object({
          track: z.string(),
          rail: Side,
          fromMm: number.openapi(said('Along that rail from its own start.')),
          lengthMm: number.openapi(said('As it is laid; it is sawn longer by its trim.')),
          trimMm: number.openapi(
            said('Cut off this piece once it is bent; those of the pieces of a stick add up to its trimMm.'),
          ),
          bends: z.array(BendMarkSchema),
        })
        .openapi('CutPiece'),
    ),
  })
  .openapi('CutStick')

const amount = z.string().regex(/^\d+\.\d\d$/)

const CuttingSchema = z
  .object({
    sticks: z.array(CutStickSchema),
    sticksUsed: count,
    sticksLowerBound: count.openapi(said('No plan can use fewer.')),
    wasteMm: number,
    reusableMm: number,
    cost: amount
      .nullable()
      .openapi(
        said('What the sticks and joiners bought for it cost, in whole packs; null where sticks to buy have no price.'),
      ),
    costLowerBound: amount.nullable().openapi(said('No cut plan of these rails costs less.')),
    provenOptimal: z
      .boolean()
      .openapi(said('No cut plan is cheaper; where sticks have no price, none buys less rail.')),
  })
  .openapi('Cutting')

export const FindingSchema = z
  .object({
    rule: z.string().openapi(said('One of those listed at /docs/problems.')),
    severity: z.enum(['stop', 'warn', 'note']).openapi(said('stop: cannot be built as drawn.')),
    track: z.string().nullable().openapi(said('Null: the whole plan.')),
    element: count.nullable().openapi(said('Null: the whole track.')),
    message: z.string(),
    measured: number.nullable(),
    limit: number.nullable(),
    unit: z.string().nullable(),
    cure: z.string(),
  })
  .openapi('Finding')

export const AssumptionSchema = z
  .object({ field: z.string(), value: z.string(), reason: z.string() })
  .openapi('Assumption', said('A default that was used, and why.'))

export const EstimateSchema = z
  .object({
    title: z.string().nullable(),
    rail: z
      .object({
        section: z.string(),
        material: z.string(),
        temper: z.string().nullable(),
        massPerMetreKg: number.nullable().openapi(said('Null for a metal given without its density.')),
        lengthMm: number,
        massKg: number.nullable(),
        sectionProperties: SectionPropertiesSchema,
      })
      .openapi('RailSummary', said('The rail of all tracks together.')),
    tracks: z.array(TrackAnswerSchema),
    bends: z.array(BendSchema),
    easements: z.array(EasementFormingSchema),
    calibration: CalibrationSchema.nullable(),
    cutting: CuttingSchema,
    readyMade: ReadyMadeSchema.nullable().openapi(said('Null where the plan lists no ready-made track.')),
    joints: z.array(JointSchema).openapi(said('Every joint, by track, station and rail.')),
    expansion: ExpansionSchema.nullable().openapi(said('Null where the plan says nothing of the weather.')),
    bill: BillSchema,
    roadbed: RoadbedAnswerSchema.nullable().openapi(said('Null where the plan asks for none.')),
    power: PowerAnswerSchema.nullable().openapi(
      said('Null where no current comes from the rails, or the metal is not known well enough.'),
    ),
    findings: z.array(FindingSchema),
    assumptions: z.array(AssumptionSchema),
    cautions: z.array(z.string()),
  })
  .openapi('Estimate')

true satisfies Same<z.output<typeof EstimateSchema>, answer.Estimate>
true satisfies Same<z.output<typeof AssumptionSchema>, Assumption>
