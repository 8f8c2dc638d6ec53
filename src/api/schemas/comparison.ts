import { z } from '@hono/zod-openapi'
import type { Comparison } from '../../estimate/questions/compare.ts'
import { AssumptionSchema } from './estimate.ts'
import { BendFormingSchema, BendSchema } from './forming.ts'
import type { Same } from './same-type.ts'

const number = z.number()
const count = z.int().min(0)
const index = count.nullable()
const amount = z.string().regex(/^\d+\.\d\d$/)
const said = (description: string) => ({ description })

const TightestBendSchema = BendSchema.pick({ track: true, element: true, rail: true, radiusMm: true })
  .extend(
    BendFormingSchema.pick({
      formingRadiusMm: true,
      band: true,
      overbendRatio: true,
      method: true,
      reason: true,
    }).shape,
  )
  .openapi('TightestBend', said('The sharpest bend of the plan, and how to form it.'))

const ComparedMaterialSchema = z
  .object({
    material: z.string(),
    temper: z.string().nullable(),
    cost: amount
      .nullable()
      .openapi(said('The total of the bill, without tax; null where something is to be bought that has no price.')),
    total: amount.openapi(said('Of the priced lines, as on the bill.')),
    unpricedLines: count.openapi(said('As on the bill, also where nothing of a line is to be bought.')),
    unpriced: z.array(z.string()).openapi(said('What is to be bought and has no price.')),
    railMassKg: number.nullable().openapi(said('Of all rail laid; null for a metal given without its density.')),
    billMassKg: number.openapi(said('Of what is bought, as far as it is known.')),
    linesWithoutMass: count.openapi(said('Lines with something to buy whose mass is not known.')),
    sticksUsed: count,
    forming: TightestBendSchema.nullable().openapi(said('Null in a plan without arcs.')),
    expansionPerMetreMm: number
      .nullable()
      .openapi(said('Of free rail from the coldest to the hottest; null without climate, or where it is unknown.')),
    dropV: number
      .nullable()
      .openapi(
        said('The greatest at a far end, fed from the start alone; null without power, or where it is unknown.'),
      ),
    findings: z.object({
      stop: count,
      warn: count,
      note: count,
      rules: z.array(z.string()).openapi(said('Each once.')),
    }),
  })
  .openapi('ComparedMaterial')

export const ComparisonSchema = z
  .object({
    currency: z.string(),
    materials: z.array(ComparedMaterialSchema).openapi(said('In the order they were asked for.')),
    least: z
      .object({ cost: index, mass: index.openapi(said('Of all rail laid.')), drop: index })
      .openapi(
        said(
          'Which of the materials has least of each, by index, the first where several do; those whose figure is null are left out.',
        ),
      ),
    assumptions: z.array(AssumptionSchema).openapi(said('Fields are pointers into the request.')),
  })
  .openapi('Comparison')

true satisfies Same<z.output<typeof ComparisonSchema>, Comparison>
