import type { z } from '@hono/zod-openapi'
import type { PlanDraft, SuppliesDraft, TrackDraft } from '../../estimate/faults.ts'
import type { Fault } from '../../measure/fault.ts'
import { type Bounds, COORDINATE, LENGTH, LENGTH_OR_ZERO, readLength } from './measures.ts'
import { Element, GradePoint, Stick } from './plan.ts'
import { TrackName } from './plan-fields.ts'
import { BenderSchema, Rail, toBender, toRail } from './rail.ts'
import { toElement, toGradePoint, toStick } from './to-plan-input.ts'
import { listAt, valueAt } from './value-at.ts'

/** As much of a faulty plan as can be read, part by part; null or undefined stands for what cannot. */
export function draftOf(raw: unknown): PlanDraft {
  return {
    gaugeMm: lengthAt(raw, ['gauge'], LENGTH),
    rail: readable(Rail, valueAt(raw, ['rail']), toRail) ?? undefined,
    bender: readable(BenderSchema, valueAt(raw, ['bender']), toBender) ?? undefined,
    tracks: listAt(raw, ['tracks']).map(trackDraftOf),
    supplies: suppliesDraftOf(valueAt(raw, ['supplies'])),
  }
}

function trackDraftOf(raw: unknown): TrackDraft | null {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) return null
  return {
    name: readable(TrackName, valueAt(raw, ['name']), (name) => name) ?? undefined,
    start: { elevationMm: lengthAt(raw, ['start', 'elevation'], COORDINATE) },
    closed: flagAt(raw, ['closed']),
    joinsExisting: { start: flagAt(raw, ['joinsExisting', 'start']), end: flagAt(raw, ['joinsExisting', 'end']) },
    gradeLine: listAt(raw, ['gradeLine']).map((point) => readable(GradePoint, point, toGradePoint)),
    elements: listAt(raw, ['elements']).map((element) => readable(Element, element, toElement)),
  }
}

/** A stick that cannot be read keeps the rules about the longest one quiet; so does an unreadable shortest piece. */
function suppliesDraftOf(raw: unknown): SuppliesDraft {
  const given = valueAt(raw, ['sticks'])
  const sticks = Array.isArray(given) ? given.map((stick) => readable(Stick, stick, toStick)) : undefined
  const minimumPieceMm = lengthAt(raw, ['minimumPiece'], LENGTH_OR_ZERO)
  const unreadable =
    (given !== undefined && sticks === undefined) ||
    (valueAt(raw, ['minimumPiece']) !== undefined && minimumPieceMm === undefined)
  return {
    kerfMm: lengthAt(raw, ['kerf'], LENGTH_OR_ZERO),
    minimumPieceMm,
    sticks: unreadable ? [...(sticks ?? []), null] : sticks,
  }
}

function readable<Schema extends z.ZodType, T>(
  schema: Schema,
  raw: unknown,
  translate: (value: z.output<Schema>) => T,
): T | null {
  const parsed = schema.safeParse(raw)
  return parsed.success ? translate(parsed.data) : null
}

function lengthAt(raw: unknown, path: Fault['path'], bounds: Bounds): number | undefined {
  const read = readLength(valueAt(raw, path), bounds)
  return read.ok ? read.value : undefined
}

function flagAt(raw: unknown, path: Fault['path']): boolean | undefined {
  const value = valueAt(raw, path)
  return typeof value === 'boolean' ? value : undefined
}
