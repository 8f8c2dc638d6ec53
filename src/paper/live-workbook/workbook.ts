import { writeXlsx } from 'hucre/xlsx'
import { CURVE_SHEET } from './curve-sheet.ts'
import { sheetOf } from './sheet.ts'
import { DECIMAL_CELL, REFRESH_CELL, SERVICE_CELL, startSheet } from './start-sheet.ts'
import { TRACK_SHEET } from './track-sheet.ts'

/** The same workbook always has the same bytes. */
const WRITTEN = new Date(0)

/**
 * A workbook whose formulas ask the service at the given address, e.g. `http://127.0.0.1:8080`. The names `service`,
 * `again` and `decimalSign` stand for cells of its first sheet.
 */
export async function liveWorkbook(base: string): Promise<Uint8Array<ArrayBuffer>> {
  const bytes = await writeXlsx({
    properties: { title: 'Longchord in your spreadsheet', creator: 'Longchord', created: WRITTEN, modified: WRITTEN },
    defaultFont: { name: 'Arial', size: 10 },
    namedRanges: [
      { name: 'service', range: SERVICE_CELL },
      { name: 'again', range: REFRESH_CELL },
      { name: 'decimalSign', range: DECIMAL_CELL },
    ],
    sheets: [startSheet(base), CURVE_SHEET, TRACK_SHEET].map(sheetOf),
  })
  return new Uint8Array(bytes)
}
