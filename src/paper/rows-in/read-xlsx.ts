import { inflateRawSync } from 'node:zlib'
import { readXlsx } from 'hucre/xlsx'
import { MOST_ROWS, type ReadSheet, type SheetCell, sheetFault } from './sheet.ts'

/** What a workbook may be unpacked. A small file can be made to grow a thousandfold. */
const MOST_UNPACKED_BYTES = 32 * 1024 * 1024

/** Reads the first sheet of a workbook (XLSX). Of formulas the value they had when it was saved counts. */
export async function readWorkbook(bytes: Uint8Array): Promise<ReadSheet> {
  const size = unpackedBytes(bytes)
  if (size === null) return refused('bad-text', 'this is no workbook', 'send an XLSX file, or a CSV as text/csv')
  if (size > MOST_UNPACKED_BYTES)
    return refused('too-many', 'unpacked, the workbook is over 32 MiB', 'copy the track alone into a new workbook')
  try {
    const { sheets } = await readXlsx(bytes, { sheets: [0], maxRows: MOST_ROWS + 1 })
    const rows = sheets[0]?.rows ?? []
    return { ok: true, sheet: rows.map((row) => row.map(cellOf)) }
  } catch {
    return refused('bad-text', 'the workbook cannot be read', 'open it in a spreadsheet and save it anew as XLSX')
  }
}

function refused(code: string, detail: string, hint: string): ReadSheet {
  return { ok: false, faults: [sheetFault(0, null, code, detail, hint)] }
}

function cellOf(value: string | number | boolean | Date | null | undefined): SheetCell {
  if (value === null || value === undefined) return null
  if (value instanceof Date) return { date: value }
  if (typeof value !== 'string') return value
  const text = value.trim()
  return text === '' ? null : text
}

const END = 0x06054b50
const ENTRY = 0x02014b50
const LOCAL = 0x04034b50

/**
 * What the files of a ZIP come to once they are unpacked, found by unpacking them, since what the file says of itself may
 * be wrong; stops when it is too much. Null for what is no ZIP (PKWARE APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.16).
 */
function unpackedBytes(bytes: Uint8Array): number | null {
  const file = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  try {
    let end = file.length - 22
    while (end >= 0 && file.readUInt32LE(end) !== END) end--
    if (end < 0) return null
    let at = file.readUInt32LE(end + 16)
    let total = 0
    for (let left = file.readUInt16LE(end + 10); left > 0; left--) {
      if (file.readUInt32LE(at) !== ENTRY) return null
      const packed = file.readUInt32LE(at + 20)
      const local = file.readUInt32LE(at + 42)
      if (file.readUInt32LE(local) !== LOCAL) return null
      const from = local + 30 + file.readUInt16LE(local + 26) + file.readUInt16LE(local + 28)
      const data = file.subarray(from, from + packed)
      const isPacked = file.readUInt16LE(at + 10) === 8
      total += isPacked ? inflateRawSync(data, { maxOutputLength: MOST_UNPACKED_BYTES }).length : data.length
      if (total > MOST_UNPACKED_BYTES) return total
      at += 46 + file.readUInt16LE(at + 28) + file.readUInt16LE(at + 30) + file.readUInt16LE(at + 32)
    }
    return total
  } catch (error) {
    return (error as { code?: string }).code === 'ERR_BUFFER_TOO_LARGE' ? Number.POSITIVE_INFINITY : null
  }
}
