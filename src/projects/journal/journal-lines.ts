import { crc32 } from 'node:zlib'

/*
 * A journal is a text file with one line for each row of the database as it once was, and then one for each row that was
 * written or removed since:
 *
 *     crc32 {"journal":1,"id":"…","migration":1763000000000}
 *     crc32 {"seq":0,"table":"projects","change":"put","row":{…}}
 *     crc32 {"seq":7,"table":"project_links","change":"remove","row":{…}}
 *
 * An export or a backup has the same lines. It says so in its head, and ends with
 *
 *     crc32 {"end":true}
 *
 * The checksum is that of the rest of the line in UTF-8, in eight hexadecimal digits. Rows are PostgreSQL's own JSON, letter
 * for letter, and stand last in their line, so that they need not be read to be written back.
 */

export interface JournalHead {
  /** Chosen at random for each journal; the database has it too. */
  readonly id: string
  /** When the latest migration of the rows was written, as in the migrations' own journal. */
  readonly migration: number
  /** Whether there must be a last line that says so: in exports and backups, which may be cut off on their way. */
  readonly ends?: boolean
}

export interface RowChange {
  /** Its number among the changes since the journal was begun, from 1; 0 for the rows it began with. */
  readonly seq: number
  readonly table: string
  readonly change: 'put' | 'remove'
  /** JSON. */
  readonly row: string
}

const VERSION = 1
const ROW = ',"row":'
const END = '{"end":true}'

export function headLine({ id, migration, ends }: JournalHead): string {
  return checked(JSON.stringify({ journal: VERSION, id, migration, ends }))
}

export function endLine(): string {
  return checked(END)
}

export function changeLine({ seq, table, change, row }: RowChange): string {
  // Between two tokens of JSON a line break is the same as a blank; within a text it is always escaped.
  const oneLine = row.replaceAll('\n', ' ')
  return checked(`${JSON.stringify({ seq, table, change }).slice(0, -1)}${ROW}${oneLine}}`)
}

function checked(text: string): string {
  return `${checksum(text)} ${text}\n`
}

function checksum(text: string): string {
  return crc32(text).toString(16).padStart(8, '0')
}

export type JournalLine =
  | { readonly kind: 'head'; readonly head: JournalHead }
  | { readonly kind: 'change'; readonly change: RowChange }
  | { readonly kind: 'end' }
  | { readonly kind: 'damaged' }

/** @param line without its line break */
export function readJournalLine(line: string): JournalLine {
  const text = line.slice(9)
  if (line[8] !== ' ' || line.slice(0, 8) !== checksum(text)) return { kind: 'damaged' }
  if (text === END) return { kind: 'end' }
  const row = text.indexOf(ROW)
  if (row < 0) {
    const { journal, ...head } = JSON.parse(text) as JournalHead & { journal: number }
    return journal === VERSION ? { kind: 'head', head } : { kind: 'damaged' }
  }
  const noted = JSON.parse(`${text.slice(0, row)}}`) as Omit<RowChange, 'row'>
  return { kind: 'change', change: { ...noted, row: text.slice(row + ROW.length, -1) } }
}
