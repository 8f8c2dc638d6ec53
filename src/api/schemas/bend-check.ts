import { z } from '@hono/zod-openapi'
import type { BendCheck } from '../../bending/bend-check/types.ts'
import { AssumptionSchema } from './estimate.ts'
import type { Mutable, Same } from './same-type.ts'

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
    rule: z.string().openapi(said('One of those listed at /docs/problems.')),
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
