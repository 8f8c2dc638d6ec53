import fc from 'fast-check'
import { writeXlsx } from 'hucre/xlsx'
import { describe, expect, test } from 'vitest'
import { readWorkbook } from '../../../src/paper/rows-in/read-workbook.ts'
import { trackRows } from '../../../src/paper/rows-in/track-rows.ts'
import { textCell, workbookFiles, zipOf } from './by-hand.ts'

const MB = 1024 * 1024
const faultIn = async (bytes: Uint8Array) => {
  const read = await readWorkbook(bytes)
  const { faults } = read.ok ? trackRows(read.sheet) : read
  expect(faults.length).toBeGreaterThan(0)
  return faults[0]!
}
const rowsIn = async (...given: Parameters<typeof workbookFiles>) => {
  const read = await readWorkbook(zipOf(workbookFiles(...given)))
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.sheet.rows
}
const SOUND = `<row r="1">${textCell('A1', 'kind')}${textCell('B1', 'length')}</row><row r="2">${textCell('A2', 'tangent')}<c r="B2"><v>1500.5</v></c></row>`

describe('an archive', () => {
  test('that is sound is read', async () => {
    expect(await rowsIn(SOUND)).toEqual([
      ['kind', 'length'],
      ['tangent', 1500.5],
    ])
  })

  const grown = `${SOUND}<row r="3">${textCell('C3', ' '.repeat(5 * MB))}</row>`
  test.each([
    ['that tells its true size', {}],
    ['that tells a small size', { toldSize: 100 }],
    ['that tells no size', { toldSize: 0 }],
  ])('that grows, %s, is refused by what it comes to', async (_, lie) => {
    const bytes = zipOf(workbookFiles(grown).map((file) => ({ ...file, ...lie })))
    expect(bytes.length).toBeLessThan(20_000)
    expect(await faultIn(bytes)).toMatchObject({
      code: 'too-many',
      hint: expect.stringContaining('copy only the track'),
    })
  })

  test('counts all its files together, and none that is not read', async () => {
    const files = workbookFiles(SOUND, { strings: `<si><t>${' '.repeat(3 * MB)}</t></si>` })
    const picture = { name: 'xl/media/image1.png', content: Buffer.alloc(20 * MB) }
    expect((await readWorkbook(zipOf([...files, picture]))).ok).toBe(true)
    const styles = workbookFiles(SOUND, { strings: ' '.repeat(3 * MB), styles: ' '.repeat(2 * MB) })
    expect((await faultIn(zipOf(styles))).code).toBe('too-many')
  })

  test('in the manner of those over 4 GiB is refused', async () => {
    for (const files of [workbookFiles(SOUND), workbookFiles(grown)]) {
      const bytes = zipOf(files.map((file) => ({ ...file, inZip64: true })))
      expect(await faultIn(bytes)).toMatchObject({ code: 'bad-text', hint: expect.stringContaining('save it as XLSX') })
    }
  })

  test('whose list of files is said to be elsewhere is refused', async () => {
    const bytes = zipOf(workbookFiles(SOUND))
    const end = Buffer.from(bytes.buffer, bytes.byteLength - 22)
    end.writeUInt32LE(0xffffffff, 16)
    expect((await faultIn(bytes)).code).toBe('bad-text')
    end.writeUInt32LE(0, 16)
    expect((await faultIn(bytes)).code).toBe('bad-text')
  })

  test('that is damaged, cut off or locked is refused', async () => {
    const sound = zipOf(workbookFiles(SOUND))
    expect((await faultIn(sound.slice(0, sound.length - 30))).code).toBe('bad-text')
    const other = new Uint8Array(sound)
    // In the packed bytes of its first file.
    other[50] = other[50]! ^ 1
    expect((await faultIn(other)).code).toBe('bad-text')
    const locked = zipOf(workbookFiles(SOUND).map((file) => ({ ...file, flags: 1 })))
    expect(await faultIn(locked)).toMatchObject({ code: 'bad-text', hint: expect.stringContaining('password') })
    expect(
      await faultIn(zipOf([{ name: 'mimetype', content: 'application/vnd.oasis.opendocument.spreadsheet' }])),
    ).toMatchObject({ code: 'bad-text', hint: expect.stringContaining('save it as XLSX') })
  })

  test('is none: other files are told by their kind', async () => {
    const begun = (...bytes: number[]) => new Uint8Array([...bytes, ...new Array(600).fill(0)])
    expect((await faultIn(begun(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1))).detail).toContain('XLS')
    expect((await faultIn(begun(0x89, 0x50, 0x4e, 0x47))).detail).toContain('picture')
    expect((await faultIn(begun(0x25, 0x50, 0x44, 0x46))).detail).toContain('PDF')
  })
})

describe('a sheet', () => {
  test('has shared texts, in pieces and with signs XML cannot hold, and no sound of them', async () => {
    const strings =
      '<si><t>kind</t></si><si><r><t>ta</t></r><r><rPr><b/></rPr><t>ngent &amp; &#x41;</t></r><rPh><t>no</t></rPh></si><si><t>a_x000A_b</t></si><si><t>_x005F_x0041_</t></si>'
    const cells = [0, 1, 2, 3].map((n) => `<c t="s"><v>${n}</v></c>`).join('')
    expect(await rowsIn(`<row>${cells}</row>`, { strings })).toEqual([['kind', 'tangent & A', 'a\nb', '_x0041_']])
  })

  test('has cells that do not say where they are, rows left out, and rows out of order', async () => {
    expect(
      await rowsIn(
        '<row r="3"><c r="B3"><v>3</v></c><c><v>4</v></c></row><row><c><v>5</v></c></row><x:row r="1" hidden="1"><x:c><x:v>1</x:v></x:c></x:row>',
      ),
    ).toEqual([[1], [], [null, 3, 4], [5]])
  })

  test('has formulas: their value, their error, or neither', async () => {
    const row =
      '<row><c><f>1+1</f><v>2</v></c><c t="str"><f>"a"</f><v>a</v></c><c t="str"><f>""</f><v></v></c><c t="e"><f>A0</f><v>#REF!</v></c><c t="b"><v>1</v></c><c><f>B1</f><v/></c></row>'
    expect(await rowsIn(row)).toEqual([[2, 'a', null, '#REF!', true, { hides: 'result' }]])
  })

  test('has dates in formats that are built in or its own, and numbers in others', async () => {
    const formats = [
      '0.00',
      'yyyy-mm-dd',
      '[h]:mm',
      '0 "days"',
      '[Red]0.0;[Blue]-0.0',
      '# ?/?',
      '0\\d',
      '0_d',
      'General',
    ]
    const styles = `<numFmts>${formats.map((code, n) => `<numFmt numFmtId="${200 + n}" formatCode="${code.replaceAll('"', '&quot;')}"/>`).join('')}</numFmts><cellStyleXfs><xf numFmtId="14"/></cellStyleXfs><cellXfs>${[0, 14, 2, 47, 49, ...formats.map((_, n) => 200 + n)].map((id) => `<xf numFmtId="${id}"/>`).join('')}</cellXfs>`
    const [row] = await rowsIn(
      `<row>${Array.from({ length: 14 }, (_, n) => `<c s="${n}"><v>7</v></c>`).join('')}</row>`,
      {
        styles,
      },
    )
    const dates = row!.flatMap((cell, n) => (cell !== null && typeof cell === 'object' && 'hides' in cell ? [n] : []))
    // 14 and 47 are built in; 200 on: yyyy-mm-dd and [h]:mm.
    expect(dates).toEqual([1, 3, 6, 7])
  })

  test('is the first that is not hidden', async () => {
    const second = `<row>${textCell('A1', 'second')}</row>`
    expect((await rowsIn(SOUND, { second }))[0]).toEqual(['kind', 'length'])
    expect(await rowsIn(SOUND, { second, state: 'state="veryHidden"' })).toEqual([['second']])
    expect(await faultIn(zipOf(workbookFiles('', { second })))).toMatchObject({
      code: 'missing',
      hint: expect.stringContaining('first sheet'),
      sheet: 'A',
    })
  })

  test('may have nothing far off: what is there is named', async () => {
    expect(
      await faultIn(zipOf(workbookFiles(`${SOUND}<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>`))),
    ).toMatchObject({
      code: 'too-many',
      row: 1_048_576,
      detail: expect.stringContaining('6000 rows'),
    })
    expect(await faultIn(zipOf(workbookFiles(`<row r="1"><c r="XFD1"><v>1</v></c></row>${SOUND}`)))).toMatchObject({
      code: 'too-many',
      column: 'XFD',
      detail: expect.stringContaining('100 columns'),
    })
    // A cell that only has a colour is none.
    expect(await rowsIn(`${SOUND}<row r="1048576"><c r="XFD1048576" s="1"/></row>`)).toHaveLength(2)
  })

  test('may say the same text often, however long it is', async () => {
    const strings = `<si><t>kind</t></si><si><t>length</t></si><si><t>${'1,'.repeat(MB)}</t></si>`
    const rows = '<row><c t="s"><v>2</v></c><c t="s"><v>2</v></c></row>'.repeat(5_000)
    const head = '<row><c t="s"><v>0</v></c><c t="s"><v>1</v></c></row>'
    expect(await faultIn(zipOf(workbookFiles(head + rows, { strings })))).toMatchObject({ code: 'too-long', row: 2 })
  })

  test('is read past what is not well formed', async () => {
    const broken = '<row r="3"><c r="A3" t="str" a=b><v>a\u0001 & &what; </v></c></x></row>'
    expect(await rowsIn(`${SOUND}${broken}<row r="4"><c r="A4"><v>4</v></c></row>`)).toEqual([
      ['kind', 'length'],
      ['tangent', 1500.5],
      ['a\u0001 & &what;'],
      [4],
    ])
  })

  test.each([
    ['a tag that does not end', `<c x="${'a'.repeat(3 * MB)}`],
    ['a comment that does not end', '<!--'.repeat(MB / 2)],
    ['open brackets', '<'.repeat(3 * MB)],
    ['attributes', `<c ${'a="1" '.repeat(MB / 2)}/>`],
    ['attributes of other names', `<c ${Array.from({ length: 100_000 }, (_, n) => `a${n}="1"`).join(' ')}/>`],
    ['elements in elements', '<a>'.repeat(MB)],
    ['blanks in a tag', `<c ${' '.repeat(3 * MB)}a/>`],
    ['ampersands', `<c t="str"><v>${'&amp'.repeat(MB / 2)}</v></c>`],
  ])('with no end of %s is read once through', async (_, inside) => {
    const read = await readWorkbook(zipOf(workbookFiles(`${SOUND}<row r="3">${inside}`)))
    expect(read.ok && read.sheet.rows.slice(0, 2)).toEqual([
      ['kind', 'length'],
      ['tangent', 1500.5],
    ])
  })
})

/* A workbook as another library writes it, its texts shared or in their cells. */
test('any cells come back from a workbook of another hand', async () => {
  const text = fc
    .string({ unit: fc.constantFrom('a', 'é', '漢', '𝄞', '&', '<', '>', '"', "'", ' ', '\n', '\t', ']]>') })
    .map((each) => `x${each}x`)
  const number = fc.double({ noNaN: true, noDefaultInfinity: true }).map((each) => (each === 0 ? 0 : each))
  const cell = fc.oneof(text, number, fc.boolean(), fc.constant(null))
  const table = fc.array(fc.array(cell, { minLength: 1, maxLength: 8 }), { minLength: 1, maxLength: 12 })
  await fc.assert(
    fc.asyncProperty(table, fc.constantFrom('shared' as const, 'inline' as const), async (rows, stringMode) => {
      const bytes = await writeXlsx({ sheets: [{ name: 'A', rows: [['kind'], ...rows, ['end']] }], stringMode })
      const read = await readWorkbook(bytes)
      const short = rows.map((row) => row.slice(0, row.findLastIndex((each) => each !== null) + 1))
      expect(read).toEqual({ ok: true, sheet: { rows: [['kind'], ...short, ['end']], usualSign: null, name: 'A' } })
    }),
    { numRuns: 150 },
  )
})
