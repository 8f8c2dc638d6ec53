import fc from 'fast-check'
import { readXlsx } from 'hucre'
import readExcelFile from 'read-excel-file/node'
import { describe, expect, it } from 'vitest'
import { originLine } from '../../src/paper/origin.ts'
import type { Cell, Table } from '../../src/paper/table.ts'
import { workbookOf } from '../../src/paper/workbook.ts'
import { HARD_TEXTS } from './hard-texts.ts'

const table = (title: string, rows: Cell[][]): Table => ({
  name: title.toLowerCase(),
  title,
  columns: [
    { key: 'text', title: 'Text', kind: 'text' },
    { key: 'lengthMm', title: 'Length (mm)', kind: 'length' },
    { key: 'price', title: 'Price', kind: 'money' },
    { key: 'count', title: 'Count', kind: 'count' },
  ],
  rows,
})

const LONGEST_TEXT = 32_767

/** Read back by another library than the one that wrote it. */
async function readBack(tables: Table[]) {
  return readExcelFile(Buffer.from(await workbookOf(tables)), { trim: false })
}

describe('a workbook', () => {
  it('has a sheet for each table, its header frozen, numbers as numbers, texts as texts', async () => {
    const tables = [
      table('One', [
        ['=1+1', 0.1, '14.50', 3],
        ["'tis & <b>", null, null, null],
      ]),
      table('Two', []),
    ]
    const sheets = await readBack(tables)
    expect(sheets.map(({ sheet }) => sheet)).toEqual(['One', 'Two'])
    const [one, two] = sheets
    expect(one!.data).toEqual([
      ['Text', 'Length (mm)', 'Price', 'Count'],
      ['=1+1', 0.1, 14.5, 3],
      ["'tis & <b>", null, null, null],
    ])
    expect(two!.data).toEqual([['Text', 'Length (mm)', 'Price', 'Count']])
    const { sheets: frozen } = await readXlsx(await workbookOf(tables))
    expect(frozen.map(({ freezePane }) => freezePane?.rows)).toEqual([1, 1])
    expect(await workbookOf(tables)).toEqual(await workbookOf(tables))
  })

  it('shows money with the places of its currency', async () => {
    const amounts = ['1450', '14.50', '1.450']
    const file = await workbookOf([
      table(
        'One',
        amounts.map((money) => [null, null, money, null]),
      ),
    ])
    const { sheets } = await readXlsx(file, { readStyles: true })
    const formats = amounts.map((_, row) => sheets[0]!.cells?.get(`${row + 1},2`)?.style?.numFmt)
    expect(formats).toEqual(['0', '0.00', '0.000'])
  })

  it('prints all columns on a page, across if it is wide, the header on each, the sheet and the page at the foot', async () => {
    const wide = table('Two', [['a word '.repeat(9), 1.25, null, null]])
    const columns = [...wide.columns, ...wide.columns].map((column, n) => ({ ...column, key: `${n}` }))
    const twice = { ...wide, columns, rows: wide.rows.map((row) => [...row, ...row]) }
    const { sheets } = await readXlsx(await workbookOf([table("Cut list, the farmer's", []), twice]))
    expect(sheets.map(({ pageSetup }) => pageSetup?.orientation)).toEqual(['portrait', 'landscape'])
    for (const { pageSetup, headerFooter } of sheets) {
      expect(pageSetup).toMatchObject({ fitToPage: true, fitToWidth: 1, fitToHeight: 0 })
      expect(pageSetup!.printTitlesRow).toBe('$1:$1')
      expect(headerFooter).toEqual({ oddFooter: '&L&A&RPage &P of &N' })
    }
  })

  it('says above its header what it is and where it comes from, and below its rows what they come to', async () => {
    const one = { ...table('One', [['a', 1, '14.50', 2]]), foot: [['Total', null, '14.50', null]] }
    const origin = { plan: '=1+1', revision: 3, date: '2026-05-31' }
    const bytes = await workbookOf([one], origin)
    const [sheet] = await readExcelFile(Buffer.from(bytes), { trim: false })
    expect(sheet!.data).toEqual([
      ['One', null, null, null],
      ['=1+1, revision 3, 2026-05-31', null, null, null],
      ['Text', 'Length (mm)', 'Price', 'Count'],
      ['a', 1, 14.5, 2],
      ['Total', null, 14.5, null],
    ])
    const { sheets } = await readXlsx(bytes)
    expect(sheets[0]!.freezePane?.rows).toBe(3)
    expect(sheets[0]!.pageSetup!.printTitlesRow).toBe('$1:$3')
    expect(originLine({ plan: null, revision: null, date: '2026-05-31' })).toBe('not saved, 2026-05-31')
  })

  it('keeps every number to the last digit and every text but for what XML cannot hold', async () => {
    const rows = fc.array(
      fc.tuple(
        fc.string({ unit: 'grapheme' }),
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        fc.constant('0.05'),
        fc.nat(),
      ),
      { minLength: 1, maxLength: 6 },
    )
    await fc.assert(
      fc.asyncProperty(rows, async (wrote: Cell[][]) => {
        const [sheet] = await readBack([table('One', wrote)])
        const kept = wrote.map(([text, number, , count]) => [text, number === 0 ? 0 : number, 0.05, count])
        for (const [n, row] of kept.entries()) {
          const [text, ...numbers] = sheet!.data[n + 1]!
          expect(text ?? '').toBe(row[0])
          expect(numbers).toEqual(row.slice(1))
        }
      }),
      { numRuns: 60 },
    )
  })

  it('keeps every text that means something else to a workbook', async () => {
    const [sheet] = await readBack([
      table(
        'One',
        HARD_TEXTS.map((text) => [text, null, null, null]),
      ),
    ])
    expect(sheet!.data.slice(1).map(([text]) => text)).toEqual(HARD_TEXTS)
  })

  it('ends the lines of a text as a cell does, and the text where a cell does, never within a character', async () => {
    const long = 'x'.repeat(LONGEST_TEXT - 1)
    const rows = ['one\r\ntwo\rthree\nfour', `${long}yz`, `${long}😀`, 'bell\u0007 rings'].map((text) => [
      text,
      null,
      null,
      null,
    ])
    const [sheet] = await readBack([table('One', rows)])
    expect(sheet!.data.slice(1).map(([text]) => text)).toEqual([
      'one\ntwo\nthree\nfour',
      `${long}y`,
      long,
      'bell rings',
    ])
  })
})
