import Papa from 'papaparse'
import { COLUMN_NAMES, headerOf } from './header.ts'
import { MOST_ROWS, type ReadSheet, sheetFault } from './sheet.ts'

const SEPARATORS = [',', ';', '\t'] as const

/**
 * Reads a CSV, or rows copied out of a spreadsheet: UTF-8, or UTF-16 with a byte order mark; commas, semicolons or tabs
 * between cells, whichever divides the header into most of the names it may have; lines that end in CR LF, LF or CR.
 */
export function readCsv(bytes: Uint8Array): ReadSheet {
  const text = decoded(bytes)
  if (text === null)
    return {
      ok: false,
      faults: [sheetFault(0, null, 'bad-text', 'the table is neither UTF-8 nor UTF-16', 'save it as CSV in UTF-8')],
    }
  return readCsvText(text)
}

export function readCsvText(text: string): ReadSheet {
  const { data, errors } = Papa.parse<string[]>(text, {
    delimiter: separatorOf(text),
    skipEmptyLines: false,
    preview: MOST_ROWS + 1,
  })
  const quotes = errors.find(({ type }) => type === 'Quotes')
  if (quotes)
    return {
      ok: false,
      faults: [
        sheetFault(
          quotes.row ?? 0,
          null,
          'bad-text',
          'a double quote is not closed, or stands where none may',
          'a quote inside a quoted cell is written twice: "7\' 6"""',
        ),
      ],
    }
  return { ok: true, sheet: data.map((row) => row.map((cell) => (cell.trim() === '' ? null : cell.trim()))) }
}

function decoded(bytes: Uint8Array): string | null {
  const [first, second] = bytes
  const encoding =
    first === 0xff && second === 0xfe ? 'utf-16le' : first === 0xfe && second === 0xff ? 'utf-16be' : 'utf-8'
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes)
  } catch {
    return null
  }
}

/** A length such as 7' 6" has a quote in it, so the header, which has none, decides. */
function separatorOf(text: string): string {
  const header = text.split(/\r\n|\n|\r/).find((line) => line.trim() !== '') ?? ''
  const known = (separator: string) =>
    header.split(separator).filter((cell) => COLUMN_NAMES.has(headerOf(cell.replace(/^\s*"|"\s*$/g, '')).name)).length
  return SEPARATORS.reduce<string>((best, each) => (known(each) > known(best) ? each : best), ',')
}
