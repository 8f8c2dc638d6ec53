import { createHash } from 'node:crypto'
import type { OpenAPIHono } from '@hono/zod-openapi'
import { z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { meantNumber } from '../../measure/meant.ts'
import type { Workers } from '../../workers/workers.ts'
import { type Cell, type CellValue, refuse } from '../cells/cell.ts'
import { type CachedAnswer, type CellCache, cachedResponse, cacheKey } from '../cells/cell-cache.ts'
import { cellText, errorText, fitsCell } from '../cells/cell-text.ts'
import { CURVE_CELLS } from '../cells/curve-cells.ts'
import { GAP_CELLS } from '../cells/gap-cell.ts'
import { ROOM_CELLS } from '../cells/room-cells.ts'
import { TRACK_CELLS } from '../cells/track-cells.ts'
import { TRAIN_CELLS } from '../cells/train-cells.ts'
import { TURNOUT_CELLS } from '../cells/turnout-cells.ts'
import { ETAG_OF_CONTENT, IF_NONE_MATCH } from '../parameters.ts'
import { badParameters, type ParameterFault, problem } from '../problem.ts'
import { allows, notAcceptable } from '../request/accept.ts'
import { parameterFaultsOf } from '../request/parameter-faults.ts'
import { problems } from '../responses.ts'

const PLAIN = 'text/plain'

/** All cells. */
export const CELLS: readonly Cell[] = [
  ...CURVE_CELLS,
  ...GAP_CELLS,
  ...ROOM_CELLS,
  ...TRAIN_CELLS,
  ...TRACK_CELLS,
  ...TURNOUT_CELLS,
]

type Answer =
  | ({ readonly kind: 'text' } & CachedAnswer)
  | { readonly kind: 'refused'; readonly faults: readonly ParameterFault[] }

/** @param cache for answers that hold for every client */
export function mountCells(api: OpenAPIHono, workers: Workers, cache: CellCache): void {
  for (const cell of CELLS) {
    const path = `/v1/cell/${cell.name}`
    describe(api, cell, path)
    api.get(path, async (c: Context) => {
      if (!allows(c.req.header('accept'), PLAIN)) return problem(c, notAcceptable(PLAIN))
      const answer = answerOf(cell, queryOf(c), workers)
      if (answer.kind === 'refused') return problem(c, badParameters(answer.faults))
      cache.put(cacheKey(c.req.url), answer)
      return cachedResponse(answer, (name) => (name === 'x-request-id' ? c.get('requestId') : c.req.header(name)))
    })
  }
}

/** The framework does not validate the query here, since its errors may have to be shown in the cell. */
function answerOf(cell: Cell, raw: Readonly<Record<string, string | string[]>>, workers: Workers): Answer {
  const read = cell.query.safeParse(raw)
  const value = read.success
    ? cell.compute(read.data, workers)
    : refuse(...faultsOfAll(cell, raw, read.error.issues, workers))
  const checked: CellValue = value.ok && !fitsCell(value.value) ? refuse(TOO_LARGE) : value
  if (checked.ok) return text(cellText(meantNumber(checked.value)))
  return raw.errors === 'cell' ? text(errorText(checked.faults)) : { kind: 'refused', faults: checked.faults }
}

/**
 * All faults: those of single parameters, and those of the whole, found with the example's values in place of the
 * parameters that are refused.
 */
function faultsOfAll(
  cell: Cell,
  raw: Readonly<Record<string, unknown>>,
  issues: readonly z.core.$ZodIssue[],
  workers: Workers,
): ParameterFault[] {
  const found = parameterFaultsOf(issues)
  const bad = new Set(found.map(({ parameter }) => parameter))
  const valid = Object.entries(raw).filter(([name]) => !bad.has(name))
  const replaced = [...new URLSearchParams(cell.example)].filter(([name]) => bad.has(name))
  const rest = cell.query.safeParse(Object.fromEntries([...valid, ...replaced]))
  const more = rest.success ? cell.compute(rest.data, workers) : null
  // If the curve has a fault, the track is not missing.
  const isCurve = bad.has('radius') || bad.has('diameter')
  const isNew = ({ parameter, code }: ParameterFault) =>
    !bad.has(parameter) && !(isCurve && parameter === 'track' && code === 'missing')
  return [...found, ...(more && !more.ok ? more.faults.filter(isNew) : [])]
}

const TOO_LARGE: ParameterFault = {
  parameter: 'track',
  code: 'out-of-range',
  detail: 'the number is too long for a cell',
}

/** A repeated parameter becomes a list. */
function queryOf(c: Context): Record<string, string | string[]> {
  return Object.fromEntries(
    Object.entries(c.req.queries()).map(([name, values]) => [name, values.length === 1 ? values[0]! : values]),
  )
}

function text(value: string): Answer {
  const tag = `"${createHash('sha256').update(value).digest('base64url').slice(0, 22)}"`
  return { kind: 'text', text: value, tag }
}

/** The sentence about what stands in for parameters that are left out. */
export function assumed({ assumes }: Pick<Cell, 'assumes'>): string {
  return assumes === null ? '' : ` Unless it is given other values, it assumes ${assumes}.`
}

function describe(api: OpenAPIHono, cell: Cell, path: string): void {
  const { name, summary, description, query, searches } = cell
  api.openAPIRegistry.registerPath({
    method: 'get',
    path,
    operationId: `cell${name.replace(/(^|-)([a-z])/g, (_, _dash, letter: string) => letter.toUpperCase())}`,
    tags: ['Cells'],
    summary,
    description: `${description}${assumed(cell)} The answer is one plain number as text, without unit, exponent or line break.`,
    parameters: [IF_NONE_MATCH],
    request: { query: query as z.ZodObject },
    responses: {
      200: {
        description: 'The number, or with errors=cell the error.',
        headers: ETAG_OF_CONTENT,
        content: { [PLAIN]: { schema: z.string() } },
      },
      304: { description: 'The content still has the ETag in If-None-Match.' },
      ...problems('bad-parameter', 'not-acceptable'),
      ...(searches && problems('too-busy', 'too-much-work')),
    },
  })
}
