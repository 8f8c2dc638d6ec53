import { readSurvey } from '../../estimate/questions/read-survey.ts'
import type { Fault } from '../../measure/fault.ts'
import type { SurveyInput } from '../../plan/rows/survey.ts'

/** The texts of the survey form, by field. */
export type SurveyFields = Readonly<Record<(typeof SURVEY_FIELDS)[number], string>>

/** A line of text for each entry of the first five. */
export const SURVEY_FIELDS = ['pegs', 'distances', 'levels', 'lines', 'points', 'tapeError', 'levelError'] as const

type ListField = Extract<(typeof SURVEY_FIELDS)[number], 'pegs' | 'distances' | 'levels' | 'lines' | 'points'>

export interface FieldFault {
  readonly field: (typeof SURVEY_FIELDS)[number]
  /** Of the text, from 1; null where the fault is not in one line. */
  readonly line: number | null
  readonly fault: Fault
}

type ReadSurveyForm =
  | { readonly ok: true; readonly input: SurveyInput; readonly placed: (fault: Fault) => FieldFault }
  | { readonly ok: false; readonly faults: readonly FieldFault[] }

/** The fields that were sent; missing ones are blank. */
export function surveyFieldsOf(sent: ReadonlyMap<string, string>): SurveyFields {
  const typed = SURVEY_FIELDS.map((name) => [
    name,
    (sent.get(name) ?? '').replaceAll('\0', '').replaceAll('\r\n', '\n'),
  ])
  return Object.fromEntries(typed) as SurveyFields
}

/** Reads the form as a survey would be read that is sent as JSON, with each fault at its line. */
export function readSurveyForm(fields: SurveyFields): ReadSurveyForm {
  const linesOf = new Map<string, number>()
  const faults: FieldFault[] = []
  const entries = (field: ListField, names: readonly string[]) =>
    cellsIn(fields[field]).map(({ cells, line }, index) => {
      linesOf.set(`${field}/${index}`, line)
      if (cells.length > names.length) faults.push(tooManyCells(field, line, cells.length, names.length))
      return Object.fromEntries(
        names.flatMap((name, at) => (cells[at] ? [[name, cellValue(name, cells[at]!)] as const] : [])),
      )
    })
  const optional = (field: 'tapeError' | 'levelError') =>
    fields[field].trim() === '' ? {} : { [field]: lengthOf(fields[field].trim()) }
  const sent = {
    pegs: entries('pegs', ['name', 'x', 'y', 'elevation']),
    distances: entries('distances', ['from', 'to', 'length', 'slope']),
    levels: entries('levels', ['from', 'to', 'rise']),
    lines: levelLinesIn(fields.lines, linesOf, faults),
    points: entries('points', ['name', 'side']),
    ...optional('tapeError'),
    ...optional('levelError'),
  }
  const placed = (fault: Fault): FieldFault => {
    const [field, ...rest] = fault.path
    const known = SURVEY_FIELDS.find((each) => each === field) ?? 'pegs'
    const line = linesOf.get([field, ...rest.slice(0, 3)].join('/')) ?? linesOf.get([field, rest[0]].join('/')) ?? null
    return { field: known, line, fault }
  }
  const read = readSurvey(sent)
  const all = [...faults, ...(read.ok ? [] : read.faults.map(placed))]
  return read.ok && all.length === 0 ? { ok: true, input: read.input, placed } : { ok: false, faults: all }
}

interface Cells {
  readonly cells: readonly string[]
  readonly line: number
}

/** Every line with something in it, divided at commas, semicolons or tabs. */
function cellsIn(text: string): Cells[] {
  return text.split('\n').flatMap((typed, index) => {
    if (typed.trim() === '') return []
    return [{ cells: typed.split(/[,;\t]/).map((cell) => cell.trim()), line: index + 1 }]
  })
}

function tooManyCells(field: ListField, line: number, found: number, most: number): FieldFault {
  const detail = `${found} values where at most ${most} are expected`
  const hint = 'separate values by commas, and write decimals with a point'
  return { field, line, fault: { path: [field], code: 'too-many', detail, hint } }
}

function cellValue(name: string, cell: string): unknown {
  if (['from', 'to', 'name', 'side'].includes(name)) return cell
  if (name === 'slope') return cell.toLowerCase() === 'slope' ? true : cell
  return lengthOf(cell)
}

/** A number without a unit is millimetres. */
function lengthOf(cell: string): unknown {
  const plain = cell.replace(/^[–−]/, '-')
  return /^[-+]?(?:\d+(?:\.\d*)?|\.\d+)$/.test(plain) ? Number(plain) : plain
}

/** Lines of stations: a heading `name: from, to`, and under it a line `length, rise` for each step. */
function levelLinesIn(text: string, linesOf: Map<string, number>, faults: FieldFault[]): object[] {
  const lines: { name: string; from?: string; to?: string; readings: object[] }[] = []
  for (const [index, typed] of text.split('\n').entries()) {
    if (typed.trim() === '') continue
    const line = index + 1
    const [heading, ends] = /^([^:]*):(.*)$/.exec(typed)?.slice(1) ?? []
    if (heading !== undefined && ends !== undefined) {
      const [from, to, ...more] = ends.split(/[,;\t]/).map((cell) => cell.trim())
      if (more.length > 0) faults.push(tooManyCells('lines', line, more.length + 2, 2))
      linesOf.set(`lines/${lines.length}`, line)
      lines.push({ name: heading.trim(), ...(from && { from }), ...(to && { to }), readings: [] })
      continue
    }
    const last = lines.at(-1)
    if (!last) {
      const detail = 'there is a step before the first heading'
      const hint = 'begin with a line such as "path: house, terrace"'
      faults.push({ field: 'lines', line, fault: { path: ['lines'], code: 'missing', detail, hint } })
      continue
    }
    const [length, rise, ...more] = typed.split(/[,;\t]/).map((cell) => cell.trim())
    if (more.length > 0) faults.push(tooManyCells('lines', line, more.length + 2, 2))
    linesOf.set(`lines/${lines.length - 1}/readings/${last.readings.length}`, line)
    last.readings.push({ ...(length && { length: lengthOf(length) }), ...(rise && { rise: lengthOf(rise) }) })
  }
  return lines
}
