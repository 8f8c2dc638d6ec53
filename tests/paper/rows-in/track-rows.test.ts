import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import writeExcelFile from 'write-excel-file/node'
import { readCsv, readCsvText } from '../../../src/paper/rows-in/read-csv.ts'
import { readWorkbook } from '../../../src/paper/rows-in/read-xlsx.ts'
import { columnName, type ReadSheet } from '../../../src/paper/rows-in/sheet.ts'
import { trackRows } from '../../../src/paper/rows-in/track-rows.ts'

function tracksOf(read: ReadSheet) {
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return trackRows(read.sheet)
}
const inCsv = (text: string) => tracksOf(readCsvText(text))
const faultsIn = (text: string) => inCsv(text).faults.map(({ row, column, code }) => `${column ?? ''}${row} ${code}`)

const TRACK = [
  { kind: 'tangent', length: '6 ft' },
  { kind: 'arc', diameter: '18 ft', angle: 45, turn: 'left', label: 'round the pond, slowly' },
  { kind: 'easement', length: 600 },
]

describe('a track of rows', () => {
  it.each([
    [
      'commas',
      'kind,length,diameter,angle,turn,label\ntangent,6 ft,,,,\narc,,18 ft,45,left,"round the pond, slowly"\neasement,600,,,,\n',
    ],
    [
      'semicolons, CR LF',
      'label;turn;angle;diameter;length;kind\r\n;;;;6 ft;tangent\r\nround the pond, slowly;left;45;18 ft;;arc\r\n;;;;600;easement',
    ],
    [
      'tabs, as copied, old line ends',
      'Kind\tLength\tDiameter (ft)\tAngle (deg)\tTurn\tLabel\rStraight\t6 ft\t\t\t\t\rCurve\t\t18\t45°\tLeft\tround the pond, slowly\rEasement\t600\t\t\t\t\r',
    ],
    [
      'blank lines and columns',
      '\n,,,,,,\nkind,length,diameter,angle,turn,label,\n\ntangent,6 ft,,,,,\narc,,18 ft,45,left,"round the pond, slowly",\n,,,,,,\neasement,600,,,,,\n\n',
    ],
  ])('with %s', (_, text) => {
    const { elements, faults } = inCsv(text)
    expect(faults).toEqual([])
    expect(elements).toEqual(TRACK)
  })

  test('in UTF-8 with a mark, in UTF-16, and nothing else', () => {
    const text = 'kind;length (ft);label\ntangent;6;Brücke'
    const expected = [{ kind: 'tangent', length: '6 ft', label: 'Brücke' }]
    const utf8 = new TextEncoder().encode(`\ufeff${text}`)
    const utf16 = new Uint8Array(Buffer.from(`\ufeff${text}`, 'utf16le'))
    for (const bytes of [utf8, utf16]) expect(tracksOf(readCsv(bytes)).elements).toEqual(expected)
    expect(readCsv(new Uint8Array([0x6b, 0xe9, 0x2c]))).toMatchObject({ ok: false, faults: [{ code: 'bad-text' }] })
  })

  test('a length may carry its unit, with quotes doubled as CSV wants them', () => {
    const { elements } = inCsv('kind,length\ntangent,"7\' 6-1/2"""\ntangent,2.4 m\ntangent,450')
    expect(elements.map(({ length }) => length)).toEqual(['7\' 6-1/2"', '2.4 m', 450])
  })

  test.each([
    ['decimal commas', 'kind;length;angle\ntangent;2743,2;22,5', [2743.2, 22.5]],
    ['with points between thousands', 'kind;length;angle\ntangent;1.234,5;22,5', [1234.5, 22.5]],
    ['with commas between thousands', 'kind;length;angle\ntangent;1,234.5;22.5', [1234.5, 22.5]],
    ['a comma that others show to be decimal', 'kind;length;angle\ntangent;1,234;22,5', [1.234, 22.5]],
    ['a comma that others show to be none', 'kind;length;angle\ntangent;1,234;22.5', [1234, 22.5]],
    ['a point with three decimals', 'kind;length;angle\ntangent;1.234;45', [1.234, 45]],
    ['millions', 'kind;length;angle\ntangent;1,234,567;45', [1234567, 45]],
    ['a decimal comma before a unit', 'kind;length;angle\ntangent;2,4 m;45', ['2.4 m', 45]],
  ])('numbers with %s', (_, text, [length, angle]) => {
    const { elements, faults } = inCsv(text)
    expect(faults).toEqual([])
    expect(elements).toEqual([{ kind: 'tangent', length, angle }])
  })

  test.each([
    ['1,234 by itself', 'kind;length\ntangent;1,234', ['B2 bad-number']],
    ['1.234 among decimal commas', 'kind;length;angle\ntangent;1.234;22,5', ['B2 bad-number']],
    ['1,234 among both', 'kind;length;angle;radius\ntangent;1,234;22,5;22.5', ['B2 bad-number']],
  ])('%s could be two numbers, and is refused', (_, text, faults) => expect(faultsIn(text)).toEqual(faults))

  test.each([
    ['nothing', '', ['1 missing']],
    ['a header alone', 'kind,length\n', ['2 too-few']],
    ['no kind', 'length\n3', ['1 missing']],
    ['a column nobody knows', 'kind,lenght,colour\ntangent,3,red', ['B1 unknown-field', 'C1 unknown-field']],
    ['a column twice', 'kind,length,Length (m)\ntangent,3,4', ['C1 contradictory']],
    [
      'a unit that does not fit',
      'kind (mm),length (kg),angle (rad)\ntangent,3,4',
      ['A1 unknown-value', 'B1 unknown-value', 'C1 unknown-value'],
    ],
    ['something below no header', 'kind,,length\ntangent,what,3', ['B1 missing']],
  ])('%s is refused, with row and column', (_, text, faults) => expect(faultsIn(text)).toEqual(faults))

  test('a quote that is not closed names its row', () => {
    const read = readCsvText('kind,length\ntangent,"3\n')
    expect(read).toMatchObject({ ok: false, faults: [{ code: 'bad-text' }] })
  })

  test('columns are named as spreadsheets do', () => {
    expect([0, 25, 26, 701, 702].map(columnName)).toEqual(['A', 'Z', 'AA', 'ZZ', 'AAA'])
  })
})

describe('a workbook', () => {
  const write = (data: Parameters<typeof writeExcelFile>[0]) => writeExcelFile(data).toBuffer()

  test('is read as its first sheet: numbers, texts, blanks', async () => {
    const bytes = await write([
      ['kind', 'length (ft)', 'diameter (ft)', 'angle', 'turn', 'label'],
      ['tangent', 6, null, null, null, null],
      ['arc', null, 18, 45, 'left', '=1+1'],
    ] as never)
    const { elements, faults } = tracksOf(await readWorkbook(bytes))
    expect(faults).toEqual([])
    expect(elements).toEqual([
      { kind: 'tangent', length: '6 ft' },
      { kind: 'arc', diameter: '18 ft', angle: 45, turn: 'left', label: '=1+1' },
    ])
  })

  test('in which 1-3/4 has become a date, or which holds true, is refused at the cell', async () => {
    const bytes = await write([
      ['kind', 'length'],
      ['tangent', { value: new Date(Date.UTC(2026, 0, 3)), type: Date, format: 'yyyy-mm-dd' }],
      ['tangent', true],
    ] as never)
    const { faults } = tracksOf(await readWorkbook(bytes))
    expect(faults.map(({ row, column, code }) => [row, column, code])).toEqual([
      [2, 'B', 'wrong-type'],
      [3, 'B', 'wrong-type'],
    ])
    expect(faults[0]!.hint).toContain('format of text')
  })

  test('that is none, or would unpack to too much, is refused', async () => {
    for (const bytes of [new Uint8Array(), new Uint8Array(100), new TextEncoder().encode('kind,length')])
      expect(await readWorkbook(bytes)).toMatchObject({ ok: false, faults: [{ code: 'bad-text' }] })
    const rows = Array.from({ length: 4_000 }, () => [' '.repeat(9_000)])
    const bomb = await write([['kind'], ...rows] as never)
    expect(bomb.length).toBeLessThan(1024 * 1024)
    const read = await readWorkbook(bomb)
    if (read.ok) expect(tracksOf(read).faults.length).toBeGreaterThan(0)
    else expect(read.faults[0]!.code).toBe('too-many')
  })
})

/* Whatever way a track is written down, it comes back. */
describe('any track', () => {
  const value = fc.double({ min: 0.01, max: 99_999, noNaN: true }).map((each) => Number(each.toPrecision(7)))
  const element = fc.record({ length: value, angle: value, label: fc.constantFrom('', 'a', 'b, c; d', '"q"') })
  const UNITS = { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 } as const

  test('comes back from each separator, decimal sign and unit', () => {
    fc.assert(
      fc.property(
        fc.array(element, { minLength: 1, maxLength: 6 }),
        fc.constantFrom([',', '.'], [';', ','], [';', '.'], ['\t', ','], ['\t', '.']),
        fc.constantFrom(...(Object.keys(UNITS) as (keyof typeof UNITS)[])),
        (elements, [separator, decimal], unit) => {
          const text = (number: number) => {
            const digits = number.toFixed(9).replace(/0+$/, '').replace(/\.$/, '.0')
            // Three decimals could be thousands: a zero more says what they are.
            return (/^\d{1,3}\.\d{3}$/.test(digits) ? `${digits}0` : digits).replace('.', decimal!)
          }
          const quoted = (cell: string) => `"${cell.replaceAll('"', '""')}"`
          const lines = elements.map(({ length, angle, label }) =>
            ['tangent', text(length), text(angle), quoted(label)].join(separator),
          )
          const header = ['kind', `length (${unit})`, 'angle', 'label'].join(separator)
          const { elements: read, faults } = inCsv([header, ...lines].join('\r\n'))
          expect(faults).toEqual([])
          for (const [n, each] of elements.entries()) {
            const { length, angle, label } = read[n]!
            const mm = typeof length === 'number' ? length : Number(String(length).split(' ')[0]) * UNITS[unit]
            expect(Math.abs(mm / (each.length * UNITS[unit]) - 1)).toBeLessThan(1e-7)
            expect(angle).toBeCloseTo(each.angle, 6)
            expect(label ?? '').toBe(each.label)
          }
        },
      ),
    )
  })
})
