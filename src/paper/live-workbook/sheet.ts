import type { Cell, CellStyle, DataValidation, WriteSheet } from 'hucre/xlsx'

/** The content of a cell: a text, a number, a formula, or nothing. */
export type Content = string | number | { readonly formula: string } | null

export interface Styled {
  readonly content: Content
  readonly style: CellStyle
}

export interface Layout {
  readonly name: string
  /** In characters, from column A on. */
  readonly widths: readonly number[]
  /** From row 1 on, each from column A on. */
  readonly rows: readonly (readonly (Content | Styled)[])[]
  readonly choices?: readonly DataValidation[]
}

const FONT = { name: 'Arial', size: 10 }
const colour = (rgb: string) => ({ type: 'pattern', pattern: 'solid', fgColor: { rgb } }) as const
const EDGE = { style: 'thin', color: { rgb: 'B09A74' } } as const
const GREY = { ...FONT, color: { rgb: '6B756E' } }

const TITLE: CellStyle = { font: { ...FONT, bold: true, size: 14 } }
const HEADER: CellStyle = { font: { ...FONT, bold: true }, fill: colour('E9E2CF') }
const PLAIN: CellStyle = { font: FONT }
const INPUT: CellStyle = {
  font: FONT,
  fill: colour('FFF3C4'),
  border: { top: EDGE, bottom: EDGE, left: EDGE, right: EDGE },
  alignment: { horizontal: 'left' },
}
const RESULT: CellStyle = { font: { ...FONT, bold: true }, alignment: { horizontal: 'right' } }

export const title = (content: Content): Styled => ({ content, style: TITLE })
export const header = (content: Content): Styled => ({ content, style: HEADER })
/** A cell for the reader to change. */
export const input = (content: Content): Styled => ({ content, style: INPUT })
/** Shown with this many decimals; all are kept. */
export const result = (formula: string, decimals: 0 | 2): Styled => ({
  content: { formula },
  style: { ...RESULT, numFmt: decimals === 0 ? '0' : '0.00' },
})
/** Where a result comes from: for reference. */
export const aside = (formula: string): Styled => ({ content: { formula }, style: { font: GREY } })
/** The same for a text that is wider than its column, which shows its beginning. */
export const longAside = (formula: string): Styled => ({
  content: { formula },
  style: { font: GREY, alignment: { horizontal: 'fill' } },
})

/** In the form of the library. */
export function sheetOf({ name, widths, rows, choices = [] }: Layout): WriteSheet {
  const cells = new Map<string, Partial<Cell>>()
  for (const [row, line] of rows.entries()) {
    for (const [column, item] of line.entries()) {
      const { content, style } = isStyled(item) ? item : { content: item, style: PLAIN }
      if (content === null && !isStyled(item)) continue
      cells.set(`${row},${column}`, { ...heldAs(content), style })
    }
  }
  return {
    name,
    columns: widths.map((width) => ({ width })),
    cells,
    dataValidations: [...choices],
    pageSetup: { orientation: 'landscape', fitToPage: true, fitToWidth: 1, fitToHeight: 0 },
  }
}

function isStyled(item: Content | Styled): item is Styled {
  return typeof item === 'object' && item !== null && 'style' in item
}

function heldAs(content: Content): Partial<Cell> {
  if (content === null) return { type: 'empty', value: null }
  if (typeof content === 'number') return { type: 'number', value: content }
  if (typeof content === 'string') return { type: 'string', value: content }
  return { type: 'formula', value: null, formula: content.formula }
}
