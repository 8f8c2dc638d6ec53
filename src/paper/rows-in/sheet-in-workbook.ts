import { cellOf, type PlacedCell, type ReadSheet, type SheetCell, sheetOfCells } from './sheet.ts'
import { type WorkbookParts, withoutEscapes } from './workbook-parts.ts'
import { xmlParts } from './xml-parts.ts'

/** A cell in the file (ECMA-376, part 1, section 18.3.1.4). */
interface WrittenCell {
  readonly row: number
  readonly column: number
  readonly type: string
  readonly style: number
  hasFormula: boolean
  value: string
  /** A text stored in the cell itself. */
  text: string
}

/** The cells of the sheet, as far as a track may reach. */
export function sheetIn(workbook: WorkbookParts): ReadSheet {
  return sheetOfCells(placedCells(workbook), workbook.name)
}

function* placedCells(workbook: WorkbookParts): Generator<PlacedCell> {
  for (const cell of cellsIn(workbook.sheet))
    yield { row: cell.row, column: cell.column, rows: 1, columns: 1, value: valueIn(cell, workbook) }
}

/** Rows and cells without a position follow the one before. */
function* cellsIn(xml: string): Generator<WrittenCell> {
  let row = -1
  let column = -1
  let cell: WrittenCell | null = null
  let into: 'value' | 'text' | null = null
  let inSound = false
  for (const part of xmlParts(xml)) {
    if (part.is === 'text') {
      if (cell && into && !inSound) cell[into] += part.text
      continue
    }
    const isStart = part.is === 'start'
    if (part.name === 'row' && isStart) {
      row = numberIn(part.attributes.get('r')) ?? row + 1
      column = -1
    } else if (part.name === 'c' && isStart) {
      const place = placeOf(part.attributes.get('r'))
      column = place?.column ?? column + 1
      const style = Number(part.attributes.get('s') ?? 0)
      const type = part.attributes.get('t') ?? 'n'
      cell = { row: place?.row ?? row, column, type, style, hasFormula: false, value: '', text: '' }
    } else if (part.name === 'c') {
      if (cell) yield cell
      cell = null
    } else if (part.name === 'v') into = isStart ? 'value' : null
    else if (part.name === 't') into = isStart ? 'text' : null
    else if (part.name === 'rPh') inSound = isStart
    else if (part.name === 'f' && cell) cell.hasFormula = true
  }
}

function valueIn({ type, style, hasFormula, value, text }: WrittenCell, { strings, shows }: WorkbookParts): SheetCell {
  if (type === 'inlineStr') return cellOf(withoutEscapes(text))
  if (type === 'str' || type === 'e') return cellOf(withoutEscapes(value))
  if (value === '') return hasFormula ? { hides: 'result' } : null
  if (type === 's') return strings[Number(value)] ?? null
  if (type === 'b') return value.trim() === '1'
  const number = Number(value)
  if (type === 'd') return { hides: 'date' }
  if (Number.isNaN(number)) return cellOf(value)
  return Number.isFinite(number) ? shows(style)(number) : number
}

/** Rows are counted from 1 in the file. */
function numberIn(text: string | undefined): number | null {
  return text !== undefined && /^[1-9]\d{0,6}$/.test(text) ? Number(text) - 1 : null
}

/** B3: row 2, column 1, both from 0. */
function placeOf(reference: string | undefined): { readonly row: number; readonly column: number } | null {
  const match = /^([A-Z]{1,3})([1-9]\d{0,6})$/i.exec(reference ?? '')
  if (!match) return null
  const letters = [...match[1]!.toUpperCase()]
  const column = letters.reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1
  return { row: Number(match[2]) - 1, column }
}
