import { describe, expect, test } from 'vitest'
import { formatShows } from '../../../src/paper/rows-in/number-format.ts'
import { readWorkbook } from '../../../src/paper/rows-in/read-workbook.ts'
import { shownInText } from '../../../src/paper/rows-in/shown-in-text.ts'
import { trackRows } from '../../../src/paper/rows-in/track-rows.ts'
import { textCell, workbookFiles, zipOf } from './by-hand.ts'

/* By hand, from the rules of ECMA-376, part 1, section 18.8.31. */
describe('a number format', () => {
  test.each([
    'General',
    '0',
    '0.00',
    '#,##0.00',
    '# ?/?',
    '0.00E+00',
    '##0.0E+0',
    '@',
    '_-* #,##0.00_-;-* #,##0.00_-',
    '# ##0',
    '#\\ ##0.0',
    '[Red]0.0;[Blue]-0.0',
    '(0);(0)',
    '+0;-0',
    '[$-409]0.0',
  ])('%s shows the number itself', (code) => {
    for (const value of [600, 0.125, 0, -7.5]) expect(formatShows(code)(value)).toBe(value)
  })

  test.each([
    ['0" cm"', 600, { number: 600, unit: 'cm', shows: '600 cm' }],
    ['0.0##" cm"', 600.25, { number: 600.25, unit: 'cm', shows: '600.25 cm' }],
    ['General" ft"', 18, { number: 18, unit: 'ft', shows: '18 ft' }],
    ['0\\"', 6, { number: 6, unit: '"', shows: '6"' }],
    ["0'", 6, { number: 6, unit: "'", shows: "6'" }],
    ['# ?/?\\"', 6.5, { number: 6.5, unit: '"', shows: '6.5"' }],
    ['0.00%', 0.125, { number: 12.5, unit: '%', shows: '12.50%' }],
    ['0\\°', 45, { number: 45, unit: '°', shows: '45°' }],
    ['0.0,"m"', 2400, { number: 2.4, unit: 'm', shows: '2.4m' }],
    ['#,##0,', 2400, { number: 2.4, unit: null, shows: '2' }],
    ['0" cm";-0" cm"', -600, { number: -600, unit: 'cm', shows: '-600 cm' }],
    ['[>=1000]0.0,"m";0"mm"', 2400, { number: 2.4, unit: 'm', shows: '2.4m' }],
    ['[>=1000]0.0,"m";0"mm"', 600, { number: 600, unit: 'mm', shows: '600mm' }],
    ['"R "0', 600, { number: 600, unit: null, shows: 'R 600' }],
    ['[$€-407]0.00', 600, { number: 600, unit: null, shows: '€600.00' }],
    ['"none"', 600, { number: 600, unit: null, shows: 'none' }],
    [';;;', 600, { number: 600, unit: null, shows: '' }],
  ])('%s shows %d as more than it is', (code, value, shown) => expect(formatShows(code)(value)).toEqual(shown))

  test('with texts between its digits shows no number that can be read', () => {
    expect(formatShows("0'00")(706)).toMatchObject({ unit: null })
  })

  test.each(['yyyy-mm-dd', '[h]:mm', 'd/m', '0_d d'])('%s shows a date', (code) =>
    expect(formatShows(code)(7)).toEqual({ hides: 'date' }),
  )

  test('is read once through, however long', () => {
    for (const code of ['"'.repeat(1_001), '['.repeat(900), '0,'.repeat(450), '\\'.repeat(999), ';'.repeat(1_000)])
      expect(() => formatShows(code)(1)).not.toThrow()
    expect(formatShows('0'.repeat(1_001))(1)).toMatchObject({ unit: null })
  })
})

/* By hand: a number as it is shown in one country or another. */
test.each([
  [600, '600', 600],
  [600.004, '600.00', 600.004],
  [2400, '2,400', 2400],
  [2400, '2.400,0', 2400],
  [2400, '2\u202f400', 2400],
  [7.5, '7 1/2', 7.5],
  [600, '6E+02', 600],
  [-7.5, '-7,5', -7.5],
  [600, '600 cm', { number: 600, unit: 'cm', shows: '600 cm' }],
  [6, '6"', { number: 6, unit: '"', shows: '6"' }],
  [2400, '2.4 m', { number: 2400, unit: null, shows: '2.4 m' }],
  [2400, '2', { number: 2400, unit: null, shows: '2' }],
  [600, 'R 600', { number: 600, unit: null, shows: 'R 600' }],
])('%d shown as %s is told from its text', (number, text, shown) => expect(shownInText(number, text)).toEqual(shown))

describe('a cell of a workbook', () => {
  const read = async (header: string, code: string, value: number) => {
    const rows = `<row>${textCell('A1', 'kind')}${textCell('B1', header)}</row><row>${textCell('A2', 'arc')}<c r="B2" s="1"><v>${value}</v></c></row>`
    const quoted = code.replaceAll('"', '&quot;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')
    const styles = `<numFmts><numFmt numFmtId="200" formatCode="${quoted}"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="${/^\d+$/.test(code) ? code : 200}"/></cellXfs>`
    const sheet = await readWorkbook(zipOf(workbookFiles(rows, { styles })))
    if (!sheet.ok) throw new Error(JSON.stringify(sheet.faults))
    const { elements, faults } = trackRows(sheet.sheet)
    return { value: Object.values(elements[0] ?? {})[1], faults }
  }

  test.each([
    ['length', '0" cm"', 600, '600 cm'],
    ['length (ft)', '0" cm"', 600, '600 cm'],
    ['length', '0.0" M"', 2.4, '2.4 m'],
    ['radius', "0'", 9, '9 ft'],
    ['length', '0" mm"', 600, 600],
    ['angle', '0.0\\°', 22.5, 22.5],
    ['length (ft)', '0.0', 6, '6 ft'],
    ['label', '0" cm"', 600, '600 cm'],
  ])('below %s in the format %s is read as it is shown', async (header, code, value, expected) => {
    expect(await read(header, code, value)).toEqual({ value: expected, faults: [] })
  })

  test.each([
    ['angle', '0.00%', 0.125, '12.50%'],
    ['angle', '10', 0.125, '12.50%'],
    ['length', '9', 6, '600%'],
    ['length', '0" kg"', 600, '600 kg'],
    ['angle', '0" cm"', 600, '600 cm'],
    ['length', '0,', 2400, '2'],
    ['length', '"R "0', 600, 'R 600'],
  ])('below %s in the format %s is refused with what it shows', async (header, code, value, shows) => {
    const { faults } = await read(header, code, value)
    expect(faults.map((fault) => [fault.column, fault.row, fault.code])).toEqual([['B', 2, 'bad-number']])
    expect(faults[0]!.detail).toContain(`the cell shows "${shows}"`)
    expect(faults[0]).toMatchObject({ sheet: 'A', detail: expect.stringContaining('sheet "A", cell B2') })
  })

  test('that shows nothing is refused as such', async () => {
    expect((await read('length', ';;;', 600)).faults[0]!.detail).toContain('the cell shows nothing')
  })
})
