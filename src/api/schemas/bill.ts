import { z } from '@hono/zod-openapi'
import type * as answer from '../../estimate/answer.ts'
import { BILL_ITEMS, BILL_UNITS } from '../../estimate/answer.ts'
import type { Same } from './same-type.ts'

/*
 * What is bought, the bed it lies in and the current in it, as the OpenAPI document shows them. The last lines do not
 * compile when the program's own types differ.
 */

const number = z.number()
const count = z.int().min(0)
const quantity = z.number().min(0)
const said = (description: string) => ({ description })
const amount = z.string().regex(/^\d+\.\d\d$/)

const ReasonSchema = z
  .object({
    text: z.string(),
    track: z.string().nullable().openapi(said('Null: the whole plan.')),
    quantity: number.openapi(said('Under zero where it comes with something else, as ties with ready-made track do.')),
  })
  .openapi('Reason', said('A part of what is required, and where it comes from.'))

export const BillLineSchema = z
  .object({
    item: z.enum(BILL_ITEMS),
    description: z.string(),
    lengthMm: number.nullable(),
    unit: z
      .enum(BILL_UNITS)
      .openapi(said('What required, onHand, toBuy and packSize count in; only those in each are whole numbers.')),
    required: quantity.openapi(said('The quantities of the reasons and the spares together.')),
    onHand: quantity,
    toBuy: quantity,
    packSize: quantity,
    packs: count,
    unitPrice: amount.nullable().openapi(said('Of one pack.')),
    amount: amount.nullable(),
    reasons: z.array(ReasonSchema),
    sparePct: number,
    spares: quantity,
    massKg: number.nullable().openapi(said('Of the packs that are bought; null when unknown.')),
  })
  .openapi('BillLine')

/** What a bill says of all its lines together. */
export const billTotals = {
  currency: z.string(),
  total: amount.openapi(said('Of the priced lines.')),
  unpricedLines: count,
  net: amount.openapi(said('The total, as prices are without tax.')),
  taxRatePct: number.nullable().openapi(said('Null, and so are tax and gross, where the plan names no rate.')),
  tax: amount.nullable(),
  gross: amount.nullable(),
  massKg: number.openapi(said('Of what is bought, as far as it is known.')),
  linesWithoutMass: count.openapi(said('Lines with something to buy whose mass is not known.')),
}

export const BillSchema = z.object({ lines: z.array(BillLineSchema), ...billTotals }).openapi('Bill')

export const RoadbedAnswerSchema = z
  .object({
    kind: z.enum(['raised', 'trench']),
    filledTo: z.enum(['tie-top', 'tie-bottom']),
    section: z.object({ crownWidthMm: number, baseWidthMm: number, heightMm: number, areaMm2: number }),
    inPlaceL: number.openapi(said('Once it has settled, all tracks.')),
    tiesL: number.openapi(said('What the ties take up of the bed.')),
    shrinkagePct: number,
    volumeL: number.openapi(said('Loose, as it is brought.')),
    massKg: number,
    bags: count.nullable().openapi(said('Null where it is not sold in bags. Stock and spares are on the bill.')),
    tracks: z.array(z.object({ track: z.string(), inPlaceL: number, tiesL: number, volumeL: number })),
  })
  .openapi('RoadbedAnswer', said('Ballast: its cross-section, and how much of it.'))

const FeedAnswerSchema = z
  .object({
    track: z.string(),
    fromMm: number.openapi(said('Stations between which it is fed by itself.')),
    toMm: number,
    joints: count,
    loopOhm: number.openapi(said('Both rails from end to end, or once round, joints included.')),
    farEndDropV: number.openapi(
      said('With one feeder, at the start, and the train at the far end, or half-way round a closed track.'),
    ),
    farEndV: number,
    feeders: count.nullable().openapi(said('The fewest that keep the allowed drop; null where none can.')),
    spacingMm: number.nullable().openapi(said('Between feeders spread evenly; null with fewer than two.')),
    widestSpacingMm: number.nullable().openapi(said('I·(F/2 + r·S/4) = allowed drop, the train half-way between two.')),
    endMm: number.nullable().openapi(said('From either end of an open track to the nearest feeder.')),
    worstDropV: number.nullable().openapi(said('With these feeders, wherever the train stands.')),
  })
  .openapi('FeedAnswer', said('One stretch of track that is fed by itself.'))

export const PowerAnswerSchema = z
  .object({
    currentA: number,
    supplyVoltageV: number,
    allowedDropV: number,
    railOhmPerM: number.openapi(said('Of one rail; both count.')),
    jointResistanceOhm: number,
    feeder: z
      .object({ areaMm2: number, lengthMm: number, resistanceOhm: number, dropV: number })
      .nullable()
      .openapi(said('Resistance and drop there and back; null where the plan has no feeder.')),
    blocks: z.array(FeedAnswerSchema),
    feeders: count.nullable(),
    wireMm: number.nullable().openapi(said('Single wire, there and back, of all feeders.')),
  })
  .openapi('PowerAnswer', said('The rails as conductors: voltage at the far ends, and feeders.'))

true satisfies Same<z.output<typeof BillSchema>, answer.Bill>
true satisfies Same<z.output<typeof RoadbedAnswerSchema>, answer.RoadbedAnswer>
true satisfies Same<z.output<typeof PowerAnswerSchema>, answer.PowerAnswer>
