import { excerpt } from '../../measure/excerpt.ts'
import { parseLength } from '../../measure/length.ts'
import { plainDecimal } from '../../measure/plain-decimal.ts'
import { withPoint } from './decimal-signs.ts'
import { ANGLE_UNITS, LENGTH_UNITS } from './header.ts'
import { type DecimalSign, LONGEST_CELL, type SheetCell, type ShownNumber } from './sheet.ts'

/** A column of a track. `unit`: the unit in its header. */
export interface ColumnRead {
  readonly name: string
  readonly index: number
  readonly kind: 'length' | 'angle' | 'word' | 'text'
  readonly unit: string | null
}

type Refused = { readonly fault: readonly [code: string, detail: string, hint: string] }
export type CellValue = { readonly value: unknown } | Refused

/** Other words for the kinds of elements and for turns, besides their names in a plan. */
const WORDS: Readonly<Record<string, ReadonlyMap<string, string>>> = {
  kind: new Map([
    ['straight', 'tangent'],
    ['curve', 'arc'],
  ]),
  turn: new Map([
    ['l', 'left'],
    ['r', 'right'],
  ]),
}

/** What spreadsheets write instead of a result when there is an error. */
const ERROR = /^(?:#(?:REF!|N\/A|VALUE!|DIV\/0!|NAME\?|NUM!|NULL!|SPILL!|CALC!)|Err:\d{3})$/

const NUMBER = /^-?(?:\d+(?:\.\d+)?|\.\d+)$/
const BARE_FRACTION = /^(?:\d+[ -])?\d+\/\d+$|[½¼¾⅛⅜⅝⅞]$/
const DATE = /^\d{1,4}[./-]\d{1,2}[./-]\d{1,4}$|^\d{1,2}[-. ]+[a-z]{3}|^[a-z]{3}[-. ]+\d{1,4}$/i

/** Beyond these limits no length or angle makes sense, whatever its unit. */
const GREATEST = 1e12
const SMALLEST = 1e-12

/** The value of a cell as in a plan; undefined where it is empty. */
export function cellValue(cell: SheetCell, column: ColumnRead, sign: DecimalSign): CellValue {
  const { name, kind } = column
  if (cell === null) return { value: undefined }
  if (typeof cell === 'object' && 'hides' in cell) return cell.hides === 'date' ? A_DATE : NO_RESULT
  if (typeof cell === 'boolean') return refused('wrong-type', 'the cell contains true or false', `write the ${name}`)
  if (typeof cell === 'string') {
    if (cell.length > LONGEST_CELL)
      return refused('too-long', `${cell.length} characters; the limit is ${LONGEST_CELL}`, 'shorten it')
    if (ERROR.test(cell))
      return refused('wrong-type', `the formula gives the error ${cell}`, 'correct it in the spreadsheet')
  }
  const written = typeof cell === 'object' ? cell.shows : String(cell)
  if (kind === 'text') return { value: written }
  if (kind === 'word') {
    const word = written.toLowerCase()
    return { value: WORDS[name]?.get(word) ?? word }
  }
  if (typeof cell === 'object') return shownMeasure(cell, column)
  if (typeof cell === 'number') return measure(String(cell), column)
  const text = withPoint(cell, sign)
  if (text === null)
    return refused(
      'bad-number',
      `"${excerpt(cell)}" is ambiguous: the sign may mark decimals or thousands`,
      'write thousands without a sign (1500) and decimals not in threes (1.5, 1.2340); one such decimal settles it for the whole table',
    )
  return kind === 'angle' ? angle(text, column) : length(text, column)
}

/** A number with a unit in its format, or one that is not what the cell shows. */
function shownMeasure({ number, unit, shows }: ShownNumber, column: ColumnRead): CellValue {
  const written = unit?.toLowerCase() ?? ''
  const isLength = column.kind === 'length' && LENGTH_UNITS.has(written)
  if (isLength || (column.kind === 'angle' && ANGLE_UNITS.has(written)))
    return measure(String(number), { ...column, unit: written })
  return refused(
    'bad-number',
    `the cell shows ${shows === '' ? 'nothing' : `"${excerpt(shows)}"`}, but contains a number that may mean something else`,
    'format it as a number, and write its unit in the header',
  )
}

function angle(text: string, column: ColumnRead): CellValue {
  const bare = text.replace(/(?:°|deg|degrees?)$/i, '').trimEnd()
  if (NUMBER.test(bare)) return measure(bare, column)
  if (DATE.test(text)) return A_DATE
  return refused('bad-number', `"${excerpt(text)}" is not an angle`, 'write degrees, such as 45 or 22.5')
}

/** A cell's own unit takes precedence over that of the header. */
function length(text: string, column: ColumnRead): CellValue {
  if (NUMBER.test(text)) return measure(text, column)
  const read = parseLength(text)
  if (read.ok) return { value: text }
  const unit = unitOf(column)
  if (unit !== null && parseLength(`${text} ${unit}`).ok) return { value: `${text} ${unit}` }
  if (unit === null && BARE_FRACTION.test(text))
    return refused('bad-length', read.reason, `write ${text} in, or the unit in the header: ${column.name} (in)`)
  if (DATE.test(text)) return A_DATE
  return refused('bad-length', read.reason, HOW_TO_WRITE)
}

/** A number alone, in the unit of its header. */
function measure(digits: string, column: ColumnRead): CellValue {
  const value = Number(digits)
  const size = Math.abs(value)
  if (!(size < GREATEST)) return refused('out-of-range', `${excerpt(digits)} is too large`, 'check its digits')
  if (size > 0 && size < SMALLEST) return refused('out-of-range', `${excerpt(digits)} is too small`, 'check its digits')
  const unit = unitOf(column)
  return { value: unit === null || unit === 'mm' ? value : `${plainDecimal(value)} ${unit}` }
}

function unitOf({ kind, unit }: ColumnRead): string | null {
  return kind === 'length' && unit !== null ? LENGTH_UNITS.get(unit)! : null
}

const HOW_TO_WRITE =
  'write for example 2400, 8 ft, 7 ft 6-1/2 in or 2.4 m; a number alone is in the unit of the header, or in millimetres'

const A_DATE = refused(
  'wrong-type',
  'the spreadsheet has turned the input into a date',
  'format the cell as text before you type 1-3/4',
)

const NO_RESULT = refused(
  'missing',
  'the result of the formula is not in the file',
  'open the workbook in a spreadsheet and save it',
)

function refused(code: string, detail: string, hint: string): Refused {
  return { fault: [code, detail, hint] }
}
