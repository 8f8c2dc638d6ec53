import fc from 'fast-check'
import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import { type CsvForm, csvOf, USUAL_CSV } from '../../src/paper/csv.ts'
import type { Cell, Column } from '../../src/paper/table.ts'

/** An apostrophe before apostrophes and what would make it a formula was put there by the writer, also within a text. */
const NEUTRALISED = /^'(?='*[=+\-@\t\r\n＝＋－＠])|(?<=[,;\t\r\n]"*)'(?='*[=+\-@＝＋－＠])/g
const PLAIN_NUMBER = /^-?(0|[1-9]\d*)(\.\d+)?$/

const FORMS: CsvForm[] = [
  USUAL_CSV,
  { sep: ';', decimal: ',', bom: false },
  { sep: ';', decimal: '.', bom: true },
  { sep: '\t', decimal: ',', bom: false },
  { sep: '\t', decimal: '.', bom: false },
]

/** Read by another library, strictly as it was written. */
function readBack(csv: string, { sep }: CsvForm): string[][] {
  const text = csv.startsWith('\ufeff') ? csv.slice(1) : csv
  const { data, errors } = Papa.parse<string[]>(text, { delimiter: sep, newline: '\r\n', skipEmptyLines: false })
  expect(errors.filter(({ type }) => type !== 'Delimiter')).toEqual([])
  expect(data.at(-1)).toEqual([''])
  return data.slice(0, -1)
}

const hardText = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        '"',
        '""',
        "'",
        ',',
        ';',
        '\t',
        '\r',
        '\n',
        '\r\n',
        '=',
        '+',
        '-',
        '@',
        '＝',
        '\u2028',
        'ß',
        '🚂',
        ' ',
      ),
      fc.string({ unit: 'grapheme', maxLength: 3 }),
    ),
    { maxLength: 6 },
  )
  .map((parts) => parts.join(''))
const someNumber = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.integer(),
  fc.constantFrom(-0, 1e21, 1e-7, -1.5e-300, 1.7976931348623157e308, 5e-324),
)

const columns: Column[] = [
  { key: 'text', title: 'Text', kind: 'text' },
  { key: 'number', title: 'Number', kind: 'number' },
  { key: 'other', title: 'Other', kind: 'text' },
  { key: 'price', title: 'Price', kind: 'money' },
]
const row = fc.tuple(
  fc.option(hardText),
  fc.option(someNumber),
  hardText,
  fc.option(fc.integer({ min: 0, max: 10 ** 9 }).map((cents) => (cents / 100).toFixed(2))),
)

describe('CSV', () => {
  it('comes back unchanged: 10,000 tables of hard texts and numbers', () => {
    fc.assert(
      fc.property(fc.array(row, { maxLength: 3 }), fc.constantFrom(...FORMS), (rows: Cell[][], form) => {
        const csv = csvOf({ columns, rows }, form)
        expect(csv.startsWith('\ufeff')).toBe(form.bom)
        const [header, ...lines] = readBack(csv, form)
        expect(header).toEqual(['text', 'number', 'other', 'price'])
        expect(lines).toHaveLength(rows.length)
        for (const [n, [text, number, other, price]] of lines.entries()) {
          const [wroteText, wroteNumber, wroteOther, wrotePrice] = rows[n]!
          expect(text!.replace(NEUTRALISED, '')).toBe(wroteText ?? '')
          expect(other!.replace(NEUTRALISED, '')).toBe(wroteOther)
          for (const [cell, wrote] of [
            [number!, wroteNumber],
            [price!, wrotePrice],
          ] as const) {
            if (wrote === null) {
              expect(cell).toBe('')
              continue
            }
            const plain = form.decimal === ',' ? cell.replace(',', '.') : cell
            expect(plain).toMatch(PLAIN_NUMBER)
            expect(Number(plain)).toBe(wrote === 0 ? 0 : Number(wrote))
          }
        }
      }),
      { numRuns: 10_000 },
    )
  })

  it('no text begins as a formula, and one that began with an apostrophe can still be told', () => {
    const csv = csvOf({
      columns: [columns[0]!],
      rows: [['=1+1'], ["'=1+1"], ["'tis"], ['@x'], ['-5'], ['＝x'], ['a=b']],
    })
    expect(csv).toBe("text\r\n'=1+1\r\n''=1+1\r\n'tis\r\n'@x\r\n'-5\r\n'＝x\r\na=b\r\n")
  })

  it('no text begins as a formula for a program that splits the file at another sign', () => {
    const texts = ['a;=1+1', "a;'=1+1", 'a,+1', 'a\t@x', 'a\n-b', 'loop, 2; spur', '1,5', 'a; =1', 'a;"=1"']
    for (const form of FORMS) {
      const csv = csvOf({ columns: [columns[0]!], rows: texts.map((text) => [text]) }, form)
      for (const sign of [/[,\r\n]+/, /[;\r\n]+/, /[\t\r\n]+/])
        expect(csv.split(sign).filter((cell) => /^"*[=+\-@]/.test(cell))).toEqual([])
      expect(readBack(csv, form).map(([text]) => text)).toEqual([
        'text',
        "a;'=1+1",
        "a;''=1+1",
        "a,'+1",
        "a\t'@x",
        "a\n'-b",
        'loop, 2; spur',
        '1,5',
        'a; =1',
        `a;"'=1"`,
      ])
    }
  })

  it('keeps to RFC 4180 to the letter', () => {
    const rows = [
      ['a "tight" one, really', -0.5, 'two\r\nlines', '7.00'],
      [null, 1e21, ' spaces ', null],
      ['lone\rcr', 5e-7, 'a;b', '0.05'],
    ]
    expect(csvOf({ columns, rows })).toBe(
      'text,number,other,price\r\n' +
        '"a ""tight"" one, really",-0.5,"two\r\nlines",7.00\r\n' +
        ',1000000000000000000000, spaces ,\r\n' +
        '"lone\rcr",0.0000005,a;b,0.05\r\n',
    )
    expect(csvOf({ columns, rows: [['a;b', 1.5, 'c,d', '7.00']] }, { sep: ';', decimal: ',', bom: true })).toBe(
      '\ufefftext;number;other;price\r\n"a;b";1,5;c,d;7,00\r\n',
    )
    expect(csvOf({ columns, rows: [['a\tb', 1.5, 'c,d', '7.00']] }, { sep: '\t', decimal: '.', bom: false })).toBe(
      'text\tnumber\tother\tprice\r\n"a\tb"\t1.5\tc,d\t7.00\r\n',
    )
  })

  it('has its header alone where there are no rows', () => {
    expect(csvOf({ columns, rows: [] })).toBe('text,number,other,price\r\n')
  })
})

/* The same numbers in a program set to each locale: the decimal sign and the separator of groups come from CLDR. */
describe.each(['en', 'de', 'fr', 'sv'])('numbers read in the locale %s', (locale) => {
  const signOf = (type: 'decimal' | 'group') =>
    new Intl.NumberFormat(locale).formatToParts(1234567.5).find((part) => part.type === type)!.value
  const [decimal, group] = [signOf('decimal'), signOf('group')]
  const read = (text: string) => Number(text.replaceAll(group, '').replaceAll('\u2212', '-').replace(decimal, '.'))
  const NUMBERS = [0, 0.5, -12.25, 1234.5, 1e-7, 1234567.891, 2743.2]

  it.each(FORMS.filter((form) => form.decimal === decimal))('with separator $sep and decimal $decimal', (form) => {
    const csv = csvOf({ columns: [columns[1]!, columns[0]!], rows: NUMBERS.map((each) => [each, 'x']) }, form)
    const [, ...lines] = readBack(csv, form)
    expect(lines.map(([number]) => read(number!))).toEqual(NUMBERS)
    expect(lines.every(([, text]) => text === 'x')).toBe(true)
  })
})
