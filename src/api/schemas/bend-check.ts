import { z } from '@hono/zod-openapi'
import { bendCheckFaults } from '../../bending/bend-check/faults.ts'
import type { BendCheckInput } from '../../bending/bend-check/types.ts'
import type { Fault } from '../../measure/fault.ts'
import { fields } from './fields.ts'
import { faultsOf } from './issues.ts'
import { accepted, leaf, type Read } from './leaf.ts'
import { COORDINATE, countLeaf, DIAMETER, LENGTH, numberLeaf, readLength } from './measures.ts'
import { atMostOneOf } from './plan.ts'
import { lengthAt, readable } from './plan-draft.ts'
import { Coordinate, Diameter, Length, Resolution } from './plan-fields.ts'
import { asWritten, withMore } from './read-plan.ts'
import { listAt, valueAt } from '../../plan/reading/value-at.ts'

/** Readings of one check. */
export const MOST_READINGS = 500

const Reading = leaf(
  'Reading',
  (value): Read<number | null> => (value === null ? accepted(null) : readLength(value, COORDINATE)),
  {
    type: ['number', 'string', 'null'],
    maxLength: 60,
    description: 'An ordinate; null was not read, a negative one bends the other way. A number is millimetres.',
    example: 12.5,
  },
)
const StationIndex = countLeaf('StationIndex', { least: 0, most: MOST_READINGS - 1 }, 'A station, counted from 0.')
const Tolerance = numberLeaf(
  'TolerancePct',
  { least: 0, most: 100 },
  'in percent',
  'Of the target ordinate, percent; 5 when left out.',
)

export const BendCheckSchema = fields({
  chord: Length,
  readings: z.array(Reading).min(1).max(MOST_READINGS),
  radius: Length.optional(),
  diameter: Diameter.optional(),
  proposed: z.array(Coordinate).max(MOST_READINGS).optional(),
  spacing: Length.optional(),
  resolution: Resolution.optional(),
  tolerancePct: Tolerance.optional(),
  fixed: z.array(StationIndex).max(MOST_READINGS).optional(),
  maximumThrow: Length.optional(),
})
  .check(atMostOneOf('radius', 'diameter'))
  .openapi('BendCheck', {
    description:
      'Ordinates read along a bent rail or a laid curve. With a radius or diameter (of the face the chord touches) each is held against it; without, the curve is lined.',
    not: { properties: { radius: {}, diameter: {} }, required: ['radius', 'diameter'] },
  })

export type ReadBendCheck =
  | { readonly ok: true; readonly input: BendCheckInput }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Reads what is to be checked, with every fault it has, those of its fields and those between them, at one go. */
export function readBendCheck(raw: unknown): ReadBendCheck {
  const parsed = BendCheckSchema.safeParse(raw)
  if (!parsed.success) {
    const draft = draftOf(raw)
    const between = draft ? asWritten(bendCheckFaults(draft), raw) : []
    return { ok: false, faults: withMore(faultsOf(parsed.error.issues, raw), between) }
  }
  const { chord, readings, radius, diameter, proposed, spacing, resolution, tolerancePct, fixed, maximumThrow } =
    parsed.data
  const input: BendCheckInput = {
    chordMm: chord,
    readingsMm: readings,
    radiusMm: radius ?? (diameter === undefined ? undefined : diameter / 2),
    proposedMm: proposed,
    spacingMm: spacing,
    resolutionMm: resolution,
    tolerancePct,
    fixed,
    maximumThrowMm: maximumThrow,
  }
  const faults = asWritten(bendCheckFaults(input), raw)
  return faults.length > 0 ? { ok: false, faults } : { ok: true, input }
}

/** As much of it as can be read: what cannot stands as a straight reading, which fits every chord. Null without a chord. */
function draftOf(raw: unknown): BendCheckInput | null {
  const chordMm = lengthAt(raw, ['chord'], LENGTH)
  const lists = (['readings', 'proposed', 'fixed'] as const).map((name) => listAt(raw, [name]))
  const [readings, proposed, fixed] = lists as [unknown[], unknown[], unknown[]]
  if (chordMm === undefined || readings.length === 0 || lists.some(({ length }) => length > MOST_READINGS)) return null
  const diameterMm = lengthAt(raw, ['diameter'], DIAMETER)
  return {
    chordMm,
    readingsMm: readings.map(
      (reading) => readable(Reading, reading, (value) => value) ?? (reading === null ? null : 0),
    ),
    radiusMm: lengthAt(raw, ['radius'], LENGTH) ?? (diameterMm === undefined ? undefined : diameterMm / 2),
    proposedMm: Array.isArray(valueAt(raw, ['proposed']))
      ? proposed.map((ordinate) => readable(Coordinate, ordinate, (value) => value) ?? 0)
      : undefined,
    spacingMm: lengthAt(raw, ['spacing'], LENGTH),
    resolutionMm: lengthAt(raw, ['resolution'], LENGTH),
    tolerancePct: readable(Tolerance, valueAt(raw, ['tolerancePct']), (value) => value) ?? undefined,
    // One that cannot be read is none of the stations, and has been reported.
    fixed: fixed.map((station) => readable(StationIndex, station, (value) => value) ?? Number.NaN),
    maximumThrowMm: lengthAt(raw, ['maximumThrow'], LENGTH),
  }
}
