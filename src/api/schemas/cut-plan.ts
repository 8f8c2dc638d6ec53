import { z } from '@hono/zod-openapi'
import type { CutListPlan } from '../../laying/cutting/cut-list.ts'
import { moneyOf } from '../../measure/money.ts'
import type { Assumption } from '../../plan/fields/complete.ts'
import { AssumptionSchema } from './estimate.ts'

const number = z.number()
const count = z.int().min(0)
const money = z.string().regex(/^\d+\.\d\d$/)
const said = (description: string) => ({ description })

const PlannedStickSchema = z
  .object({
    lengthMm: number,
    fromStock: z.boolean(),
    kerfMm: number,
    offcutMm: number,
    pieces: z.array(
      z.object({
        run: count.openapi(said('The run it is for, counted from 0.')),
        fromMm: number.openapi(said('From the start of its run.')),
        lengthMm: number,
      }),
    ),
  })
  .openapi('PlannedStick', said('A stick as it is cut: the sum of its pieces + kerf + offcut.'))

export const CutPlanSchema = z
  .object({
    sticks: z.array(PlannedStickSchema),
    cost: money.openapi(said('Of the sticks and joiners that are bought, joiners singly.')),
    costLowerBound: money.openapi(said('No plan costs less.')),
    gap: money.openapi(said('By how much a plan may be cheaper at most: cost − costLowerBound.')),
    provenOptimal: z.boolean().openapi(said('No plan costs less than this one.')),
    joints: count,
    sticksUsed: count,
    sticksLowerBound: count.openapi(said('No plan takes fewer sticks.')),
    shortestPieceMm: number.openapi(said('Under the minimum only where nothing else can be made of a run.')),
    assumptions: z.array(AssumptionSchema),
  })
  .openapi('CutPlan')

/** A cut plan in the wire's words. */
export function cutPlanAnswer(plan: CutListPlan, assumptions: Assumption[]): z.output<typeof CutPlanSchema> {
  const { sticks, costCents, costLowerBoundCents, provenOptimal, joints, sticksLowerBound, shortestPieceMm } = plan
  return {
    sticks,
    cost: moneyOf(costCents),
    costLowerBound: moneyOf(costLowerBoundCents),
    gap: moneyOf(costCents - costLowerBoundCents),
    provenOptimal,
    joints,
    sticksUsed: sticks.length,
    sticksLowerBound,
    shortestPieceMm,
    assumptions,
  }
}
