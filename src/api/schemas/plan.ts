import { z } from '@hono/zod-openapi'
import { DEFAULTS } from '../../estimate/complete-plan.ts'
import { formatMm } from '../../measure/length.ts'
import { fields } from './fields.ts'
import { BreakSchema, ClimateSchema, JointsSchema, KeepOutSchema } from './joints.ts'
import { bothOrNeither, exactlyOneOf, requiring } from './one-of.ts'
import {
  Angle,
  ClosureGap,
  ClosureHeading,
  Coordinate,
  Currency,
  Diameter,
  EffortName,
  Flag,
  Gauge,
  Heading,
  Kerf,
  Label,
  Length,
  LengthOrZero,
  MaterialName,
  MaximumGradePct,
  MinimumPiece,
  OnHand,
  PackSize,
  Price,
  Resolution,
  SectionId,
  Title,
  TrackName,
  TrackStateName,
  Turn,
} from './plan-fields.ts'
import { BenderSchema, Rail } from './rail.ts'
import { PanelSchema, ReadyMadeName } from './ready-made.ts'
import { ExtraSchema, Pack, PowerSchema, RoadbedSchema, TaxRatePct, Ties } from './way.ts'

export { atMostOneOf, exactlyOneOf, requiring } from './one-of.ts'

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
  /** Kinds of ready-made track. */
  panels: 40,
  /** Of a cut plan alone. */
  runs: 500,
  /** Sticks the rails may take, counted as if all were of the shortest. */
  sticks: 25_000,
  /** Of one setting-out. */
  pegs: 25_000,
  chords: 20,
  extras: 100,
  comparedMaterials: 8,
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

const TrackThere = fields({
  section: SectionId,
  material: MaterialName,
  radius: Length.optional(),
  turn: Turn.optional(),
})
  .check(bothOrNeither('radius', 'turn'))
  .openapi('TrackThere', {
    description:
      'The track that is joined: its rail, and its curve where the two meet (straight when left out), the turn as one goes along the new track from its start to its end. Another section takes a transition joiner on each rail.',
  })

/** True, false, or what is there. */
export const JoinedEnd = z.union([TrackThere, Flag]).openapi('JoinedEnd', {
  description: 'Whether this end joins track that is already laid, or what that track is.',
})

const JoinsExisting = fields({ start: JoinedEnd.optional(), end: JoinedEnd.optional() }).openapi('JoinsExisting', {
  description: 'Which ends join track that is already laid.',
})

export const Track = fields({
  name: TrackName,
  label: Label.optional(),
  start: Start.optional(),
  closed: Flag.optional(),
  state: TrackStateName.optional(),
  joinsExisting: JoinsExisting.optional(),
  gradeLine: z.array(GradePoint).max(LIMITS.gradePoints).optional(),
  breaks: z.array(BreakSchema).max(LIMITS.breaks).optional(),
  keepOut: z.array(KeepOutSchema).max(LIMITS.keepOut).optional(),
  elements: z.array(Element).min(1).max(LIMITS.elements),
}).openapi('Track', { description: 'A track: elements joined end to end.' })

export const Stick = fields({
  length: Length,
  price: Price.optional(),
  packSize: PackSize.optional(),
  onHand: OnHand.optional(),
  buyable: Flag.optional(),
}).openapi('Stick', { description: 'A length rail is sold in. The price is that of one pack.' })

export const Supplies = fields({
  currency: Currency.optional(),
  taxRatePct: TaxRatePct.optional(),
  sticks: z.array(Stick).min(1).max(LIMITS.stickLengths).optional(),
  panels: z.array(PanelSchema).max(LIMITS.panels).optional(),
  readyMade: ReadyMadeName.optional(),
  joiners: Pack.optional(),
  transitionJoiners: Pack.optional(),
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
  roadbed: RoadbedSchema.optional(),
  power: PowerSchema.optional(),
  extras: z.array(ExtraSchema).max(LIMITS.extras).optional(),
  chords: z
    .array(Length)
    .max(LIMITS.chords)
    .optional()
    .openapi({
      description: `Chords to measure bends on; ${DEFAULTS.chordsMm.map((mm) => formatMm(mm)).join(' and ')} when left out.`,
    }),
}).openapi('Plan', {
  description: `A plan: rail, tracks, supplies and house rules. At most ${LIMITS.tracks} tracks, ${LIMITS.elements} elements in all, ${LIMITS.gradePoints} grade points a track, ${LIMITS.breaks} breaks in all, ${LIMITS.keepOut} stretches without joints a track, ${LIMITS.stickLengths} stick lengths, ${LIMITS.panels} ready-made pieces, ${LIMITS.sticks} sticks, ${LIMITS.chords} chords and ${LIMITS.extras} extras.`,
})
