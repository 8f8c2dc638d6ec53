import Papa from 'papaparse'
import { otherKind } from './file-kinds.ts'
import { COLUMN_NAMES, headerOf } from './header.ts'
import { cellOf, MOST_ROWS, type ReadSheet, sheetFault, tooManyRows, trimmed } from './sheet.ts'

/** A longer header cannot consist of column names. */
const LONGEST_LINE = 10_000

/** More titles than this above a header are not looked through. */
const LINES_LOOKED_AT = 31

const SEPARATORS = [',', ';', '\t'] as const

/**
 * Reads a CSV, or rows copied from a spreadsheet: UTF-8, or UTF-16 with a byte order mark, or the declared encoding;
 * commas, semicolons or tabs between cells, whichever divides the header into the most known names; lines that end in
 * CR LF, LF or CR.
 *
 * @param encoding a name of the Encoding Standard; null: not declared
 */
export function readCsv(bytes: Uint8Array, encoding: string | null = null): ReadSheet {
  const other = otherKind(bytes)
  if (other) return refused(0, null, other.detail, other.hint)
  const text = decoded(bytes, encoding)
  if (text !== null) return readCsvText(text)
  const what = encoding === null ? 'neither UTF-8 nor UTF-16' : `not in ${encoding} as declared`
  return refused(0, null, `the table is ${what}`, 'save it as CSV in UTF-8')
}

export function readCsvText(text: string): ReadSheet {
  const separator = separatorOf(text)
  const { data, errors } = Papa.parse<string[]>(filled(text), {
    delimiter: separator,
    newline: '\n',
    skipEmptyLines: false,
    preview: MOST_ROWS + 1,
  })
  if (data.length > MOST_ROWS) return { ok: false, faults: [tooManyRows(MOST_ROWS)] }
  const quotes = errors.find(({ type }) => type === 'Quotes')
  if (quotes)
    return refused(
      quotes.row ?? 0,
      null,
      'a double quote is not closed, or is not allowed there',
      'write a quote inside a quoted cell twice: "7\' 6"""',
    )
  const rows = trimmed(data.map((row) => row.map(cellOf)))
  const row = rows.findIndex((cells) => cells.some((cell) => String(cell).includes('\0')))
  if (row >= 0)
    return refused(
      row,
      rows[row]!.findIndex((cell) => String(cell).includes('\0')),
      'there is a NUL character',
      'save the table as CSV in UTF-8',
    )
  return { ok: true, sheet: { rows, usualSign: separator === ',' ? '.' : null, name: null } }
}

/** The text without the blank cells and rows at its end, of which there may be many; its lines end in LF. */
function filled(text: string): string {
  let end = text.length
  while (end > 0 && BLANK.has(text[end - 1]!)) end--
  return text.slice(0, end).replace(/\r\n?/g, '\n')
}

const BLANK: ReadonlySet<string> = new Set([...SEPARATORS, ' ', '\r', '\n'])

function refused(row: number, column: number | null, detail: string, hint: string): ReadSheet {
  return { ok: false, faults: [sheetFault(row, column, 'bad-text', detail, hint)] }
}

function decoded(bytes: Uint8Array, encoding: string | null): string | null {
  const [first, second] = bytes
  const marked = first === 0xff && second === 0xfe ? 'utf-16le' : first === 0xfe && second === 0xff ? 'utf-16be' : null
  try {
    return new TextDecoder(marked ?? encoding ?? 'utf-8', { fatal: true }).decode(bytes)
  } catch {
    return null
  }
}

/**
 * A length such as 7' 6" contains a quote, so the header, which has quotes only around its cells, decides. It is the
 * line with the most known names; there may be titles above it.
 */
function separatorOf(text: string): string {
  let best: { readonly separator: string; readonly known: number } = { separator: ',', known: 0 }
  for (const line of firstLines(text))
    for (const separator of SEPARATORS) {
      const cells = line.split(separator)
      const known = cells.filter((cell) => COLUMN_NAMES.has(headerOf(unquoted(cell.trim())).name)).length
      if (known > best.known) best = { separator, known }
    }
  return best.separator
}

/** As much of the first lines as could be a header, which may have titles and blank lines above it. */
function firstLines(text: string): string[] {
  const from = Math.max(0, text.search(/[^,;\t\r\n ]/))
  const lines = text.slice(from, from + LONGEST_LINE * LINES_LOOKED_AT).split(/[\r\n]+/, LINES_LOOKED_AT)
  return lines.map((line) => line.slice(0, LONGEST_LINE))
}

function unquoted(cell: string): string {
  return cell.startsWith('"') && cell.endsWith('"') ? cell.slice(1, -1) : cell
}
