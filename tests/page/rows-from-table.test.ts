import { expect, test } from 'vitest'
import writeExcelFile from 'write-excel-file/node'
import { changed, visiting } from './visiting.ts'

const { get, post } = visiting()

/** Sends the form of the start page as a browser does when the button says multipart, a file with it where one is given. */
async function send(
  change: Record<string, string>,
  file?: { field: string; name: string; bytes: Uint8Array<ArrayBuffer> },
) {
  const { fields } = await get('/new')
  const body = new FormData()
  for (const [name, value] of changed(fields, change)) body.set(name, value)
  if (file) body.set(file.field, new File([file.bytes], file.name))
  return post('/', body)
}

const ROWS = 'kind\tlength (ft)\tdiameter (ft)\tangle\tturn\r\ntangent\t6\t\t\t\r\narc\t\t18\t45\tleft\r\n'

test('rows copied out of a spreadsheet become the elements of their track; nothing else is lost', async () => {
  const { status, fields, markup } = await send({
    do: 'rows tracks.0',
    'tracks.0.rows': ROWS,
    'tracks.0.name': 'branch',
    title: 'Half typed',
    notes: 'kept',
  })
  expect(status).toBe(200)
  expect(fields.get('tracks.0.elements.0.kind')).toBe('tangent')
  expect(fields.get('tracks.0.elements.0.length')).toBe('6 ft')
  expect(fields.get('tracks.0.elements.1.across')).toBe('18 ft')
  expect(fields.get('tracks.0.elements.1.angle')).toBe('45')
  expect(fields.get('tracks.0.elements.1.turn')).toBe('left')
  expect([fields.get('title'), fields.get('tracks.0.name')]).toEqual(['Half typed', 'branch'])
  expect(markup).toContain('kept')
  expect(fields.get('tracks.0.rows')?.trim() ?? '').toBe('')
})

test('a file is taken where one is chosen: CSV or XLSX', async () => {
  const csv = new TextEncoder().encode('kind;length\ntangent;2,5 m\n')
  const ofCsv = await send({ do: 'rows tracks.0' }, { field: 'tracks.0.file', name: 'track.csv', bytes: csv })
  expect(ofCsv.fields.get('tracks.0.elements.0.length')).toBe('2.5 m')
  const workbook = await writeExcelFile([
    ['kind', 'length'],
    ['tangent', 1234.5],
  ] as never).toBuffer()
  const bytes = new Uint8Array(workbook)
  const ofWorkbook = await send({ do: 'rows tracks.0' }, { field: 'tracks.0.file', name: 'track.xlsx', bytes })
  expect(ofWorkbook.fields.get('tracks.0.elements.0.length')).toBe('1234.5')
})

test('what is wrong is told by cell, and what was pasted stays', async () => {
  const rows = 'kind,length,lenght\ntangent,<1,234>,red\n'
  const { status, text, markup } = await send({ do: 'rows tracks.0', 'tracks.0.rows': rows, 'tracks.0.name': 'x' })
  expect(status).toBe(422)
  expect(text).toContain('Cell C1: "lenght" is not a column name')
  expect(markup).toContain('tangent,&lt;1,234&gt;,red')
  const ambiguous = await send({ do: 'rows tracks.0', 'tracks.0.rows': 'kind;length\ntangent;1,234\n' })
  expect(ambiguous.text).toMatch(/cell B2: .1,234. is ambiguous/i)
  const nothing = await send({ do: 'rows tracks.0' })
  expect([nothing.status, nothing.text.includes('the table is empty')]).toEqual([422, true])
})

test('columns of one’s own are left out, and the page says which', async () => {
  const own = 'My line\nkind\tlength\tColour\tPrice\ntangent\t600\tred\t12\n'
  const { status, text, fields } = await send({ do: 'rows tracks.0', 'tracks.0.rows': own })
  expect(status).toBe(200)
  expect(text).toContain('read without these columns, which are not those of a track: Colour, Price.')
  expect(fields.get('tracks.0.elements.0.length')).toBe('600')
})

test('a table of several tracks is not taken for one', async () => {
  const rows = 'track,kind,fromMm,toMm,lengthMm\nmain,tangent,0,600,600\nspur,tangent,0,500,500\n'
  const several = await send({ do: 'rows tracks.0', 'tracks.0.rows': rows })
  expect([several.status, several.text.includes('several tracks')]).toEqual([422, true])
  const one = await send({ do: 'rows tracks.0', 'tracks.0.rows': rows.replace('spur', 'main') })
  expect([one.status, one.fields.get('tracks.0.elements.1.length')]).toEqual([200, '500'])
})

test('pasted rows that were not taken yet are still there after working it out', async () => {
  const { markup } = await send({ do: 'work', 'tracks.0.rows': ROWS })
  expect(markup).toContain('diameter (ft)\tangle')
})
