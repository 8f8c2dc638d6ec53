import { TABLE_NAMES } from './estimate-tables.ts'

/** The forms a table is given in. */
export const TABLE_FORMATS = ['csv', 'json'] as const

/** The files below `/tables/`: `elements.csv`, `elements.json`, … */
export const TABLE_FILES = TABLE_NAMES.flatMap((name) => TABLE_FORMATS.map((format) => `${name}.${format}` as const))

/** The addresses a link for spreadsheets gives: its tables in each form, all of them as a workbook, and the printed sheets. */
export function linkedAddresses(token: string): { tables: string[]; workbook: string; sheets: string } {
  const address = `/v1/linked/${token}`
  return {
    tables: TABLE_FILES.map((file) => `${address}/tables/${file}`),
    workbook: `${address}/workbook.xlsx`,
    sheets: `${address}/sheets.pdf`,
  }
}
