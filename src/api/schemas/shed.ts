import { z } from '@hono/zod-openapi'
import { MATERIAL_SPELLINGS } from '../../catalogue/materials.ts'
import type { Fault } from '../../measure/fault.ts'
import { type Stock, tidy } from '../../shed/stock.ts'
import { fields } from './fields.ts'
import { faultsOf } from './issues.ts'
import { countLeaf } from './measures.ts'
import { exactlyOneOf, requiring } from './one-of.ts'
import { Length, MaterialName, SectionId } from './plan-fields.ts'
import { LengthMm, MOST_PIECES, PiecesCount, StockedPanelWritten, toStockedPanel } from './stocked-panel.ts'
import { TieCount } from './way.ts'

export const SHED_LIMITS = {
  /** Of each table. */
  rows: 500,
  /** Sticks of all kinds together, and ready-made pieces. */
  pieces: MOST_PIECES,
  counted: 1_000_000,
} as const

const Count = countLeaf('StockedCount', { least: 0, most: SHED_LIMITS.counted }, 'How many of them lie there.')

const StockedStickWritten = fields({
  section: SectionId,
  material: MaterialName,
  length: Length.optional(),
  lengthMm: LengthMm.optional(),
  count: PiecesCount,
})
  .check(exactlyOneOf('length', 'lengthMm'))
  .openapi('StockedStickWritten', {
    description: 'Sticks of one length; an offcut is a stick. Exactly one of length and lengthMm.',
    oneOf: [requiring('length'), requiring('lengthMm')],
  })

const StockedJoinerWritten = fields({ section: SectionId, material: MaterialName, count: Count }).openapi(
  'StockedJoinerWritten',
)
const StockedTieStripWritten = fields({ ties: TieCount, count: Count }).openapi('StockedTieStripWritten', {
  description: 'Moulded strips, by the ties in one.',
})

const rows = <Row extends z.ZodType>(row: Row) => z.array(row).max(SHED_LIMITS.rows).optional()

/** What a client writes. */
export const StockWrittenSchema = fields({
  sticks: rows(StockedStickWritten),
  panels: rows(StockedPanelWritten),
  joiners: rows(StockedJoinerWritten),
  insulatedJoiners: rows(StockedJoinerWritten),
  transitionJoiners: rows(StockedJoinerWritten),
  expansionJoints: rows(StockedJoinerWritten),
  ties: Count.optional(),
  tieStrips: rows(StockedTieStripWritten),
  fasteners: Count.optional(),
}).openapi('StockWritten', {
  description: `Everything that lies in the shed; what is left out is not there. Rows of the same kind and size are added up. At most ${SHED_LIMITS.pieces} sticks and as many ready-made pieces in all.`,
})

export type ReadStock = { readonly ok: true; readonly stock: Stock } | { readonly ok: false; readonly faults: Fault[] }

export function readStock(raw: unknown): ReadStock {
  const parsed = StockWrittenSchema.safeParse(raw)
  if (!parsed.success) return { ok: false, faults: faultsOf(parsed.error.issues, raw) }
  const { sticks = [], panels = [], tieStrips = [], ties = 0, fasteners = 0, ...parts } = parsed.data
  const faults = [
    ...tooMany('sticks', sticks, 'sticks', 'the shortest offcuts'),
    ...tooMany('panels', panels, 'ready-made pieces', 'the shortest ones'),
  ]
  if (faults.length > 0) return { ok: false, faults }
  const stock = tidy({
    sticks: plainly(sticks).map(({ section, material, length, lengthMm, count }) => ({
      section,
      material,
      lengthMm: (length ?? lengthMm)!,
      count,
    })),
    panels: plainly(panels.map(toStockedPanel)),
    joiners: plainly(parts.joiners),
    insulatedJoiners: plainly(parts.insulatedJoiners),
    transitionJoiners: plainly(parts.transitionJoiners),
    expansionJoints: plainly(parts.expansionJoints),
    ties,
    tieStrips,
    fasteners,
  })
  return { ok: true, stock }
}

function tooMany(table: string, rows: readonly { count: number }[], what: string, leaveOut: string): Fault[] {
  const count = rows.reduce((sum, row) => sum + row.count, 0)
  if (count <= SHED_LIMITS.pieces) return []
  return [
    {
      path: [table],
      code: 'too-many',
      detail: `${count} ${what} in all; ${SHED_LIMITS.pieces} is the most`,
      hint: `leave out ${leaveOut}`,
    },
  ]
}

/** Each metal by its one name. */
function plainly<Row extends { readonly material: string }>(rows: readonly Row[] = []): Row[] {
  return rows.map((row) => ({ ...row, material: MATERIAL_SPELLINGS[row.material] ?? row.material }))
}
