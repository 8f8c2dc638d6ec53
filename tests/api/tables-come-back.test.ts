import { describe, expect, test } from 'vitest'
import { ODS, XLSX } from '../../src/api/tables-answer.ts'
import { zipOf } from '../paper/rows-in/by-hand.ts'
import { ARC, appWithoutStore, asking, planWith, problemIn, TANGENT, trackOf } from './asking.ts'

const app = appWithoutStore()
const { ask } = asking(app)
const RAIL = 'section=250&material=brass'

/** Two tracks, of which one does not start at 0, with every kind of element and labels that a CSV has to protect. */
const PLAN = planWith({
  tracks: [
    trackOf(TANGENT, { kind: 'easement', length: '2 ft' }, { ...ARC, label: '=1+1, or -2; "so"' }, TANGENT),
    {
      name: 'spur',
      state: 'existing',
      start: { x: -750.5, y: '3 ft', heading: 200 },
      elements: [
        { kind: 'arc', radius: 900, angle: 400, turn: 'right' },
        { kind: 'arc', radius: 1200, length: 333.3, turn: 'left' },
        { kind: 'tangent', length: 400, label: 'L' },
      ],
    },
  ],
})

const sent = (contentType: string, body: string | Uint8Array<ArrayBuffer>, query = RAIL) =>
  ask(`/v1/estimates?${query}`, { method: 'POST', headers: { 'Content-Type': contentType }, body })
const elementsOut = async (options = '') =>
  (await ask(`/v1/tables/elements.csv${options}`, { method: 'POST', json: PLAN })).text

interface Numbers {
  readonly [key: string]: unknown
}
/** Every number and word of two answers, one beside the other. */
function compare(read: unknown, expected: unknown, within: number, place = ''): void {
  if (typeof expected === 'number') {
    expect(typeof read, place).toBe('number')
    expect(Math.abs((read as number) - expected), place).toBeLessThanOrEqual(within)
  } else if (typeof expected === 'object' && expected !== null)
    for (const [key, value] of Object.entries(expected))
      compare((read as Numbers)[key], value, within, `${place}/${key}`)
  else expect(read, place).toBe(expected)
}

describe('the table of elements that goes out comes in again', () => {
  const expected = async () =>
    JSON.parse((await ask('/v1/estimates', { method: 'POST', json: PLAN })).text).tracks as unknown[]

  test.each([
    ['in millimetres', '', 1e-6],
    ['in inches', '?units=in', 1e-6],
    ['with semicolons and decimal commas', '?sep=semicolon&decimal=comma&bom=1', 1e-6],
    // Lengths are rounded to 1/128 in, which is 0.2 mm; an arc of 400° of such a radius may differ by seven times that.
    ['in fractions of an inch', '?units=in&fraction=64', 3],
  ])('as CSV %s', async (_, options, within) => {
    const answer = await sent('text/csv', await elementsOut(options))
    expect(answer.status).toBe(200)
    compare(JSON.parse(answer.text).tracks, await expected(), within)
  })

  test('as the workbook with all its sheets', async () => {
    for (const options of ['', '?units=in']) {
      const workbook = await app.request(`/v1/workbook.xlsx${options}`, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json' },
        body: JSON.stringify(PLAN),
      })
      const answer = await sent(XLSX, new Uint8Array(await workbook.arrayBuffer()))
      expect(answer.status).toBe(200)
      compare(JSON.parse(answer.text).tracks, await expected(), 1e-6)
    }
  })

  test('with what was changed in it; a length that would be lost is refused at its cell', async () => {
    const lines = (await elementsOut()).split('\r\n')
    const header = lines[0]!.split(',')
    const change = (line: number, key: string, value: string) => {
      const cells = lines[line]!.split(',')
      cells[header.indexOf(key)] = value
      return lines.with(line, cells.join(',')).join('\r\n')
    }
    // The first arc of the spur is in row 6.
    const wider = JSON.parse((await sent('text/csv', change(5, 'angleDeg', '90'))).text)
    // By hand: a quarter of 2·π·900 mm, but the length beside it is still that of 400°.
    expect(wider.errors[0]).toMatchObject({ row: 6, code: 'contradictory' })
    const longer = problemIn(await sent('text/csv', change(5, 'lengthMm', '9000')))
    expect(longer.errors).toMatchObject([{ row: 6, column: 'H', code: 'contradictory' }])
    const straight = JSON.parse((await sent('text/csv', change(1, 'lengthMm', '500'))).text)
    expect(straight.tracks[0].elements[0].lengthMm).toBe(500)
    const named = JSON.parse((await sent('text/csv', await elementsOut(), `${RAIL}&name=other`)).text)
    expect(named.tracks.map(({ name }: { name: string }) => name)).toEqual(['other', 'spur'])
  })
})

describe('a table of the sender’s own', () => {
  test('may have columns that are not read: the answer says which', async () => {
    const own = await sent('text/csv', 'My line\nkind,length,Price,Seen by\ntangent,600,12,me\n')
    const plain = await sent('text/csv', 'kind,length\ntangent,600\n')
    const { assumptions, ...rest } = JSON.parse(own.text)
    const { assumptions: usual, ...same } = JSON.parse(plain.text)
    expect(rest).toEqual(same)
    expect(assumptions.slice(0, usual.length)).toEqual(usual)
    expect(assumptions.slice(usual.length).map(({ value }: { value: string }) => value)).toEqual([
      'without the column "Price"',
      'without the column "Seen by"',
    ])
  })

  test('may be an OpenDocument spreadsheet; its faults name the sheet', async () => {
    const row = (...cells: string[]) =>
      `<table:table-row>${cells.map((cell) => `<table:table-cell office:value-type="string"><text:p>${cell}</text:p></table:table-cell>`).join('')}</table:table-row>`
    const ods = (...rows: string[]) =>
      zipOf([
        {
          name: 'content.xml',
          content: `<d><office:spreadsheet><table:table table:name="My line">${rows.join('')}</table:table></office:spreadsheet></d>`,
        },
      ])
    const answer = await sent(ODS, ods(row('kind', 'length'), row('tangent', '6 ft')))
    expect(JSON.parse(answer.text).tracks[0].lengthMm).toBeCloseTo(1828.8, 9)
    const [error] = problemIn(await sent(ODS, ods(row('kind', 'length'), row('tangent', 'six')))).errors
    expect(error).toMatchObject({ sheet: 'My line', row: 2, column: 'B', code: 'bad-length' })
    expect(error!.detail).toMatch(/^sheet "My line", cell B2: /)
  })
})
