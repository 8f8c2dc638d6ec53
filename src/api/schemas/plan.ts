import { z } from '@hono/zod-openapi'
import { DEFAULTS } from '../../estimate/complete-plan.ts'
import { formatMm } from '../../measure/length.ts'
import { fields } from './fields.ts'
import { BreakSchema, ClimateSchema, JointsSchema, KeepOutSchema } from './joints.ts'
import type { FaultParams } from './leaf.ts'
import {
  Angle,
  ClosureGap,
  ClosureHeading,
  Coordinate,
  Currency,
  Diameter,
  EffortName,
  FastenersPerTie,
  Flag,
  Gauge,
  Heading,
  Kerf,
  Label,
  Length,
  LengthOrZero,
  MaximumGradePct,
  MinimumPiece,
  OnHand,
  PackSize,
  Price,
  Resolution,
  TieSpacing,
  Title,
  TrackName,
  Turn,
} from './plan-fields.ts'
import { BenderSchema, Rail } from './rail.ts'

/** The sizes a plan may have. Beyond them it is refused before anything in it is looked at. */
export const LIMITS = {
  tracks: 200,
  /** Of all tracks together. */
  elements: 5_000,
  /** Of one track. */
  gradePoints: 2_000,
  /** Of all tracks together. */
  breaks: 1_000,
  keepOut: 100,
  /** Lengths rail is sold in. */
  stickLengths: 20,
  /** Of a cut plan alone. */
  runs: 500,
  /** Sticks the rails may take, counted as if all were of the shortest. */
  sticks: 25_000,
  /** Of one setting-out. */
  pegs: 25_000,
  chords: 20,
} as const

const Tangent = fields({ kind: z.literal('tangent'), length: Length, label: Label.optional() }).openapi('Tangent', {
  description: 'A straight.',
})

const Easement = fields({ kind: z.literal('easement'), length: Length, label: Label.optional() }).openapi('Easement', {
  description:
    'A clothoid: its curvature runs linearly from that of the element before to that of the element after. Without a neighbour on one side it runs from or to straight.',
})

const Arc = fields({
  kind: z.literal('arc'),
  radius: Length.optional(),
  diameter: Diameter.optional(),
  angle: Angle.optional(),
  length: Length.optional(),
  turn: Turn,
  label: Label.optional(),
})
  .check(exactlyOneOf('radius', 'diameter'), exactlyOneOf('angle', 'length'))
  .openapi('Arc', {
    description:
      'A circular arc of the centre line: exactly one of radius and diameter, exactly one of angle and length.',
    allOf: [
      { oneOf: [requiring('radius'), requiring('diameter')] },
      { oneOf: [requiring('angle'), requiring('length')] },
    ],
  })

export const Element = z
  .discriminatedUnion('kind', [Tangent, Easement, Arc])
  .openapi('Element', { description: 'One element of a track, in the order it is met.' })

export const GradePoint = fields({ at: LengthOrZero, elevation: Coordinate }).openapi('GradePoint', {
  description: "The track's height at a station; between points the grade is straight.",
})

const Start = fields({
  x: Coordinate.optional(),
  y: Coordinate.optional(),
  heading: Heading.optional(),
  elevation: Coordinate.optional(),
}).openapi('Start', { description: 'Where on the sheet a track begins, and which way it sets out.' })

const JoinsExisting = fields({ start: Flag.optional(), end: Flag.optional() }).openapi('JoinsExisting', {
  description: 'Which ends join track that is already laid.',
})

export const Track = fields({
  name: TrackName,
  label: Label.optional(),
  start: Start.optional(),
  closed: Flag.optional(),
  joinsExisting: JoinsExisting.optional(),
  gradeLine: z.array(GradePoint).max(LIMITS.gradePoints).optional(),
  breaks: z.array(BreakSchema).max(LIMITS.breaks).optional(),
  keepOut: z.array(KeepOutSchema).max(LIMITS.keepOut).optional(),
  elements: z.array(Element).min(1).max(LIMITS.elements),
}).openapi('Track', { description: 'A track: elements joined end to end.' })

const pack = { packSize: PackSize.optional(), pricePerPack: Price.optional(), onHand: OnHand.optional() }

const Pack = fields(pack).openapi('Pack', { description: 'A thing that is counted singly and sold in packs.' })

const Ties = fields({ ...pack, spacing: TieSpacing.optional(), fastenersPerTie: FastenersPerTie.optional() }).openapi(
  'Ties',
  { description: 'Ties, their spacing centre to centre, and what fastens the rails to them.' },
)

export const Stick = fields({
  length: Length,
  price: Price.optional(),
  packSize: PackSize.optional(),
  onHand: OnHand.optional(),
  buyable: Flag.optional(),
}).openapi('Stick', { description: 'A length rail is sold in. The price is that of one pack.' })

export const Supplies = fields({
  currency: Currency.optional(),
  sticks: z.array(Stick).min(1).max(LIMITS.stickLengths).optional(),
  joiners: Pack.optional(),
  ties: Ties.optional(),
  fasteners: Pack.optional(),
  insulatedJoiners: Pack.optional(),
  expansionJoints: Pack.optional(),
  kerf: Kerf.optional(),
  minimumPiece: MinimumPiece.optional(),
}).openapi('Supplies', { description: 'What can be bought, what lies in the shed, and how it is cut.' })

export const Standards = fields({
  minimumRadius: Length.optional(),
  maximumGradePct: MaximumGradePct.optional(),
  longestCar: Length.optional(),
  minimumTangentBetweenReverseCurves: LengthOrZero.optional(),
  closureGap: ClosureGap.optional(),
  closureHeading: ClosureHeading.optional(),
}).openapi('Standards', {
  description:
    'The rules of good track the plan is held against. Left out, the minimum radius is three times the longest car, and the straight between reverse curves as long as that car; without the car both stay unchecked.',
})

export const PlanSchema = fields({
  title: Title.optional(),
  gauge: Gauge.optional(),
  rail: Rail,
  tracks: z.array(Track).min(1).max(LIMITS.tracks),
  supplies: Supplies.optional(),
  standards: Standards.optional(),
  bender: BenderSchema.optional(),
  climate: ClimateSchema.optional(),
  joints: JointsSchema.optional(),
  effort: EffortName.optional(),
  resolution: Resolution.optional(),
  chords: z
    .array(Length)
    .max(LIMITS.chords)
    .optional()
    .openapi({
      description: `Chords to measure bends on; ${DEFAULTS.chordsMm.map((mm) => formatMm(mm)).join(' and ')} when left out.`,
    }),
}).openapi('Plan', {
  description: `A plan: rail, tracks, supplies and house rules. At most ${LIMITS.tracks} tracks, ${LIMITS.elements} elements in all, ${LIMITS.gradePoints} grade points a track, ${LIMITS.breaks} breaks in all, ${LIMITS.keepOut} stretches without joints a track, ${LIMITS.stickLengths} stick lengths, ${LIMITS.sticks} sticks and ${LIMITS.chords} chords.`,
})

/** JSON Schema of an object that has this field. */
export function requiring(name: string) {
  return { properties: { [name]: {} }, required: [name] }
}

/** Of two names for the same thing exactly one is given. Said also when the same object has other faults. */
export function exactlyOneOf(first: string, second: string, optional = false) {
  return z.superRefine(
    (value: unknown, context) => {
      if (typeof value !== 'object' || value === null) return
      const given = [first, second].filter((name) => (value as Record<string, unknown>)[name] !== undefined)
      if (given.length === 1 || (given.length === 0 && optional)) return
      const params: FaultParams =
        given.length === 0
          ? { fault: 'missing', hint: `give ${first} or ${second}`, oneOf: [first, second] }
          : { fault: 'contradictory', hint: `keep one of them` }
      const message =
        given.length === 0 ? `neither ${first} nor ${second} is given` : `both ${first} and ${second} are given`
      context.addIssue({ code: 'custom', path: [first], message, params: { ...params } })
    },
    { when: () => true },
  )
}

/** The same where neither need be given. */
export function atMostOneOf(first: string, second: string) {
  return exactlyOneOf(first, second, true)
}
