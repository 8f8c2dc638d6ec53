import { describe, expect, test } from 'vitest'
import { readWorkbook } from '../../../src/paper/rows-in/read-workbook.ts'
import { trackRows } from '../../../src/paper/rows-in/track-rows.ts'
import { zipOf } from './by-hand.ts'

const MB = 1024 * 1024
const content = (tables: string, styles = '') =>
  `<office:document-content><office:automatic-styles>${styles}</office:automatic-styles><office:body><office:spreadsheet>${tables}</office:spreadsheet></office:body></office:document-content>`
const files = (xml: string) => [
  { name: 'mimetype', content: 'application/vnd.oasis.opendocument.spreadsheet' },
  { name: 'content.xml', content: xml },
]
const table = (rows: string, name = 'Track', style = 'ta1') =>
  `<table:table table:name="${name}" table:style-name="${style}">${rows}</table:table>`
const row = (...cells: string[]) => `<table:table-row>${cells.join('')}</table:table-row>`
const text = (value: string) =>
  `<table:table-cell office:value-type="string"><text:p>${value}</text:p></table:table-cell>`
const float = (value: number, shown = String(value)) =>
  `<table:table-cell office:value-type="float" office:value="${value}" calcext:value-type="float"><text:p>${shown}</text:p></table:table-cell>`
const read = async (xml: string) => readWorkbook(zipOf(files(xml)))
const rowsIn = async (tables: string, styles?: string) => {
  const sheet = await read(content(tables, styles))
  if (!sheet.ok) throw new Error(JSON.stringify(sheet.faults))
  return sheet.sheet.rows
}

describe('an OpenDocument spreadsheet', () => {
  test('is read as a track, numbers as they are shown', async () => {
    const rows = [
      row(text('kind'), text('length'), text('angle')),
      row(text('tangent'), float(600, '600 cm')),
      row(text('arc'), '<table:table-cell/>', float(45.5, '45,50')),
    ]
    const sheet = await read(content(table(rows.join(''))))
    expect(sheet.ok && trackRows(sheet.sheet).elements).toEqual([
      { kind: 'tangent', length: '600 cm' },
      { kind: 'arc', angle: 45.5 },
    ])
  })

  test('has percentages, money, dates, truth, errors, formulas without a result and comments', async () => {
    const cell = (attributes: string, inside: string) =>
      `<table:table-cell ${attributes}><text:p>${inside}</text:p></table:table-cell>`
    const cells = [
      cell('office:value-type="percentage" office:value="0.125"', '12.50%'),
      cell('office:value-type="currency" office:currency="EUR" office:value="6"', '6.00 €'),
      cell('office:value-type="date" office:date-value="2026-01-03"', '3 Jan'),
      cell('office:value-type="boolean" office:boolean-value="true"', 'TRUE'),
      cell('table:formula="of:=1/0" office:value-type="string" calcext:value-type="error"', '#DIV/0!'),
      '<table:table-cell table:formula="of:=A1"/>',
      '<table:table-cell office:value-type="string"><office:annotation><text:p>no</text:p></office:annotation><text:p>a<text:s text:c="2"/>b</text:p><text:p>c</text:p></table:table-cell>',
    ]
    expect(await rowsIn(table(row(...cells)))).toEqual([
      [
        { number: 12.5, unit: '%', shows: '12.50%' },
        { number: 6, unit: null, shows: '6.00 €' },
        { hides: 'date' },
        true,
        '#DIV/0!',
        { hides: 'result' },
        'a b\nc',
      ],
    ])
  })

  test('has cells and rows that stand for many, and a million empty ones at its end', async () => {
    const twice = '<table:table-cell table:number-columns-repeated="2" office:value-type="float" office:value="7"/>'
    const rows = [
      row('<table:table-cell table:number-columns-repeated="3"/>', twice),
      `<table:table-row table:number-rows-repeated="2">${float(1)}</table:table-row>`,
      '<table:table-row table:number-rows-repeated="1048573"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>',
    ]
    expect(await rowsIn(table(rows.join('')))).toEqual([[null, null, null, 7, 7], [1], [1]])
  })

  test('whose full cells stand for too many is refused, with its sheet', async () => {
    const wide = row(
      '<table:table-cell table:number-columns-repeated="16384" office:value-type="float" office:value="7"/>',
    )
    expect(await read(content(table(wide)))).toMatchObject({
      ok: false,
      faults: [{ code: 'too-many', sheet: 'Track', column: 'XFD', row: 1 }],
    })
    const high = `<table:table-row table:number-rows-repeated="1048576">${float(1)}</table:table-row>`
    expect(await read(content(table(high)))).toMatchObject({
      ok: false,
      faults: [{ code: 'too-many', row: 1_048_576 }],
    })
  })

  test('is read as its sheet Elements, or the first that is not hidden', async () => {
    const hidden =
      '<style:style style:name="ta2" style:family="table"><style:table-properties table:display="false"/></style:style>'
    const sheets = (...names: string[]) => names.map((name) => table(row(text(name)), name)).join('')
    expect(await rowsIn(table(row(text('x')), 'X', 'ta2') + sheets('A', 'B'), hidden)).toEqual([['A']])
    expect(await rowsIn(sheets('A', 'Elements'))).toEqual([['Elements']])
  })

  test('is bounded as it is unpacked, locked or no spreadsheet at all', async () => {
    const bytes = zipOf(files(content(table(row(text(' '.repeat(5 * MB)))))))
    expect(bytes.length).toBeLessThan(20_000)
    expect(await readWorkbook(bytes)).toMatchObject({ ok: false, faults: [{ code: 'too-many' }] })
    const manifest = { name: 'META-INF/manifest.xml', content: '<manifest:encryption-data/>' }
    expect(await readWorkbook(zipOf([...files('?'), manifest]))).toMatchObject({
      ok: false,
      faults: [{ code: 'bad-text', hint: expect.stringContaining('password') }],
    })
    expect(await read('<office:document-content/>')).toMatchObject({ ok: false, faults: [{ code: 'bad-text' }] })
  })
})
