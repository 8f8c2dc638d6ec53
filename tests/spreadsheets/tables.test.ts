import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import type { Cell, ColumnKind } from '../../src/paper/table.ts'
import { workbookOf } from '../../src/paper/workbook.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { HARD_TEXTS } from '../paper/hard-texts.ts'
import { type Office, startOffice } from './libre-office.ts'

/** Of a plan without ready-made track: nine of ten. */
const SHEETS = 9

let office: Office

beforeAll(() => {
  office = startOffice()
}, 90_000)
afterAll(() => office.close())

/** A workbook of one sheet, `Bench`, with one column of a kind. */
async function fileOf(kind: ColumnKind, cells: readonly Cell[]): Promise<string> {
  const columns = [{ key: 'column', title: 'Column', kind }]
  const file = join(office.untrusted, 'bench.xlsx')
  writeFileSync(file, await workbookOf([{ name: 'bench', title: 'Bench', columns, rows: cells.map((cell) => [cell]) }]))
  return file
}

describe('a workbook of tables in LibreOffice', () => {
  test.each([
    [
      'length',
      [12, -3, 0.5, 1828.8, 10.194418852914616, 11.9999, 1523.9999996, 0],
      '12 -3 0.5 1828.8 10.194 12.0 1524 0',
    ],
    ['count', [3, 0, 1200], '3 0 1200'],
    ['money', ['14.50', '7.00', '0.05'], '14.50 7.00 0.05'],
  ] as const)('shows whole numbers whole and no point without a digit: %s', async (kind, cells, shown) => {
    const { Bench } = await office.show({ file: await fileOf(kind, cells) })
    expect(cells.map((_, index) => Bench![`A${index + 2}`])).toEqual(
      shown.split(' ').map((value) => ({ kind: 'number', value })),
    )
  })

  test('has every text as it was, whatever else it could mean', async () => {
    const { Bench } = await office.read({ file: await fileOf('text', HARD_TEXTS), locale: 'de-DE' })
    expect(HARD_TEXTS.map((_, index) => Bench![`A${index + 2}`])).toEqual(
      HARD_TEXTS.map((value) => ({ kind: 'text', value })),
    )
  })

  test('has rows as high as their texts are wrapped', async () => {
    const plan = readFileSync(new URL('../../openapi/examples/loop-in-the-sun.json', import.meta.url), 'utf8')
    const app = createApp({ store: {} as ProjectStore, workers: inThisThread })
    const asked = { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: plan }
    const file = join(office.untrusted, 'tables.xlsx')
    writeFileSync(file, new Uint8Array(await (await app.request('/v1/workbook.xlsx', asked)).arrayBuffer()))
    const rows = Object.entries(await office.spareHeights({ file })).flatMap(([sheet, heights]) =>
      Object.entries(heights).map(([row, { value }]) => ({ sheet, row, spare: value })),
    )
    expect(rows.filter(({ row }) => row === '1')).toHaveLength(SHEETS)
    expect(rows.filter(({ spare }) => !(Number(spare) >= 0))).toEqual([])
  })
})
