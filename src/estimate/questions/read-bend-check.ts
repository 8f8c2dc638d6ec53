import { bendCheckFaults } from '../../bending/bend-check/faults.ts'
import type { BendCheckInput } from '../../bending/bend-check/types.ts'
import type { Fault } from '../../measure/fault.ts'
import { DIAMETER, LENGTH } from '../../plan/fields/bounds.ts'
import { lengthAt } from '../../plan/reading/draft.ts'
import { faultsOf } from '../../plan/reading/issues.ts'
import { readable, schemaOf } from '../../plan/reading/schema.ts'
import { listAt, valueAt } from '../../plan/reading/value-at.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import { BEND_CHECK, ordinate, reading, station } from '../../plan/rows/questions.ts'
import { asWritten, mergedFaults } from '../read-plan.ts'

export type ReadBendCheck =
  | { readonly ok: true; readonly input: BendCheckInput }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Reads a bend check, with every fault in and between its fields at once. */
export function readBendCheck(raw: unknown): ReadBendCheck {
  const parsed = schemaOf(BEND_CHECK).safeParse(raw)
  if (!parsed.success) {
    const draft = draftOf(raw)
    const between = draft ? asWritten(bendCheckFaults(draft), raw) : []
    return { ok: false, faults: mergedFaults(faultsOf(parsed.error.issues, raw), between) }
  }
  const { chord, readings, radius, proposed, spacing, resolution, tolerancePct, fixed, maximumThrow } = parsed.data
  const input: BendCheckInput = {
    chordMm: chord,
    readingsMm: readings,
    radiusMm: radius,
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

/**
 * As much of it as can be read; unreadable values become a straight reading, which fits every chord. Null without a
 * chord.
 */
function draftOf(raw: unknown): BendCheckInput | null {
  const chordMm = lengthAt(raw, ['chord'], LENGTH)
  const lists = (['readings', 'proposed', 'fixed'] as const).map((name) => listAt(raw, [name]))
  const [readings, proposed, fixed] = lists as [unknown[], unknown[], unknown[]]
  if (chordMm === undefined || readings.length === 0 || lists.some(({ length }) => length > LIMITS.readings))
    return null
  const diameterMm = lengthAt(raw, ['diameter'], DIAMETER)
  return {
    chordMm,
    readingsMm: readings.map((value) => readable(reading, value) ?? (value === null ? null : 0)),
    radiusMm: lengthAt(raw, ['radius'], LENGTH) ?? (diameterMm === undefined ? undefined : diameterMm / 2),
    proposedMm: Array.isArray(valueAt(raw, ['proposed']))
      ? proposed.map((value) => readable(ordinate, value) ?? 0)
      : undefined,
    spacingMm: lengthAt(raw, ['spacing'], LENGTH),
    resolutionMm: lengthAt(raw, ['resolution'], LENGTH),
    tolerancePct: readable(BEND_CHECK.fields.tolerancePct, valueAt(raw, ['tolerancePct'])) ?? undefined,
    // One that cannot be read is not a station, and has been reported.
    fixed: fixed.map((value) => readable(station, value) ?? Number.NaN),
    maximumThrowMm: lengthAt(raw, ['maximumThrow'], LENGTH),
  }
}
