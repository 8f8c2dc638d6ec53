import { z } from '@hono/zod-openapi'
import type * as answer from '../../estimate/answer.ts'
import type { Same } from './same-type.ts'

const READY_MADE = ['cheapest', 'always', 'never'] as const

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
