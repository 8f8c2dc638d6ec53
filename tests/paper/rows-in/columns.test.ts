import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { csvOf, unprotected } from '../../../src/paper/csv.ts'
import { readCsvText } from '../../../src/paper/rows-in/read-csv.ts'
import { trackRows } from '../../../src/paper/rows-in/track-rows.ts'
import { HARD_TEXTS } from '../hard-texts.ts'

const inCsv = (text: string) => {
  const read = readCsvText(text)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return trackRows(read.sheet)
}

describe('rows above the header', () => {
  test.each([
    ['a title', 'My garden line; draft 3\n\nkind;length;turn\ntangent;600;\n'],
    ['a title with commas', 'Pond, second plan, July\n"Length of the whole, about",12 m\nkind,length\ntangent,600\n'],
    ['a title in a wide sheet', 'Plan\t\t\t\t\n\t\t\t\t\nkind\tlength\ntangent\t600\n'],
    ['a line of notes with names of columns', 'length,label\nkind,length\ntangent,600'],
  ])('such as %s are skipped', (_, text) => {
    const { elements, faults, ignored } = inCsv(text)
    expect([faults, ignored, elements]).toEqual([[], [], [{ kind: 'tangent', length: 600 }]])
  })

  test('do not hide a fault in the header: the row with the most columns is taken for it', () => {
    const { faults } = inCsv('My line\nknd,length,turn\ntangent,600,')
    expect(faults.map(({ row, column, code }) => `${column}${row} ${code}`)).toEqual(['A2 unknown-field'])
  })
})

describe('a column of the sender’s own', () => {
  test.each(['Remark', 'Notes', 'colour', 'Price', 'Done by', '#', 'Nr.', 'where (bed)', 'Überhöhung'])(
    '%s is not read, and named',
    (name) => {
      const { elements, faults, ignored } = inCsv(`kind;length;${name}\ntangent;600;something\n`)
      expect([faults, ignored, elements]).toEqual([[], [name], [{ kind: 'tangent', length: 600 }]])
    },
  )

  test.each([
    ['lenght', 'length'],
    ['Lengths', 'length'],
    ['radios', 'radius'],
    ['Size', 'length'],
    ['curve radius', 'radius'],
    ['direction', 'turn'],
    ['type of element', 'kind'],
    ['degrees', 'angle'],
    ['sum (ft)', 'length'],
    ['lable', 'label'],
  ])('cannot be called %s, which may be meant for %s', (name, meant) => {
    const { faults } = inCsv(`kind;${name}\ntangent;600`)
    expect(faults.map(({ row, column, code }) => `${column}${row} ${code}`)).toEqual(['B1 unknown-field'])
    expect(faults[0]!.hint).toContain(meant)
  })
})

test.each(['Track', 'grade', 'Height of rail', 'start x', 'gauge', 'material'])(
  'a column %s is refused, since rows cannot say it and it would be missed',
  (name) => {
    const { faults } = inCsv(`kind;${name}\ntangent;1`)
    expect(faults.map(({ row, column, code }) => `${column}${row} ${code}`)).toEqual(['B1 unknown-field'])
    expect(faults[0]!.hint).toContain('only the elements of one track')
  },
)

test('L and R are turns, in either case', () => {
  const { elements } = inCsv('kind,turn\narc,L\narc,r\narc,Left\narc,up')
  expect(elements.map(({ turn }) => turn)).toEqual(['left', 'right', 'left', 'up'])
})

test('a text comes back from the form in which no spreadsheet runs it', () => {
  const column = { key: 'text', title: 'Text', kind: 'text' as const }
  const written = (text: string) => {
    const csv = csvOf({ columns: [column, column], rows: [[text, 'x']] })
    const read = readCsvText(csv.replace('text,text', 'kind,label'))
    return read.ok ? read.sheet.rows[1]![0] : null
  }
  for (const text of HARD_TEXTS.filter((each) => each.trim() === each && !/[\r\0]/.test(each)))
    expect(unprotected(String(written(text)))).toBe(text)
  const sign = fc.constantFrom('=', '+', "'", ',', ';', '"', '@', '-', 'a', ' ')
  fc.assert(
    fc.property(fc.array(sign, { minLength: 1, maxLength: 12 }), (signs) => {
      const text = `${signs.join('')}z`.trim()
      expect(unprotected(String(written(text)))).toBe(text)
    }),
  )
})
