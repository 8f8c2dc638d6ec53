const SAVE_AS = 'open it in a spreadsheet and save it as XLSX, or as CSV'

/** The first bytes of files that are sent instead of a table, what they are, and what to do. */
const KINDS: readonly (readonly [begin: string, what: string, hint: string])[] = [
  ['PK\x03\x04', 'a workbook or an archive, not a CSV', 'choose it as a file on the page, or send it as XLSX'],
  ['\xd0\xcf\x11\xe0', 'an old workbook (XLS), or one with a password', SAVE_AS],
  ['%PDF', 'a PDF', 'save the table itself as XLSX or CSV'],
  ['\x89PNG', 'a picture', 'type its rows into a spreadsheet'],
  ['\xff\xd8\xff', 'a picture', 'type its rows into a spreadsheet'],
  ['\x1f\x8b', 'compressed', 'send it uncompressed'],
]

export function isZip(bytes: Uint8Array): boolean {
  return beginsWith(bytes, 'PK\x03\x04')
}

/** What kind of file it is if it is not a table. */
export function otherKind(bytes: Uint8Array): { readonly detail: string; readonly hint: string } | null {
  const kind = KINDS.find(([begin]) => beginsWith(bytes, begin))
  return kind ? { detail: `this is ${kind[1]}`, hint: kind[2] } : null
}

function beginsWith(bytes: Uint8Array, begin: string): boolean {
  return [...begin].every((sign, n) => bytes[n] === sign.charCodeAt(0))
}
