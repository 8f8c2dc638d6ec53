import type { BendCheckInput } from '../../bending/bend-check/types.ts'
import { railRadii } from '../../bending/bends.ts'
import { SECTIONS } from '../../catalogue/sections.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm, parseLength } from '../../measure/length.ts'
import { USUAL as USUAL_PLAN } from '../../plan/usual.ts'
import { SHOWN_IN, withUnit } from '../form/bare-numbers.ts'
import { wordsOf } from './words-of.ts'

/** The text of each field of the check form. */
export type CheckFields = Readonly<Record<(typeof CHECK_FIELDS)[number], string>>

export const CHECK_FIELDS = [
  'chord',
  'readings',
  'readingsIn',
  'across',
  'acrossIs',
  'acrossAt',
  'section',
  'gauge',
  'rail',
  'fixed',
  'resolution',
  'maximumThrow',
  'spacing',
  'proposed',
  'tolerancePct',
] as const

/**
 * The fields that were sent; missing ones are blank, or the default of a choice. A size that is sent without saying
 * where it is measured is that of the face, as on the bench cards. On a page that was shown in feet a bare length is in
 * inches.
 */
export function checkFieldsOf(sent: (name: string) => string | undefined): CheckFields {
  const readingsIn = sent('show') === 'feet' && sent('readings') === undefined ? 'in' : 'mm'
  const acrossAt = sent('across') === undefined ? 'centre' : 'face'
  const usual: Partial<CheckFields> = { readingsIn, acrossIs: 'radius', acrossAt, section: '250', rail: 'outer' }
  const typed = CHECK_FIELDS.map((name) => [name, (sent(name) ?? usual[name] ?? '').replaceAll('\0', '')])
  const fields: CheckFields = Object.fromEntries(typed)
  if (sent(SHOWN_IN) !== 'feet') return fields
  return { ...fields, ...Object.fromEntries(LENGTHS.map((name) => [name, withUnit(fields[name], 'in')])) }
}

/** Lengths, besides readings, which have a choice of their own. */
const LENGTHS = ['chord', 'across', 'gauge', 'resolution', 'maximumThrow', 'spacing'] as const

export type ReadCheck =
  | { readonly ok: true; readonly input: BendCheckInput }
  | { readonly ok: false; readonly faults: readonly Fault[] }

type ReadLength = { readonly mm: number } | { readonly fault: Pick<Fault, 'detail' | 'hint'> }

/** The unit of a reading without a unit. */
type Unit = 'mm' | 'in'

/** The curve that readings are held against: the size of the face that the chord touches, and what it follows from. */
export interface TargetCurve {
  readonly faceRadiusMm: number
  /** Null where the size is that of the face itself. */
  readonly track: {
    readonly radiusMm: number
    readonly gaugeMm: number
    readonly section: string
    readonly rail: 'outer' | 'inner'
    readonly otherFaceRadiusMm: number
  } | null
}

/** What the form says before any reading is typed. */
export type ReadTarget =
  | { readonly ok: true; readonly chordMm: number | null; readonly target: TargetCurve | null }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Reads the chord and the curve size alone. */
export function readTarget(fields: CheckFields): ReadTarget {
  const faults: Fault[] = []
  const chordMm = lengthIn(fields, 'chord', faults) ?? null
  const target = targetIn(fields, faults)
  return faults.length > 0 ? { ok: false, faults } : { ok: true, chordMm, target }
}

function targetIn(fields: CheckFields, faults: Fault[]): TargetCurve | null {
  const across = lengthIn(fields, 'across', faults)
  const gaugeMm = lengthIn(fields, 'gauge', faults) ?? USUAL_PLAN.gauge
  if (across === undefined) return null
  const radiusMm = fields.acrossIs === 'diameter' ? across / 2 : across
  if (fields.acrossAt !== 'centre') return { faceRadiusMm: radiusMm, track: null }
  const section = SECTIONS.find(({ id }) => id === fields.section)
  if (!section) {
    const hint = `choose one of ${SECTIONS.map(({ id }) => id).join(', ')}`
    faults.push({ path: ['section'], code: 'unknown-value', detail: 'there is no such rail section', hint })
    return null
  }
  const rail = fields.rail === 'inner' ? 'inner' : 'outer'
  const face = (which: 'outer' | 'inner') => railRadii(radiusMm, which, gaugeMm, section.headWidthMm).measuredRadiusMm
  if (!(face('inner') > 0)) {
    const least = formatMm(radiusMm - face('inner'))
    const detail = `the inner rail has no such curve: the radius of the centre line must be over ${least}`
    faults.push({ path: ['across'], code: 'out-of-range', detail })
    return null
  }
  const otherFaceRadiusMm = face(rail === 'outer' ? 'inner' : 'outer')
  return { faceRadiusMm: face(rail), track: { radiusMm, gaugeMm, section: section.name, rail, otherFaceRadiusMm } }
}

/** Undefined where it is blank, or has a fault that is added to the others. */
function lengthIn(fields: CheckFields, field: keyof CheckFields, faults: Fault[]): number | undefined {
  const text = fields[field].trim()
  if (text === '') return undefined
  const read = readLength(text, 'mm')
  if ('mm' in read) return read.mm
  faults.push({ path: [field], code: 'bad-length', ...read.fault })
  return undefined
}

/** Reads the check form; every fault is at its field. Blank fields get their defaults. */
export function readCheck(fields: CheckFields): ReadCheck {
  const faults: Fault[] = []
  const refuse = (field: string, fault: Pick<Fault, 'detail' | 'hint'>, code = 'bad-length') =>
    faults.push({ path: [field], code, ...fault })
  const unit: Unit = fields.readingsIn === 'in' ? 'in' : 'mm'
  const length = (field: keyof CheckFields) => lengthIn(fields, field, faults)
  const ordinates = (field: 'readings' | 'proposed'): (number | null)[] => {
    const read = wordsOf(fields[field]).map((word) => (DASH.test(word) ? null : readLength(word, unit)))
    for (const [station, each] of read.entries())
      if (each && 'fault' in each) refuse(field, { ...each.fault, detail: `station ${station}: ${each.fault.detail}` })
    return read.map((each) => (each && 'mm' in each ? each.mm : null))
  }

  const chordMm = length('chord')
  if (fields.chord.trim() === '')
    refuse('chord', { detail: 'the chord length is needed', hint: 'for example "500" or "12 in"' }, 'missing')
  const readingsMm = ordinates('readings')
  if (readingsMm.length === 0)
    refuse(
      'readings',
      { detail: 'there are no readings yet', hint: 'enter one per line, or separate them by spaces' },
      'too-few',
    )
  const target = targetIn(fields, faults)
  const proposed = ordinates('proposed')
  if (proposed.includes(null) && !faults.some(({ path }) => path[0] === 'proposed'))
    refuse('proposed', { detail: 'a proposed ordinate is missing', hint: 'enter one for every station' }, 'missing')
  const tolerancePct = readNumber(fields.tolerancePct)
  if (Number.isNaN(tolerancePct))
    refuse('tolerancePct', { detail: 'this is not a number', hint: 'enter a percentage, for example 5' }, 'wrong-type')
  const fixed = wordsOf(fields.fixed.replaceAll(',', ' ')).map(Number)
  if (!fixed.every(Number.isInteger))
    refuse(
      'fixed',
      { detail: 'stations are whole numbers', hint: 'they are counted from 0, for example "0 7 13"' },
      'wrong-type',
    )
  const resolutionMm = length('resolution')
  const maximumThrowMm = length('maximumThrow')
  const spacingMm = length('spacing')
  if (faults.length > 0 || chordMm === undefined) return { ok: false, faults }
  const input: BendCheckInput = {
    chordMm,
    readingsMm,
    radiusMm: target?.faceRadiusMm,
    proposedMm: proposed.length === 0 ? undefined : proposed.map((mm) => mm ?? 0),
    spacingMm,
    resolutionMm,
    tolerancePct,
    fixed: fixed.length === 0 ? undefined : fixed,
    maximumThrowMm,
  }
  return { ok: true, input }
}

const DASH = /^[-–—−]$/
const NUMBER = /^[-–−]?(?:\d+(?:\.\d*)?|\.\d+)$/
/** How a list was read, word by word with its unit, where it has fractions: what belongs together may be doubted there. */
export function readAs(fields: CheckFields): readonly string[] | null {
  if (!fields.readings.includes('/')) return null
  const unit = fields.readingsIn === 'in' ? 'in' : 'mm'
  return wordsOf(fields.readings).map((word) =>
    DASH.test(word) ? 'not read' : isBare(word) ? `${word} ${unit}` : word,
  )
}

function isBare(text: string): boolean {
  return /^-?[\d./ -]+$/.test(text.replace(/^[–−]/, '-'))
}

function readLength(text: string, unit: Unit): ReadLength {
  const bare = text.replace(/^[–−]/, '-')
  if (NUMBER.test(bare) && unit === 'mm') return { mm: Number(bare) }
  const parsed = parseLength(isBare(bare) ? `${bare} ${unit}` : text)
  return parsed.ok ? { mm: parsed.mm } : { fault: { detail: parsed.reason, hint: parsed.hint } }
}

/** Undefined if blank, NaN if not a number. */
function readNumber(text: string): number | undefined {
  const plain = text.trim().replace(/ ?%$/, '')
  if (plain === '') return undefined
  return NUMBER.test(plain) ? Number(plain) : Number.NaN
}
