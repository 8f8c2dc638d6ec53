import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import writeExcelFile from 'write-excel-file/node'
import { readCsv, readCsvText } from '../../../src/paper/rows-in/read-csv.ts'
import { readWorkbook } from '../../../src/paper/rows-in/read-workbook.ts'
import type { ReadSheet } from '../../../src/paper/rows-in/sheet.ts'
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
      'line ends of three kinds',
      'kind,length,diameter,angle,turn,label\r\ntangent,6 ft,,,,\narc,,18 ft,45,left,"round the pond, slowly"\reasement,600,,,,\r\n',
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

  test('a curve by its degree and chord; a chord without a degree is a column of one’s own', () => {
    const arc = { kind: 'arc', degree: 20.5, chord: '2 ft', angle: 45, turn: 'left' }
    const rows = inCsv('kind,degree,chord (ft),angle,turn\narc,20.5°,2,45,left')
    expect([rows.elements, rows.faults]).toEqual([[arc], []])
    const own = inCsv('kind,length,chord\ntangent,6 ft,12')
    expect([own.elements, own.ignored]).toEqual([[{ kind: 'tangent', length: '6 ft' }], ['chord']])
    expect(faultsIn('kind,degree (ft)\narc,20')).toEqual(['B1 unknown-value'])
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
    ['a point that others show to be none', 'kind;length;angle\ntangent;1.234;22,5', [1234, 22.5]],
    ['a point that others show to be decimal', 'kind;length;angle\ntangent;1.234;22.5', [1.234, 22.5]],
    ['points, and commas between cells', 'kind,length,angle\ntangent,1.234,45', [1.234, 45]],
    ['a quoted comma that others show to be decimal', 'kind,length,angle\ntangent,"1,234","22,5"', [1.234, 22.5]],
    ['a comma after 0, which begins no thousands', 'kind;length;angle\ntangent;1,234;0,500', [1.234, 0.5]],
    ['spaces that do not break', 'kind;length;angle\ntangent;1\u00a0234,500;1\u202f234', [1234.5, 1234]],
    ['a minus', 'kind;length;angle\ntangent;-1,5;-22,5', [-1.5, -22.5]],
    ['decimal commas behind feet', 'kind;length;angle\ntangent;"7\' 6,5""";45', ['7\' 6.5"', 45]],
    ['millions', 'kind;length;angle\ntangent;1,234,567;45', [1234567, 45]],
    ['a decimal comma before a unit', 'kind;length;angle\ntangent;2,4 m;45', ['2.4 m', 45]],
  ])('numbers with %s', (_, text, [length, angle]) => {
    const { elements, faults } = inCsv(text)
    expect(faults).toEqual([])
    expect(elements).toEqual([{ kind: 'tangent', length, angle }])
  })

  test.each([
    ['1,234 by itself', 'kind;length\ntangent;1,234', ['B2 bad-number']],
    ['1.500 by itself', 'kind;length\ntangent;1.500', ['B2 bad-number']],
    ['1.500 among whole numbers', 'kind;length;angle\ntangent;1.500;45\ntangent;1500;90', ['B2 bad-number']],
    ['1.500, as copied', 'kind\tlength (m)\ntangent\t1.500\n', ['B2 bad-number']],
    ['1,500 in quotes', 'kind,length\ntangent,"1,500"', ['B2 bad-number']],
    ['1.500 beside 1,500', 'kind,length,angle\ntangent,1.500,"1,500"', ['B2 bad-number', 'C2 bad-number']],
    ['1.500 m', 'kind;length\ntangent;1.500 m', ['B2 bad-number']],
    ['1,234 among both', 'kind;length;angle;radius\ntangent;1,234;22,5;22.5', ['B2 bad-number']],
  ])('%s could be two numbers, and is refused', (_, text, faults) => expect(faultsIn(text)).toEqual(faults))

  test('what is refused for its signs is told how to be written, and one that is clear settles it', () => {
    const refused = 'kind;length\ntangent;1.500\ntangent;600'
    expect(inCsv(refused).faults[0]!.hint).toContain('1.2340')
    const lengths = (text: string) => inCsv(text).elements.map(({ length }) => length)
    expect(lengths(refused.replace('600', '1.2340'))).toEqual([1.5, 1.234])
    expect(lengths(refused.replace('600', '2,5'))).toEqual([1500, 2.5])
  })

  /* By hand: what each cell would be in a plan. */
  test.each([
    ['6 1/2', '6 1/2 in'],
    ['6-1/2', '6-1/2 in'],
    ['1/2', '1/2 in'],
    ['6½', '6½ in'],
    ['6.5', '6.5 in'],
    ["7' 6-1/2", "7' 6-1/2 in"],
    ['7\' 6-1/2"', '7\' 6-1/2"'],
    ['7 ft', '7 ft'],
    ['2.4 m', '2.4 m'],
  ])('%s below a header with inches is %s', (cell, length) => {
    const { elements, faults } = inCsv(`kind,length (in)\ntangent,"${cell.replaceAll('"', '""')}"`)
    expect(faults).toEqual([])
    expect(elements).toEqual([{ kind: 'tangent', length }])
  })

  test.each([
    ['a fraction without a unit', 'kind,length\ntangent,6 1/2', '6 1/2 in'],
    ['a fraction of millimetres', 'kind,length (mm)\ntangent,1/0', '7 ft 6-1/2 in'],
    ['feet with more behind them, below feet', "kind,length (ft)\ntangent,7' 6", '7 ft 6-1/2 in'],
    ['something else', 'kind,length (in)\ntangent,about six', '7 ft 6-1/2 in'],
  ])('%s is refused with what to write', (_, text, hint) => {
    const { faults } = inCsv(text)
    expect(faults.map(({ row, column, code }) => [row, column, code])).toEqual([[2, 'B', 'bad-length']])
    expect(faults[0]!.hint).toContain(hint)
  })

  test.each(['9'.repeat(400), '1e400', '1e308', '-1e308', '1e-300'])(
    'the number %s is refused at its cell',
    (digits) => {
      for (const header of ['length', 'length (in)', 'angle']) {
        const rows = [
          ['kind', header],
          ['tangent', Number(digits)],
        ]
        const { faults } = trackRows({ rows, usualSign: null, name: null })
        expect(faults.map(({ row, column, code }) => [row, column, code])).toEqual([[2, 'B', 'out-of-range']])
      }
      if (/^\d+$/.test(digits)) expect(faultsIn(`kind,length (ft)\ntangent,${digits}`)).toEqual(['B2 out-of-range'])
    },
  )

  test.each([
    ['an error of a formula', 'kind,length\ntangent,#REF!', ['B2 wrong-type']],
    ['an error of a formula as a label', 'kind,label\ntangent,#N/A', ['B2 wrong-type']],
    ['a date', 'kind,length (in)\ntangent,3-Jan', ['B2 wrong-type']],
    ['a date of another kind', 'kind;length\ntangent;03.01.2026', ['B2 wrong-type']],
    ['an angle in words', 'kind,angle\narc,steep', ['B2 bad-number']],
    ['a cell that nobody could have meant', `kind,length\ntangent,${'1'.repeat(1_001)}`, ['B2 too-long']],
    ['a NUL character', 'kind,label\ntangent,a\0b', ['B2 bad-text']],
  ])('%s is refused at its cell', (_, text, faults) => {
    const read = readCsvText(text)
    const found = read.ok ? trackRows(read.sheet).faults : read.faults
    expect(found.map(({ row, column, code }) => `${column ?? ''}${row} ${code}`)).toEqual(faults)
    expect(found[0]!.hint).toMatch(/\w/)
  })

  test.each(['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'valueOf'])(
    '%s is no name of anything',
    (name) => {
      const { ignored, elements } = inCsv(`kind,${name}\ntangent,1`)
      expect([ignored, elements]).toEqual([[name], [{ kind: 'tangent' }]])
      expect(faultsIn(`kind,${name} (ft)\ntangent,1`)).toEqual(['B1 unknown-field'])
      expect(faultsIn(`kind,length (${name})\ntangent,1`)).toEqual(['B1 unknown-value'])
      const word = name.toLowerCase()
      expect(inCsv(`kind,turn\n${name},${name}`).elements).toEqual([{ kind: word, turn: word }])
    },
  )

  test('may have a hundred columns and six thousand rows, and blanks beyond them', () => {
    const wideRow = (last: string) => `tangent,600${','.repeat(16_382)}${last}`
    expect(faultsIn(`kind,length\n${wideRow('')}${'\n'.repeat(20_000)}`)).toEqual([])
    const [wide] = inCsv(`kind,length\n${wideRow('x')}`).faults
    expect(wide).toMatchObject({ row: 2, column: 'XFD', code: 'too-many' })
    expect(wide!.detail).toContain('100 columns')
    expect(inCsv(`kind,length\n${'tangent,600\n'.repeat(5_999)}`).elements).toHaveLength(5_999)
    const read = readCsvText(`kind,length\n${'tangent,600\n'.repeat(6_000)}`)
    const [high] = read.ok ? [] : read.faults
    expect(high).toMatchObject({ row: 6_001, column: null, code: 'too-many' })
    expect(high!.detail).toContain('6000 rows')
  })

  test.each([
    ['length ft', 'length (ft)'],
    ['Radius, in', 'radius (ft)'],
    ['size', 'one row names'],
    ['end angle', 'If this is angle'],
  ])('a column %s is told what it could be', (header, hint) => {
    const [fault] = inCsv(`kind;${header}\ntangent;1`).faults
    expect(fault).toMatchObject({ code: 'unknown-field', row: 1, column: 'B' })
    expect(fault!.hint).toContain(hint)
  })

  /* A reader that goes back at each sign would take minutes with any of these. */
  test.each([
    ['spaces', `a${' '.repeat(100_000)}b`],
    ['brackets', '('.repeat(100_000)],
    ['brackets and spaces', `${'( '.repeat(50_000)}x`],
    ['a unit that does not end', `a(${' '.repeat(100_000)}x`],
    ['signs', `${'1,'.repeat(50_000)}x`],
    ['tabs', `1${'\t'.repeat(100_000)}deg!`],
  ])('%s without end are read through once, as header and as cell', (_, text) => {
    const read = readCsvText(`"${text}"\n"${text}"`)
    expect(read.ok && trackRows(read.sheet).faults).toMatchObject([{ code: 'unknown-field', row: 1 }])
    const columns = ['kind', 'length', 'angle', 'label']
    const { faults } = trackRows({ rows: [columns, columns.map(() => text)], usualSign: null, name: null })
    expect(faults.map(({ row, column, code }) => `${column}${row} ${code}`)).toEqual(
      ['A', 'B', 'C', 'D'].map((column) => `${column}2 too-long`),
    )
  })

  test('may be in an encoding that is told', () => {
    const latin = Uint8Array.from('kind;length (ft);label\ntangent;6;Br\u00fccke', (sign) => sign.charCodeAt(0))
    const expected = [{ kind: 'tangent', length: '6 ft', label: 'Br\u00fccke' }]
    expect(tracksOf(readCsv(latin, 'iso-8859-1')).elements).toEqual(expected)
    for (const encoding of [null, 'utf-8'])
      expect(readCsv(latin, encoding)).toMatchObject({ ok: false, faults: [{ code: 'bad-text' }] })
    const archive = readCsv(new TextEncoder().encode('PK\u0003\u0004'))
    expect(archive).toMatchObject({ ok: false, faults: [{ code: 'bad-text', hint: expect.stringContaining('XLSX') }] })
  })

  test.each([
    ['nothing', '', ['1 missing']],
    ['a header alone', 'kind,length\n', ['2 too-few']],
    ['no kind', 'length\n3', ['1 missing']],
    ['a column nobody knows', 'kind,lenght,colour\ntangent,3,red', ['B1 unknown-field']],
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
    expect(faults[0]!.hint).toContain('as text')
  })

  test('that is none is refused', async () => {
    for (const bytes of [new Uint8Array(), new Uint8Array(100), new TextEncoder().encode('kind,length')])
      expect(await readWorkbook(bytes)).toMatchObject({ ok: false, faults: [{ code: 'bad-text' }] })
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
