import type { z } from '@hono/zod-openapi'
import { ROLLER_FIELDS } from '../../estimate/complete-bender.ts'
import type { PlanDraft, SuppliesDraft, TrackDraft } from '../../estimate/faults.ts'
import type { BenderInput } from '../../estimate/plan.ts'
import type { RailDraft } from '../../estimate/rail-faults.ts'
import type { Fault } from '../../measure/fault.ts'
import {
  BreakSchema,
  ClimateSchema,
  JointsSchema,
  KeepOutSchema,
  toBreak,
  toClimate,
  toJoints,
  toKeepOut,
} from './joints.ts'
import { type Bounds, COORDINATE, LENGTH, LENGTH_OR_ZERO, readLength } from './measures.ts'
import { Element, GradePoint, JoinedEnd, Stick } from './plan.ts'
import { TemperName, TrackName } from './plan-fields.ts'
import {
  BenderSchema,
  MaterialSchema,
  RAIL_LIMITS,
  Rail,
  Section,
  TestBendSchema,
  toBender,
  toMaterial,
  toSection,
  toTestBend,
} from './rail.ts'
import { PanelSchema, toPanel } from './ready-made.ts'
import { toElement, toGradePoint, toJoinedEnd, toStick } from './to-plan-input.ts'
import { listAt, valueAt } from '../../plan/reading/value-at.ts'
import { PowerSchema, RoadbedSchema, Ties, toPower, toRoadbed, toTies } from './way.ts'

/** As much of a faulty plan as can be read, part by part; null or undefined stands for what cannot. */
export function draftOf(raw: unknown): PlanDraft {
  return {
    gauge: gaugeDraftOf(raw),
    rail: railDraftOf(raw),
    bender: benderDraftOf(valueAt(raw, ['bender'])),
    climate: readable(ClimateSchema, valueAt(raw, ['climate']), toClimate) ?? undefined,
    joints: readable(JointsSchema, valueAt(raw, ['joints']), toJoints) ?? undefined,
    tracks: listAt(raw, ['tracks']).map(trackDraftOf),
    supplies: suppliesDraftOf(valueAt(raw, ['supplies'])),
    roadbed: wayQuiet(raw) ? undefined : (readable(RoadbedSchema, valueAt(raw, ['roadbed']), toRoadbed) ?? undefined),
    power: readable(PowerSchema, valueAt(raw, ['power']), toPower) ?? undefined,
  }
}

/** Ties that cannot be read keep the rules about the roadbed quiet. */
function wayQuiet(raw: unknown): boolean {
  const ties = valueAt(raw, ['supplies', 'ties'])
  return ties !== undefined && !Ties.safeParse(ties).success
}

/** Null where there is one that cannot be read. */
export function gaugeDraftOf(raw: unknown): number | null | undefined {
  return valueAt(raw, ['gauge']) === undefined ? undefined : (lengthAt(raw, ['gauge'], LENGTH) ?? null)
}

/** The rail in a request, and what of it and of the bender cannot be read, so that no test bend is judged by it. */
export function railDraftOf(raw: unknown): RailDraft {
  const at = (part: string) => valueAt(raw, ['rail', part])
  const bender = valueAt(raw, ['bender'])
  const tests = listAt(raw, ['rail', 'calibration'])
  const { issues = [] } = Rail.safeParse(valueAt(raw, ['rail'])).error ?? {}
  const metalUnread = issues.some(({ path }) => path[0] !== 'calibration' && path[0] !== 'section')
  const benderUnread = bender !== undefined && !BenderSchema.safeParse(bender).success
  return {
    section: readable(Section, at('section'), toSection) ?? undefined,
    material: readable(MaterialSchema, at('material'), toMaterial) ?? undefined,
    temper: readable(TemperName, at('temper'), (name) => name) ?? undefined,
    calibration:
      tests.length > RAIL_LIMITS.testBends ? [] : tests.map((test) => readable(TestBendSchema, test, toTestBend)),
    unread: [...(metalUnread ? (['metal'] as const) : []), ...(benderUnread ? (['bender'] as const) : [])],
  }
}

/**
 * The bender as far as it can be read. What belongs to rollers goes with a figure of theirs that cannot be; a misspelt
 * field may be any, so nothing is told of a bender that has one.
 */
export function benderDraftOf(raw: unknown): BenderInput | undefined {
  const { issues = [] } = BenderSchema.safeParse(raw).error ?? {}
  const left: Record<string, unknown> = { ...(raw as object) }
  for (const { path } of issues) delete left[String(path[0])]
  if (ROLLER_FIELDS.some((field) => issues.some(({ path }) => path[0] === field)))
    for (const field of ['maxPerPass', 'screwPitch', 'ends']) delete left[field]
  return readable(BenderSchema, left, toBender) ?? undefined
}

function trackDraftOf(raw: unknown): TrackDraft | null {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) return null
  return {
    name: readable(TrackName, valueAt(raw, ['name']), (name) => name) ?? undefined,
    start: { elevation: lengthAt(raw, ['start', 'elevation'], COORDINATE) },
    closed: flagAt(raw, ['closed']),
    joinsExisting: { start: endAt(raw, 'start'), end: endAt(raw, 'end') },
    gradeLine: listAt(raw, ['gradeLine']).map((point) => readable(GradePoint, point, toGradePoint)),
    breaks: listAt(raw, ['breaks']).map((point) => readable(BreakSchema, point, toBreak)),
    keepOut: listAt(raw, ['keepOut']).map((stretch) => readable(KeepOutSchema, stretch, toKeepOut)),
    elements: listAt(raw, ['elements']).map((element) => readable(Element, element, toElement)),
  }
}

/** A stick that cannot be read keeps the rules about the longest one quiet; so does an unreadable shortest piece. */
export function suppliesDraftOf(raw: unknown): SuppliesDraft {
  const given = valueAt(raw, ['sticks'])
  const sticks = Array.isArray(given) ? given.map((stick) => readable(Stick, stick, toStick)) : undefined
  const minimumPieceMm = lengthAt(raw, ['minimumPiece'], LENGTH_OR_ZERO)
  const unreadable =
    (given !== undefined && sticks === undefined) ||
    (valueAt(raw, ['minimumPiece']) !== undefined && minimumPieceMm === undefined)
  return {
    kerf: lengthAt(raw, ['kerf'], LENGTH_OR_ZERO),
    minimumPiece: minimumPieceMm,
    ties: readable(Ties, valueAt(raw, ['ties']), toTies) ?? undefined,
    sticks: unreadable ? [...(sticks ?? []), null] : sticks,
    panels: listAt(raw, ['panels']).map((panel) => readable(PanelSchema, panel, toPanel)),
  }
}

export function readable<Schema extends z.ZodType, T>(
  schema: Schema,
  raw: unknown,
  translate: (value: z.output<Schema>) => T,
): T | null {
  const parsed = schema.safeParse(raw)
  return parsed.success ? translate(parsed.data) : null
}

export function lengthAt(raw: unknown, path: Fault['path'], bounds: Bounds): number | undefined {
  const read = readLength(valueAt(raw, path), bounds)
  return read.ok ? read.value : undefined
}

function endAt(raw: unknown, end: 'start' | 'end') {
  return readable(JoinedEnd, valueAt(raw, ['joinsExisting', end]), toJoinedEnd) ?? undefined
}

function flagAt(raw: unknown, path: Fault['path']): boolean | undefined {
  const value = valueAt(raw, path)
  return typeof value === 'boolean' ? value : undefined
}
