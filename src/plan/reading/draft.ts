import type { Fault } from '../../measure/fault.ts'
import { fittedElement } from '../elements.ts'
import { type Bounds, COORDINATE, LENGTH, LENGTH_OR_ZERO, readLength } from '../fields/bounds.ts'
import type { Item, OpenItem } from '../fields/field.ts'
import { POWER, type PowerInput, ROADBED, type RoadbedInput } from '../rows/ballast-power-extras.ts'
import { BENDER, type BenderInput, OF_ROLLERS, ROLLER_FIELDS } from '../rows/bender.ts'
import { CAR, type CarInput, TRAIN, type TrainInput } from '../rows/cars.ts'
import { GROUND_PLACE, GROUND_POINT, type GroundPlace, type GroundPoint } from '../rows/earthworks.ts'
import { CLIMATE, type ClimateInput, JOINTS, type JointsInput } from '../rows/joints.ts'
import { LIMITS } from '../rows/limits.ts'
import { CORNER, OBSTACLE, type ObstacleInput } from '../rows/obstacles.ts'
import { type PegInput, PLAN_PEG } from '../rows/pegs.ts'
import { MATERIAL, RAIL, type RailInput, SECTION, TEST_BEND, type TestBend, temper } from '../rows/rail.ts'
import { PANEL, type PanelInput, STICK, type StickInput, type SuppliesInput, TIES } from '../rows/supplies.ts'
import {
  BREAK,
  type Break,
  ELEMENT,
  type ElementInput,
  END,
  GRADE_LIMIT,
  GRADE_POINT,
  type GradeLimitInput,
  type GradePoint,
  JOINED_END,
  KEEP_OUT,
  type KeepOutInput,
  levelStation,
  START,
  TRACK,
  type TrackInput,
} from '../rows/track.ts'
import { LEG_PLACE, type LegPlace, TURNOUT_TYPE, type TurnoutTypeInput } from '../rows/turnouts.ts'
import { readable, schemaOf } from './schema.ts'
import { listAt, valueAt } from './value-at.ts'

/**
 * A plan as far as it could be read: null stands for the gauge, an element, a grade point, a stick or a whole track
 * that could not be read and has already been reported, and for an element that is still to be fitted. The rules between fields check what is there, so that one
 * answer has every fault. Every `PlanInput` is such a draft.
 */
export interface PlanDraft {
  readonly gauge?: number | null | undefined
  readonly rail?: RailDraft | undefined
  readonly bender?: BenderInput | undefined
  readonly climate?: Partial<ClimateInput> | undefined
  readonly joints?: JointsInput | undefined
  /** Null for one that cannot be read. */
  readonly turnoutTypes?: readonly (TurnoutTypeInput | null)[] | undefined
  readonly cars?: readonly (CarInput | null)[] | undefined
  readonly trains?: readonly (TrainInput | null)[] | undefined
  readonly obstacles?: readonly (ObstacleInput | null)[] | undefined
  readonly ground?: readonly (GroundPlace | null)[] | undefined
  readonly pegs?: readonly (PegInput | null)[] | undefined
  /** Null where one of its corners cannot be read. */
  readonly outline?: NonNullable<ObstacleInput['polygon']> | null | undefined
  readonly tracks: readonly (TrackDraft | null)[]
  readonly supplies?: SuppliesDraft | undefined
  readonly roadbed?: RoadbedInput | undefined
  readonly power?: 'none' | PowerInput | undefined
}

/** The rail as far as it could be read; null stands for a test bend that could not be read and has been reported. */
export type RailDraft = Partial<Omit<RailInput, 'calibration'>> & {
  readonly calibration?: readonly (TestBend | null)[] | undefined
  /** What test bends must not be checked against, because some of it could not be read. */
  readonly unread?: readonly ('metal' | 'bender')[] | undefined
}

export interface TrackDraft {
  readonly name?: string | undefined
  readonly start?: TrackInput['start']
  readonly end?: { readonly before?: string | undefined; readonly to?: LegPlace | undefined } | undefined
  readonly closed?: boolean | undefined
  readonly state?: TrackInput['state']
  readonly joinsExisting?: TrackInput['joinsExisting']
  readonly gradeLine?: readonly (GradePoint | null)[] | undefined
  readonly limits?: readonly (GradeLimitInput | null)[] | undefined
  readonly levelsAt?: readonly (number | null)[] | undefined
  readonly ground?: readonly (GroundPoint | null)[] | undefined
  readonly breaks?: readonly (Break | null)[] | undefined
  readonly keepOut?: readonly (KeepOutInput | null)[] | undefined
  readonly elements: readonly (ElementInput | null)[]
}

export type SuppliesDraft = Pick<SuppliesInput, 'kerf' | 'minimumPiece' | 'ties'> & {
  readonly sticks?: readonly (StickInput | null)[] | undefined
  readonly panels?: readonly (PanelInput | null)[] | undefined
}

/** As much of a faulty plan as can be read, part by part; null or undefined stands for what cannot. */
export function draftOf(raw: unknown): PlanDraft {
  return {
    gauge: gaugeDraftOf(raw),
    rail: railDraftOf(raw),
    bender: benderDraftOf(valueAt(raw, ['bender'])),
    climate: partOf(CLIMATE, raw, ['climate']),
    joints: partOf(JOINTS, raw, ['joints']),
    turnoutTypes: listAt(raw, ['turnoutTypes']).map((type) => readable(TURNOUT_TYPE, type)),
    cars: listAt(raw, ['cars']).map((car) => readable(CAR, car)),
    trains: listAt(raw, ['trains']).map((train) => readable(TRAIN, train)),
    obstacles: listAt(raw, ['obstacles']).map((obstacle) => readable(OBSTACLE, obstacle)),
    ground: listAt(raw, ['ground']).map((place) => readable(GROUND_PLACE, place)),
    pegs: listAt(raw, ['pegs']).map((peg) => readable(PLAN_PEG, peg)),
    outline: allReadable(listAt(raw, ['outline']).map((corner) => readable(CORNER, corner))),
    tracks: listAt(raw, ['tracks']).map(trackDraftOf),
    supplies: suppliesDraftOf(valueAt(raw, ['supplies'])),
    roadbed: tiesUnread(raw) ? undefined : partOf(ROADBED, raw, ['roadbed']),
    power: partOf(POWER, raw, ['power']),
  }
}

/** Ties that cannot be read suspend the rules about the roadbed. */
function tiesUnread(raw: unknown): boolean {
  const ties = valueAt(raw, ['supplies', 'ties'])
  return ties !== undefined && readable(TIES, ties) === null
}

/** Null where there is one that cannot be read. */
export function gaugeDraftOf(raw: unknown): number | null | undefined {
  return valueAt(raw, ['gauge']) === undefined ? undefined : (lengthAt(raw, ['gauge'], LENGTH) ?? null)
}

/**
 * The rail in a request, and which parts of it and of the bender cannot be read, so that no test bend is checked
 * against them.
 */
export function railDraftOf(raw: unknown): RailDraft {
  const bender = valueAt(raw, ['bender'])
  const tests = listAt(raw, ['rail', 'calibration'])
  const { issues = [] } = schemaOf(RAIL).safeParse(valueAt(raw, ['rail'])).error ?? {}
  const metalUnread = issues.some(({ path }) => path[0] !== 'calibration' && path[0] !== 'section')
  const benderUnread = bender !== undefined && readable(BENDER, bender) === null
  return {
    section: partOf(SECTION, raw, ['rail', 'section']),
    material: partOf(MATERIAL, raw, ['rail', 'material']),
    temper: partOf(temper, raw, ['rail', 'temper']),
    calibration: tests.length > LIMITS.testBends ? [] : tests.map((test) => readable(TEST_BEND, test)),
    unread: [...(metalUnread ? (['metal'] as const) : []), ...(benderUnread ? (['bender'] as const) : [])],
  }
}

/**
 * The bender as far as it can be read. If a figure of the rollers cannot be read, their other fields are left out; a
 * misspelt field may be any of them, so a bender that has one is left out.
 */
export function benderDraftOf(raw: unknown): BenderInput | undefined {
  const { issues = [] } = schemaOf(BENDER).safeParse(raw).error ?? {}
  const left: Record<string, unknown> = { ...(raw as object) }
  for (const { path } of issues) delete left[String(path[0])]
  if (ROLLER_FIELDS.some((field) => issues.some(({ path }) => path[0] === field)))
    for (const field of OF_ROLLERS) delete left[field]
  return readable(BENDER, left) ?? undefined
}

function trackDraftOf(raw: unknown): TrackDraft | null {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) return null
  const closed = valueAt(raw, ['closed'])
  const each = <I extends Item>(item: I, list: string) => listAt(raw, [list]).map((entry) => readable(item, entry))
  return {
    name: partOf(TRACK.fields.name, raw, ['name']),
    start: {
      after: partOf(START.fields.after, raw, ['start', 'after']),
      from: partOf(LEG_PLACE, raw, ['start', 'from']),
      x: lengthAt(raw, ['start', 'x'], COORDINATE),
      y: lengthAt(raw, ['start', 'y'], COORDINATE),
      heading: partOf(START.fields.heading, raw, ['start', 'heading']),
      elevation: lengthAt(raw, ['start', 'elevation'], COORDINATE),
    },
    end: { before: partOf(END.fields.before, raw, ['end', 'before']), to: partOf(LEG_PLACE, raw, ['end', 'to']) },
    closed: typeof closed === 'boolean' ? closed : undefined,
    state: partOf(TRACK.fields.state, raw, ['state']),
    joinsExisting: {
      start: partOf(JOINED_END, raw, ['joinsExisting', 'start']),
      end: partOf(JOINED_END, raw, ['joinsExisting', 'end']),
    },
    gradeLine: each(GRADE_POINT, 'gradeLine'),
    limits: each(GRADE_LIMIT, 'limits'),
    levelsAt: each(levelStation, 'levelsAt'),
    ground: each(GROUND_POINT, 'ground'),
    breaks: each(BREAK, 'breaks'),
    keepOut: each(KEEP_OUT, 'keepOut'),
    elements: each(ELEMENT, 'elements').map((element) => element && fittedElement(element)),
  }
}

/** A stick that cannot be read suspends the rules about the longest one; so does an unreadable shortest piece. */
export function suppliesDraftOf(raw: unknown): SuppliesDraft {
  const given = valueAt(raw, ['sticks'])
  const sticks = Array.isArray(given) ? given.map((stick) => readable(STICK, stick)) : undefined
  const minimumPiece = lengthAt(raw, ['minimumPiece'], LENGTH_OR_ZERO)
  const unreadable =
    (given !== undefined && sticks === undefined) ||
    (valueAt(raw, ['minimumPiece']) !== undefined && minimumPiece === undefined)
  return {
    kerf: lengthAt(raw, ['kerf'], LENGTH_OR_ZERO),
    minimumPiece,
    ties: partOf(TIES, raw, ['ties']),
    sticks: unreadable ? [...(sticks ?? []), null] : sticks,
    panels: listAt(raw, ['panels']).map((panel) => readable(PANEL, panel)),
  }
}

/** The value at a place; undefined where there is none that can be read. */
function partOf<I extends Item>(item: I, raw: unknown, path: Fault['path']): OpenItem<I> | undefined {
  return readable(item as never, valueAt(raw, path)) ?? undefined
}

export function lengthAt(raw: unknown, path: Fault['path'], bounds: Bounds): number | undefined {
  const read = readLength(valueAt(raw, path), bounds)
  return read.ok ? read.value : undefined
}

/** Null where any could not be read. */
function allReadable<T>(values: readonly (T | null)[]): readonly T[] | null {
  return values.every((value) => value !== null) ? (values as readonly T[]) : null
}
