import { withPoint } from './decimals.ts'
import { aside, type Content, header, longAside, result, type Styled } from './sheet.ts'

/*
 * Formulas as stored in a workbook file: English names, commas, and `_xlfn.` before functions newer than the format.
 */

/** One number of the service and where it is shown. */
export interface ServiceValue {
  readonly label: string
  readonly unit: string
  readonly decimals: 0 | 2
  /** Path of the cell, with the fixed part of its query: `/v1/cell/mid-ordinate?rail=outer`. */
  readonly path: string
  /** Words and measures that come from cells, by parameter; a parameter whose cell is empty is left out. */
  readonly words: Readonly<Record<string, string>>
  readonly measures: Readonly<Record<string, string>>
}

export const RESULT_HEADER: readonly Styled[] = ['Result', 'Number', 'Unit', 'Asked', 'As answered'].map(header)

/**
 * Rows with columns A to E: label, number, unit, address asked, answer as received. An error message
 * replaces the number.
 *
 * @param firstRow its number in the sheet, from 1
 */
export function resultRows(values: readonly ServiceValue[], firstRow: number): (Content | Styled)[][] {
  return values.map(({ label, unit, decimals, path, words, measures }, index) => {
    const row = firstRow + index
    return [
      label,
      result(`IFERROR(_xlfn.NUMBERVALUE(E${row},".",","),E${row})`, decimals),
      unit,
      longAside(addressOf(path, { words, measures })),
      aside(`_xlfn.WEBSERVICE(D${row})`),
    ]
  })
}

function addressOf(path: string, { words, measures }: Pick<ServiceValue, 'words' | 'measures'>): string {
  const fixed = `service&"${path}${path.includes('?') ? '&' : '?'}errors=cell&refresh="&again`
  return [
    fixed,
    ...Object.entries(words).map(([name, cell]) => sent(name, cell, cell)),
    ...Object.entries(measures).map(([name, cell]) => sent(name, cell, withPoint(cell))),
  ].join('&')
}

function sent(name: string, cell: string, content: string): string {
  return `IF(${cell}="","","&${name}="&_xlfn.ENCODEURL(${content}))`
}
