import type { BendCheckInput } from '../../bending/bend-check/types.ts'
import type { Fault } from '../../measure/fault.ts'
import { parseLength } from '../../measure/length.ts'

/** The text of each field of the check form. */
export type CheckFields = Readonly<Record<(typeof CHECK_FIELDS)[number], string>>

export const CHECK_FIELDS = [
  'chord',
  'readings',
  'readingsIn',
  'across',
  'acrossIs',
  'fixed',
  'resolution',
  'maximumThrow',
  'spacing',
  'proposed',
  'tolerancePct',
] as const

/** The fields that were sent; missing ones are blank, or the default of a choice. */
export function checkFieldsOf(sent: (name: string) => string | undefined): CheckFields {
  const typed = CHECK_FIELDS.map((name) => [name, (sent(name) ?? USUAL[name] ?? '').replaceAll('\0', '')])
  return Object.fromEntries(typed)
}

const USUAL: Partial<CheckFields> = { readingsIn: 'mm', acrossIs: 'radius' }

export type ReadCheck =
  | { readonly ok: true; readonly input: BendCheckInput }
  | { readonly ok: false; readonly faults: readonly Fault[] }

type ReadLength = { readonly mm: number } | { readonly fault: Pick<Fault, 'detail' | 'hint'> }

/** The unit of a reading without a unit. */
type Unit = 'mm' | 'in'

/** Reads the check form; every fault is at its field. Blank fields get their defaults. */
export function readCheck(fields: CheckFields): ReadCheck {
  const faults: Fault[] = []
  const refuse = (field: string, fault: Pick<Fault, 'detail' | 'hint'>, code = 'bad-length') =>
    faults.push({ path: [field], code, ...fault })
  const unit: Unit = fields.readingsIn === 'in' ? 'in' : 'mm'
  const length = (field: keyof CheckFields): number | undefined => {
    const text = fields[field].trim()
    if (text === '') return undefined
    const read = readLength(text, 'mm')
    if ('mm' in read) return read.mm
    refuse(field, read.fault)
    return undefined
  }
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
  const across = length('across')
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
    radiusMm: across === undefined ? undefined : fields.acrossIs === 'diameter' ? across / 2 : across,
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
const FRACTION = /^[-–−]?(?:\d+-)?\d+\/\d+$/
const WHOLE = /^[-–−]?\d+$/
const UNIT = /^(?:mm|cm|m|in|inch|inches|ft|feet|["'′″”’]+)$/i

/**
 * Splits a list of lengths at spaces, line breaks, semicolons, and commas that are followed by a space. A separate unit
 * belongs to the number before it, and a fraction to the whole number before it (`1 1/16 in` is one word).
 */
export function wordsOf(text: string): string[] {
  const words: string[] = []
  for (const line of text.split('\n')) {
    const own: string[] = []
    for (const word of line.split(/[\s;]+|,(?=\s|$)/).filter(Boolean)) {
      const before = own.at(-1)
      const isRest =
        before !== undefined &&
        ((UNIT.test(word) && (NUMBER.test(before) || FRACTION.test(before) || / \d+\/\d+$/.test(before))) ||
          (/^\d+\/\d+["'′″”’]*$/.test(word) && WHOLE.test(before)))
      if (isRest) own[own.length - 1] = `${before} ${word}`
      else own.push(word)
    }
    words.push(...own)
  }
  return words
}

function readLength(text: string, unit: Unit): ReadLength {
  const bare = text.replace(/^[–−]/, '-')
  if (NUMBER.test(bare) && unit === 'mm') return { mm: Number(bare) }
  const isBare = /^-?[\d./ -]+$/.test(bare)
  const parsed = parseLength(isBare ? `${bare} ${unit}` : text)
  return parsed.ok ? { mm: parsed.mm } : { fault: { detail: parsed.reason, hint: parsed.hint } }
}

/** Undefined if blank, NaN if not a number. */
function readNumber(text: string): number | undefined {
  const plain = text.trim().replace(/ ?%$/, '')
  if (plain === '') return undefined
  return NUMBER.test(plain) ? Number(plain) : Number.NaN
}
