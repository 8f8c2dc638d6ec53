import { z } from '@hono/zod-openapi'
import type { Build, Reservation, Shed } from '../../projects/store.ts'
import type { Stock } from '../../shed/stock.ts'
import type { Mutable, Same } from './same-type.ts'

const count = z.int().min(0)
const rail = { section: z.string(), material: z.string() }
const joiner = z.object({ ...rail, count }).openapi('StockedJoiner')
const said = (description: string) => ({ description })

const stock = {
  sticks: z.array(z.object({ ...rail, lengthMm: z.number(), count }).openapi('StockedStick')),
  panels: z.array(
    z
      .object({
        ...rail,
        lengthMm: z.number().openapi(said('Along the centre line.')),
        radiusMm: z.number().nullable().openapi(said('Of the centre line; null on straight pieces.')),
        angleDeg: z.number().nullable(),
        ties: count.openapi(said('On one piece.')),
        count,
      })
      .openapi('StockedPanel'),
  ),
  joiners: z.array(joiner),
  insulatedJoiners: z.array(joiner),
  transitionJoiners: z.array(joiner).openapi(said('From this rail to another section.')),
  expansionJoints: z.array(joiner),
  ties: count,
  tieStrips: z.array(z.object({ ties: count.openapi(said('In one strip.')), count }).openapi('StockedTieStrip')),
  fasteners: count,
}

export const StockSchema = z.object(stock).openapi('Stock', {
  description:
    'By section, material and length, the longest first; offcuts are sticks, and ready-made pieces where they are of such.',
})

const moment = z.iso.datetime().openapi({ description: 'RFC 3339, UTC.' })
const revision = z.int().min(1)

export const ShedSchema = z
  .object({ revision: revision.openapi({ description: 'One more with each change.' }), updatedAt: moment, ...stock })
  .openapi('Shed')

export type ShedAnswer = z.output<typeof ShedSchema>

export function shedAnswer({ revision, updatedAt, stock }: Shed): ShedAnswer {
  return { revision, updatedAt, ...(stock as Mutable<Stock>) }
}

export const ReservationsSchema = z
  .object({
    items: z.array(z.object({ project: z.uuid(), name: z.string(), stock: StockSchema }).openapi('Reservation')),
  })
  .openapi('Reservations')

export const BuildSchema = z
  .object({
    revision,
    builtAt: moment,
    taken: StockSchema.openapi({ description: 'What left the shed.' }),
    returned: StockSchema.openapi({ description: 'Offcuts and what was over of packs: it lies in the shed now.' }),
  })
  .openapi('Build')

export const BuildsSchema = z.object({ items: z.array(BuildSchema) }).openapi('Builds')

true satisfies Same<z.output<typeof StockSchema>, Mutable<Stock>>
true satisfies Same<z.output<typeof BuildSchema>, Mutable<Build>>
true satisfies Same<z.output<typeof ReservationsSchema>['items'][number], Mutable<Reservation>>
