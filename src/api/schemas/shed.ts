import { z } from '@hono/zod-openapi'
import { MATERIAL_SPELLINGS } from '../../catalogue/materials.ts'
import { type Stock, tidy } from '../../estimate/shed/stock.ts'
import type { Fault } from '../../measure/fault.ts'
import type { Build, Reservation, Shed } from '../../projects/store.ts'
import { fields } from './fields.ts'
import { faultsOf } from './issues.ts'
import { countLeaf, LENGTH, lengthLeaf } from './measures.ts'
import { exactlyOneOf, requiring } from './plan.ts'
import { Length, MaterialName, SectionId } from './plan-fields.ts'
import type { Mutable, Same } from './same-type.ts'

export const SHED_LIMITS = {
  /** Kinds of sticks, and kinds of joiners. */
  rows: 500,
  /** Of all kinds together: every one may end up in one estimate. */
  sticks: 5_000,
  counted: 1_000_000,
} as const

const SticksCount = countLeaf('StockedSticks', { least: 0, most: SHED_LIMITS.sticks }, 'How many of them lie there.')
const Count = countLeaf('StockedCount', { least: 0, most: SHED_LIMITS.counted }, 'How many of them lie there.')
const LengthMm = lengthLeaf('StockedLengthMm', LENGTH, 'The same, as the shed is answered.')

const StockedStickWritten = fields({
  section: SectionId,
  material: MaterialName,
  length: Length.optional(),
  lengthMm: LengthMm.optional(),
  count: SticksCount,
})
  .check(exactlyOneOf('length', 'lengthMm'))
  .openapi('StockedStickWritten', {
    description: 'Sticks of one length; an offcut is a stick. Exactly one of length and lengthMm.',
    oneOf: [requiring('length'), requiring('lengthMm')],
  })

const StockedJoinerWritten = fields({ section: SectionId, material: MaterialName, count: Count }).openapi(
  'StockedJoinerWritten',
)

/** What a client writes. */
export const StockWrittenSchema = fields({
  sticks: z.array(StockedStickWritten).max(SHED_LIMITS.rows).optional(),
  joiners: z.array(StockedJoinerWritten).max(SHED_LIMITS.rows).optional(),
  ties: Count.optional(),
  fasteners: Count.optional(),
}).openapi('StockWritten', {
  description: `Everything that lies in the shed; what is left out is not there. Rows of the same kind and length are added up. At most ${SHED_LIMITS.sticks} sticks in all.`,
})

export type ReadStock = { readonly ok: true; readonly stock: Stock } | { readonly ok: false; readonly faults: Fault[] }

export function readStock(raw: unknown): ReadStock {
  const parsed = StockWrittenSchema.safeParse(raw)
  if (!parsed.success) return { ok: false, faults: faultsOf(parsed.error.issues, raw) }
  const { sticks = [], joiners = [], ties = 0, fasteners = 0 } = parsed.data
  const count = sticks.reduce((sum, stick) => sum + stick.count, 0)
  if (count > SHED_LIMITS.sticks)
    return {
      ok: false,
      faults: [
        {
          path: ['sticks'],
          code: 'too-many',
          detail: `${count} sticks in all; ${SHED_LIMITS.sticks} is the most`,
          hint: 'leave out the shortest offcuts',
        },
      ],
    }
  const stock = tidy({
    sticks: sticks.map(({ section, material, length, lengthMm, count }) => ({
      section,
      material: plainMaterial(material),
      lengthMm: (length ?? lengthMm)!,
      count,
    })),
    joiners: joiners.map((row) => ({ ...row, material: plainMaterial(row.material) })),
    ties,
    fasteners,
  })
  return { ok: true, stock }
}

function plainMaterial(name: string): string {
  return MATERIAL_SPELLINGS[name] ?? name
}

const count = z.int().min(0)
const rail = { section: z.string(), material: z.string() }

const stock = {
  sticks: z.array(z.object({ ...rail, lengthMm: z.number(), count }).openapi('StockedStick')),
  joiners: z.array(z.object({ ...rail, count }).openapi('StockedJoiner')),
  ties: count,
  fasteners: count,
}

export const StockSchema = z
  .object(stock)
  .openapi('Stock', { description: 'By section, material and length, the longest first; offcuts are sticks.' })

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
