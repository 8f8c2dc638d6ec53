import type { Fault } from '../../measure/fault.ts'
import { DIAMETER, LENGTH, readLength } from '../../plan/fields/bounds.ts'
import { benderDraftOf, gaugeDraftOf, lengthAt, type RailDraft, railDraftOf } from '../../plan/reading/draft.ts'
import { faultsOf } from '../../plan/reading/issues.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { listAt, valueAt } from '../../plan/reading/value-at.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import { CALIBRATION, type CalibrationInput, CURVE, type CurveInput } from '../../plan/rows/questions.ts'
import { planFaults } from '../faults/faults.ts'
import { asWritten, mergedFaults } from '../read-plan.ts'
import { chordFaults } from './one-curve.ts'

type ReadCurve =
  | { readonly ok: true; readonly curve: CurveInput }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Reads a question about one curve, with every fault in and between its fields at once. */
export function readCurve(raw: unknown): ReadCurve {
  const parsed = schemaOf(CURVE).safeParse(raw)
  if (!parsed.success) {
    const between = asWritten(curveFaults(curveDraftOf(raw)), raw)
    return { ok: false, faults: mergedFaults(faultsOf(parsed.error.issues, raw), between) }
  }
  const faults = asWritten(curveFaults(parsed.data), raw)
  return faults.length > 0 ? { ok: false, faults } : { ok: true, curve: parsed.data }
}

type CurveDraft = Partial<Omit<CurveInput, 'gauge' | 'rail' | 'chords'>> & {
  /** Null: it could not be read. */
  readonly gauge?: number | null | undefined
  readonly rail: RailDraft
  readonly chords?: readonly number[] | undefined
}

/** Faults between the parts of a curve as far as it could be read; places as in a question about one curve. */
export function curveFaults({ radius, gauge, rail, bender, chords }: CurveDraft): Fault[] {
  const elements = radius === undefined ? [] : [{ kind: 'arc', radius, angle: 1, turn: 'left' } as const]
  const faults = planFaults({ gauge, rail, bender, tracks: [{ elements }] }).map((fault) =>
    fault.path[0] === 'tracks' ? { ...fault, path: ['radius'] } : fault,
  )
  const { section } = rail
  const hasNoInside = faults.some(({ path }) => path[0] === 'radius' || path[1] === 'section')
  if (radius === undefined || gauge === null || section === undefined || hasNoInside) return faults
  return [...faults, ...chordFaults({ radius, gauge, rail: { section }, chords })]
}

function curveDraftOf(raw: unknown): CurveDraft {
  const diameterMm = lengthAt(raw, ['diameter'], DIAMETER)
  const chords = listAt(raw, ['chords'])
  return {
    radius: lengthAt(raw, ['radius'], LENGTH) ?? (diameterMm === undefined ? undefined : diameterMm / 2),
    gauge: gaugeDraftOf(raw),
    rail: railDraftOf(raw),
    bender: benderDraftOf(valueAt(raw, ['bender'])),
    // One that cannot be read fits everywhere.
    chords: chords.length > LIMITS.chords ? [] : chords.map((chord) => lengthOrNone(chord)),
  }
}

function lengthOrNone(raw: unknown): number {
  const read = readLength(raw, LENGTH)
  return read.ok ? read.value : 0
}

type ReadCalibration =
  | { readonly ok: true; readonly asked: CalibrationInput }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Reads a question about test bends, with all its faults at once. */
export function readCalibration(raw: unknown): ReadCalibration {
  const parsed = schemaOf(CALIBRATION).safeParse(raw)
  if (!parsed.success) {
    const draft = { rail: railDraftOf(raw), bender: benderDraftOf(valueAt(raw, ['bender'])), tracks: [] }
    return { ok: false, faults: mergedFaults(faultsOf(parsed.error.issues, raw), planFaults(draft)) }
  }
  const { rail, bender } = parsed.data
  const faults = planFaults({ rail, bender, tracks: [] })
  return faults.length > 0 ? { ok: false, faults } : { ok: true, asked: parsed.data }
}
