import { z } from '@hono/zod-openapi'
import type { BendCheck } from '../../bending/bend-check/types.ts'
import { AssumptionSchema } from './estimate.ts'
import { fields } from './fields.ts'
import { accepted, leaf, type Read } from './leaf.ts'
import { COORDINATE, countLeaf, numberLeaf, readLength } from './measures.ts'
import { Coordinate, Diameter, Length, Resolution } from './plan-fields.ts'
import type { Mutable, Same } from './same-type.ts'

/** Readings of one check. */
export const MOST_READINGS = 500

const Reading = leaf(
  'Reading',
  (value): Read<number | null> => (value === null ? accepted(null) : readLength(value, COORDINATE)),
  {
    type: ['number', 'string', 'null'],
    maxLength: 60,
    description: 'An ordinate; null was not read, a negative one bends the other way. A number is millimetres.',
    example: 12.5,
  },
)
const StationIndex = countLeaf('StationIndex', { least: 0, most: MOST_READINGS - 1 }, 'A station, counted from 0.')
const Tolerance = numberLeaf(
  'TolerancePct',
  { least: 0, most: 100 },
  'in percent',
  'Of the target ordinate, percent; 5 when left out.',
)

export const BendCheckSchema = fields({
  chord: Length,
  readings: z.array(Reading).min(1).max(MOST_READINGS),
  radius: Length.optional(),
  diameter: Diameter.optional(),
  proposed: z.array(Coordinate).max(MOST_READINGS).optional(),
  spacing: Length.optional(),
  resolution: Resolution.optional(),
  tolerancePct: Tolerance.optional(),
  fixed: z.array(StationIndex).max(MOST_READINGS).optional(),
  maximumThrow: Length.optional(),
}).openapi('BendCheck', {
  description:
    'Ordinates read along a bent rail or a laid curve. With a radius or diameter (of the face the chord touches) each is held against it; without, the curve is lined.',
})

const number = z.number()
const said = (description: string) => ({ description })

const StationSchema = z
  .object({
    index: z.int().min(0),
    atMm: number,
    ordinateMm: number.nullable(),
    radiusMm: number
      .nullable()
      .openapi(said('Exactly from the reading; negative where it bends the other way, null where it is straight.')),
    radiusLowMm: number.nullable(),
    radiusHighMm: number.nullable(),
    targetOrdinateMm: number.nullable(),
    deviationMm: number.nullable(),
    verdict: z.enum(['bend-more', 'ease', 'good']).nullable(),
    runningSumMm: number.nullable(),
    throwMm: number.nullable().openapi(said('+ outward, away from the centre; null in a bench check.')),
  })
  .openapi('StationCheck')

const CheckFindingSchema = z
  .object({
    rule: z.string(),
    severity: z.enum(['stop', 'warn', 'note']),
    stations: z.array(z.int().min(0)).openapi(said('Empty: all of them.')),
    message: z.string(),
    measured: number.nullable(),
    limit: number.nullable(),
    unit: z.string().nullable(),
    cure: z.string(),
  })
  .openapi('BendCheckFinding')

export const BendCheckAnswerSchema = z
  .object({
    stations: z.array(StationSchema),
    bestFitRadiusMm: number.nullable(),
    turnedDeg: number.nullable(),
    largestThrowMm: number.nullable(),
    proposal: z
      .object({
        bodies: z.array(
          z.object({
            fromMm: number.nullable(),
            toMm: number.nullable(),
            ordinateMm: number,
            radiusMm: number.nullable(),
          }),
        ),
        runs: z.array(
          z.object({
            fromMm: number.nullable(),
            toMm: number.nullable(),
            fromOrdinateMm: number,
            toOrdinateMm: number,
          }),
        ),
      })
      .nullable()
      .openapi(said('The program’s own, where none was given: bodies of constant ordinate and the runs between them.')),
    findings: z.array(CheckFindingSchema),
    assumptions: z.array(AssumptionSchema),
  })
  .openapi('BendCheckAnswer')

true satisfies Same<z.output<typeof BendCheckAnswerSchema>, Mutable<BendCheck>>
