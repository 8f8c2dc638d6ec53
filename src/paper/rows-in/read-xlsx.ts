import { Archive, ArchiveFault } from './archive.ts'
import { isZip, otherKind } from './file-kinds.ts'
import { type ReadSheet, sheetFault } from './sheet.ts'
import { sheetIn } from './sheet-in-workbook.ts'
import { workbookParts } from './workbook-parts.ts'

/** The most bytes of a workbook that are unpacked. */
const MOST_UNPACKED_BYTES = 4 * 1024 * 1024

/**
 * Reads a workbook (XLSX): its first sheet that is not hidden. For formulas, the value when it was saved is read.
 * Hidden rows are read like others.
 */
export async function readWorkbook(bytes: Uint8Array): Promise<ReadSheet> {
  const other = isZip(bytes) ? null : otherKind(bytes)
  if (other) return refused('bad-text', other.detail, other.hint)
  try {
    const archive = await Archive.open(bytes, MOST_UNPACKED_BYTES)
    const workbook = await workbookParts(archive)
    if (workbook === null) return refused('bad-text', 'this is not an XLSX workbook', SAVE_ANEW)
    const read = sheetIn(workbook)
    if (!read.ok || read.sheet.rows.length > 0) return read
    return refused('missing', 'the first sheet of the workbook is empty', 'put the track on its first sheet')
  } catch (error) {
    if (!(error instanceof ArchiveFault)) throw error
    if (error.why === 'too-large') return refused('too-many', 'unpacked, the workbook is over 4 MiB', COPY_TRACK)
    if (error.why === 'encrypted') return refused('bad-text', 'the workbook is locked', 'save it without a password')
    return refused('bad-text', 'the workbook cannot be read', SAVE_ANEW)
  }
}

const SAVE_ANEW = 'open it in a spreadsheet and save it as XLSX, or as CSV'
const COPY_TRACK = 'copy only the track into a new workbook'

function refused(code: string, detail: string, hint: string): ReadSheet {
  return { ok: false, faults: [sheetFault(0, null, code, detail, hint)] }
}
