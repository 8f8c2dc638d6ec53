import type { Fault } from '../../measure/fault.ts'
import { isZip } from '../../paper/rows-in/file-kinds.ts'
import { readCsv, readCsvText } from '../../paper/rows-in/read-csv.ts'
import { readWorkbook } from '../../paper/rows-in/read-xlsx.ts'
import { trackRows } from '../../paper/rows-in/track-rows.ts'
import { type FormPart, formOfPlan } from './plan-form.ts'

/** Where the rows of a track are pasted, beside its own fields. */
export const ROWS = 'rows'

/** Where a file with them is chosen. */
export const ROWS_FILE = 'file'

/** What a button asks for that takes the rows of a track, e.g. `rows tracks.0`; null for anything else. */
export function readRowsWish(wish: string): number | null {
  const match = /^rows tracks\.(\d{1,3})$/.exec(wish)
  return match ? Number(match[1]) : null
}

/** The form with what was pasted for each track, so that it is there again when the page comes back. */
export function withPasted(form: FormPart, fields: ReadonlyMap<string, string>): FormPart {
  return withTracks(form, (track, index) => {
    const text = fields.get(`tracks.${index}.${ROWS}`)
    return text === undefined || text.trim() === '' ? track : { ...track, cells: { ...track.cells, [ROWS]: text } }
  })
}

/**
 * The form with the elements of one track taken from a table: a file where one was chosen, otherwise what was pasted.
 * Nothing else is changed.
 *
 * @returns or what is wrong, row by row
 */
export async function withRowsTaken(
  form: FormPart,
  track: number,
  file: Uint8Array | null,
): Promise<{ ok: true; form: FormPart } | { ok: false; faults: readonly Fault[] }> {
  const text = form.tables.tracks?.[track]?.cells[ROWS] ?? ''
  const read = file === null ? readCsvText(text) : isZip(file) ? await readWorkbook(file) : readCsv(file)
  const { elements, faults } = read.ok ? trackRows(read.sheet) : { elements: [], faults: read.faults }
  if (faults.length > 0)
    return {
      ok: false,
      faults: faults.map(({ code, detail, hint }) => ({ path: ['tracks', track], code, detail, hint })),
    }
  const taken = formOfPlan({ tracks: [{ elements }] }).tables.tracks![0]!.tables.elements!
  return {
    ok: true,
    form: withTracks(form, (part, index) => {
      if (index !== track) return part
      const { [ROWS]: _, ...cells } = part.cells
      return { ...part, cells, tables: { ...part.tables, elements: taken } }
    }),
  }
}

function withTracks(form: FormPart, change: (track: FormPart, index: number) => FormPart): FormPart {
  return { ...form, tables: { ...form.tables, tracks: (form.tables.tracks ?? []).map(change) } }
}
