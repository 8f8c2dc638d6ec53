import { Archive, ArchiveFault } from './archive.ts'
import { isZip, otherKind } from './file-kinds.ts'
import { inSheet, type ReadSheet, sheetFault } from './sheet.ts'
import { sheetInOpenDocument } from './sheet-in-opendocument.ts'
import { sheetIn } from './sheet-in-workbook.ts'
import { workbookParts } from './workbook-parts.ts'

/** The most bytes of a workbook that are unpacked. */
const MOST_UNPACKED_BYTES = 4 * 1024 * 1024

/**
 * Reads a workbook (XLSX, ODS): its sheet called Elements, or else its first sheet that is not hidden. For formulas, the
 * value when it was saved is read. Hidden rows are read like others.
 */
export async function readWorkbook(bytes: Uint8Array): Promise<ReadSheet> {
  const other = isZip(bytes) ? null : otherKind(bytes)
  if (other) return refused('bad-text', other.detail, other.hint)
  try {
    const archive = await Archive.open(bytes, MOST_UNPACKED_BYTES)
    const workbook = await workbookParts(archive)
    const read = workbook === null ? await sheetInOpenDocument(archive) : sheetIn(workbook)
    if (read === null) return refused('bad-text', 'this is neither an XLSX nor an ODS workbook', SAVE_AGAIN)
    if (!read.ok || read.sheet.rows.length > 0) return read
    const empty = sheetFault(0, null, 'missing', 'the sheet is empty', 'put the track on the first sheet')
    return { ok: false, faults: [inSheet(empty, read.sheet)] }
  } catch (error) {
    if (!(error instanceof ArchiveFault)) throw error
    if (error.why === 'too-large') return refused('too-many', 'unpacked, the workbook is over 4 MiB', COPY_TRACK)
    if (error.why === 'encrypted') return refused('bad-text', 'the workbook is locked', 'save it without a password')
    return refused('bad-text', 'the workbook cannot be read', SAVE_AGAIN)
  }
}

const SAVE_AGAIN = 'open it in a spreadsheet and save it as XLSX, or as CSV'
const COPY_TRACK = 'copy only the track into a new workbook'

function refused(code: string, detail: string, hint: string): ReadSheet {
  return { ok: false, faults: [sheetFault(0, null, code, detail, hint)] }
}
