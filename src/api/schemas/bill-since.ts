import { z } from '@hono/zod-openapi'
import type { BillSince } from '../../shed/bill-since.ts'
import { BillLineSchema, billTotals } from './bill.ts'
import { FindingSchema } from './estimate.ts'
import type { Same } from './same-type.ts'

const revision = z.int().min(1)

const bill = {
  lines: z.array(
    BillLineSchema.extend({
      boughtBefore: z.number().min(0).openapi({ description: 'Pieces of the earlier bills; `onHand` counts them in.' }),
    }).openapi('LineSince'),
  ),
  ...billTotals,
  findings: z
    .array(FindingSchema)
    .openapi({ description: 'Where more is bought in all than at once, by more than a pack, and why.' }),
}

export const BillSinceSchema = z
  .object({
    revision: revision.openapi({ description: 'The present one, whose bill this is.' }),
    since: z.array(revision).openapi({ description: 'The revisions whose bills were counted as bought.' }),
    ...bill,
  })
  .openapi('BillSince')

const BillPart = z.object(bill)
true satisfies Same<z.output<typeof BillPart>, BillSince>
