import type { Fault } from '../../measure/fault.ts'
import { isZip } from '../../paper/rows-in/file-kinds.ts'
import { readCsv, readCsvText } from '../../paper/rows-in/read-csv.ts'
import { readWorkbook } from '../../paper/rows-in/read-workbook.ts'
import { trackRows } from '../../paper/rows-in/track-rows.ts'
import { type FormPart, formOfPlan } from './plan-form.ts'

/** The key of the text field for pasted rows of a track. */
export const ROWS = 'rows'

/** The key of what was left out of them, which no field sends back. */
export const ROWS_IGNORED = 'rowsIgnored'

/** The key of the file field for them. */
export const ROWS_FILE = 'file'

/** The track whose rows a button imports, from its value such as `rows tracks.0`; null for anything else. */
export function readRowsImport(value: string): number | null {
  const match = /^rows tracks\.(\d{1,3})$/.exec(value)
  return match ? Number(match[1]) : null
}

/** The form with the text pasted for each track, so that the next page shows it again. */
export function withPasted(form: FormPart, fields: ReadonlyMap<string, string>): FormPart {
  return withTracks(form, (track, index) => {
    const text = fields.get(`tracks.${index}.${ROWS}`)
    return text === undefined || text.trim() === '' ? track : { ...track, cells: { ...track.cells, [ROWS]: text } }
  })
}

/**
 * Replaces the elements of one track by those of a table: a file if one was chosen, otherwise the pasted text.
 *
 * @returns the form, or the faults, row by row
 */
export async function withRowsImported(
  form: FormPart,
  track: number,
  file: Uint8Array | null,
): Promise<{ ok: true; form: FormPart } | { ok: false; faults: readonly Fault[] }> {
  const text = form.tables.tracks?.[track]?.cells[ROWS] ?? ''
  const read = file === null ? readCsvText(text) : isZip(file) ? await readWorkbook(file) : readCsv(file)
  const { elements, tracks, ignored, faults } = read.ok
    ? trackRows(read.sheet)
    : { elements: [], tracks: null, ignored: [], faults: read.faults }
  const found = [...faults, ...(tracks !== null && tracks.length > 1 ? [SEVERAL_TRACKS] : [])]
  if (found.length > 0)
    return {
      ok: false,
      faults: found.map(({ code, detail, hint }) => ({ path: ['tracks', track], code, detail, hint })),
    }
  const imported = formOfPlan({ tracks: [{ elements }] }).tables.tracks![0]!.tables.elements!
  return {
    ok: true,
    form: withTracks(form, (part, index) => {
      if (index !== track) return part
      const { [ROWS]: _, ...rest } = part.cells
      const cells = ignored.length === 0 ? rest : { ...rest, [ROWS_IGNORED]: ignored.join(', ') }
      return { ...part, cells, tables: { ...part.tables, elements: imported } }
    }),
  }
}

const SEVERAL_TRACKS = {
  code: 'too-many',
  detail: 'the table has the elements of several tracks',
  hint: 'keep the rows of one track, and add a track for each of the others',
}

function withTracks(form: FormPart, change: (track: FormPart, index: number) => FormPart): FormPart {
  return { ...form, tables: { ...form.tables, tracks: (form.tables.tracks ?? []).map(change) } }
}
