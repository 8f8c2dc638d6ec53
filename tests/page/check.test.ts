import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { checkBend } from '../../src/bending/bend-check/check.ts'
import type { StationCheck } from '../../src/bending/bend-check/types.ts'
import { checkPage } from '../../src/page/check/check-page.ts'
import { type CheckFields, checkFieldsOf, readCheck } from '../../src/page/check/read-check.ts'
import { wordsOf } from '../../src/page/check/words-of.ts'
import { readingsDrawing } from '../../src/page/drawing/readings-drawing.ts'
import { fieldsOf, nestingFault, tagsOf, textOf } from './markup.ts'

const typed = (change: Partial<CheckFields>) => checkFieldsOf((name) => change[name as keyof CheckFields])
const read = (change: Partial<CheckFields>) => readCheck(typed(change))
const inputOf = (change: Partial<CheckFields>) => {
  const result = read(change)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.input
}
const faultsOf = (change: Partial<CheckFields>) => {
  const result = read(change)
  return result.ok ? [] : result.faults.map(({ path, code }) => [path.join('.'), code])
}

describe('readings as they are typed', () => {
  test.each<[string, string[]]>([
    ['12.8 13.4', ['12.8', '13.4']],
    ['12.8\n13.4\r\n  - \n', ['12.8', '13.4', '-']],
    ['1;2; 3', ['1', '2', '3']],
    ['1, 2, 3,', ['1', '2', '3']],
    ['12,5', ['12,5']],
    ['13/16 1 1/16 1-1/8 2', ['13/16', '1 1/16', '1-1/8', '2']],
    ['13/16 in 20.5 mm 1 1/16 in 7/8"', ['13/16 in', '20.5 mm', '1 1/16 in', '7/8"']],
    ['1\n1/2', ['1', '1/2']],
    ['0 1/32 3/16', ['0', '1/32', '3/16']],
    ['1 3/16 2 1/32 3/16', ['1 3/16', '2 1/32', '3/16']],
    ['1; 3/16, 5/4', ['1', '3/16', '5/4']],
    ['1 5/4', ['1', '5/4']],
    ['- 5 – -5', ['-', '5', '–', '-5']],
    ['', []],
  ])('%j', (text, words) => expect(wordsOf(text)).toEqual(words))

  test('bare numbers are millimetres, or inches where that is chosen', () => {
    expect(inputOf({ chord: '500', readings: '12.8 -3 - 1/2" −2' }).readingsMm).toEqual([12.8, -3, null, 12.7, -2])
    // 1 in = 25.4 mm.
    const inches = inputOf({ chord: '12 in', readings: '13/16 1 1/16 - -.5 10mm', readingsIn: 'in' })
    expect(inches.chordMm).toBeCloseTo(304.8, 9)
    expect(inches.readingsMm).toEqual([20.6375, 26.9875, null, -12.7, 10])
  })

  test('numbers come back as they were, however they are divided', () => {
    const reading = fc.option(
      fc.integer({ min: -9999, max: 9999 }).map((n) => n / 100),
      { nil: null },
    )
    const gap = fc.constantFrom(' ', '\n', '\r\n', '; ', ', ', '   ')
    fc.assert(
      fc.property(fc.array(fc.tuple(reading, gap), { minLength: 1, maxLength: 40 }), (pairs) => {
        const text = pairs.map(([value, between]) => `${value ?? '-'}${between}`).join('')
        expect(inputOf({ chord: '500', readings: text }).readingsMm).toEqual(pairs.map(([value]) => value))
      }),
    )
  })

  test('what is left blank is left to its default; a diameter is halved', () => {
    expect(inputOf({ chord: '500', readings: '1' })).toEqual({ chordMm: 500, readingsMm: [1] })
    expect(
      inputOf({
        chord: '500',
        readings: '1 2',
        across: '16 ft',
        acrossIs: 'diameter',
        fixed: '0, 1',
        resolution: '0.25',
        maximumThrow: '1 in',
        spacing: '300',
        proposed: '1.5 1.5',
        tolerancePct: '3 %',
      }),
    ).toEqual({
      chordMm: 500,
      readingsMm: [1, 2],
      radiusMm: 2438.4,
      fixed: [0, 1],
      resolutionMm: 0.25,
      maximumThrowMm: 25.4,
      spacingMm: 300,
      proposedMm: [1.5, 1.5],
      tolerancePct: 3,
    })
  })

  test('every fault is told at its field', () => {
    expect(
      faultsOf({
        readings: '1 x 12,5',
        across: 'wide',
        fixed: '1.5',
        resolution: '?',
        tolerancePct: 'few',
        proposed: '1 -',
      }),
    ).toEqual([
      ['chord', 'missing'],
      ['readings', 'bad-length'],
      ['readings', 'bad-length'],
      ['across', 'bad-length'],
      ['proposed', 'missing'],
      ['tolerancePct', 'wrong-type'],
      ['fixed', 'wrong-type'],
      ['resolution', 'bad-length'],
    ])
    expect(faultsOf({ chord: '500', fixed: '1' })).toEqual([['readings', 'too-few']])
  })
})

describe('the page of a check', () => {
  const shown = async (change: Partial<CheckFields>) => {
    const { main, complete } = await checkPage(typed(change), 'metric', async (input) => checkBend(input))
    expect(nestingFault(main.toString())).toBeNull()
    return { markup: main.toString(), text: textOf(main.toString()), complete }
  }

  test('is a blank form at first, and one half filled in by a bending card', async () => {
    const blank = await shown({})
    expect(blank.complete).toBe(true)
    expect(blank.text).not.toContain('put right')
    expect(blank.markup).not.toContain('id="answer"')
    const begun = await shown({ chord: '500', across: '2460.9', acrossIs: 'radius' })
    expect(begun.markup).not.toContain('id="answer"')
    expect(fieldsOf(begun.markup).get('across')).toBe('2460.9')
  })

  test('shows the targets of both rails before any reading, from the size of the centre line', async () => {
    const begun = await shown({ chord: '500', across: '5 m', acrossIs: 'diameter', acrossAt: 'centre', rail: 'inner' })
    // Closed form: code 250 has a head of 0.112 in = 2.8448 mm; outer face 2500 + 45/2, inner 2500 − 45/2 − 2.8448.
    const mid = (radius: number) => (radius - Math.sqrt(radius ** 2 - 250 ** 2)).toFixed(2)
    expect(begun.text).toContain(`inner rail 2474.7 mm ${mid(2474.6552)} mm`)
    expect(begun.text).toContain(`outer rail 2522.5 mm ${mid(2522.5)} mm`)
    const read = inputOf({ chord: '500', readings: '12', across: '2500', acrossAt: 'centre', rail: 'inner' })
    expect(read.radiusMm).toBeCloseTo(2474.6552, 6)
    const tooTight = await shown({ chord: '500', across: '20', acrossAt: 'centre' })
    expect(tooTight.text).toContain('the radius of the centre line must be over 25.3')
    expect(tooTight.complete).toBe(false)
  })

  test('says how fractions were read, and which reading to measure again', async () => {
    const fractions = await shown({ chord: '500', readings: '0 1/32 1 3/16', readingsIn: 'in' })
    expect(fractions.text).toContain('Read as 3 readings: 0 in, 1/32 in, 1 3/16 in.')
    const slipped = await shown({ chord: '500', readings: '0 4 10 16 20 20 20 30 20 20 16 10 4 0' })
    expect(slipped.text).toContain('measure again')
    expect(slipped.text).toContain('The reading at station 7')
  })

  test('on the bench holds each reading against the radius and says what to do', async () => {
    const { text, markup } = await shown({ chord: '500', readings: '13.1 14.5 11.6 -', across: '2400' })
    // By closed form: 2400 − √(2400² − 250²) = 13.06 mm, 5 % of which are 0.65.
    expect(text).toContain('13.06 mm')
    expect(text).toMatch(/2 stations of 3 off target: 1 to bend more, 1 to ease/)
    expect(text).toContain('No reading at station 3')
    expect(text).toMatch(/1 250 mm 14.5 mm 13.06 mm 1.44 mm [\d.]+ mm \d+ mm … \d+ mm ease/)
    expect(text).toContain('Target radius 2400 mm')
    expect(markup).not.toContain('move out')
    expect((await shown({ chord: '500', readings: '13 13.1', across: '2400' })).text).toContain('Correct:')
  })

  // The 14 stations and proposed ordinates of the classical string-lining table that the engine's tests cite.
  const readings = '0 3 9 17 21 19 22 16 23 23 15 10 2 0'
  const proposed = '0 4 10 16 20 20 20 20 20 20 16 10 4 0'

  test('lines a laid curve to what is proposed, with the sums and throws of the table', async () => {
    const { text } = await shown({ chord: '500', readings, proposed })
    // By hand: errors 0 −1 −1 1 1 …, their sums 0 −1 −2 −1 0 …; half throws 0 0 −1 −3 −4 …, throws twice that.
    const rows = [...text.matchAll(/(?:good|too flat|too sharp) (-?\d+) (no move|(?:in|out) [\d.]+ mm)/g)]
    expect(rows.slice(0, 5).map(([, sum, move]) => [sum, move])).toEqual([
      ['0', 'no move'],
      ['-1', 'no move'],
      ['-2', expect.stringMatching(/2 mm$/)],
      ['-1', expect.stringMatching(/6 mm$/)],
      ['0', expect.stringMatching(/8 mm$/)],
    ])
    expect(new Set(rows.slice(2, 5).map(([, , move]) => move!.split(' ')[0])).size).toBe(1)
  })

  test('without a proposal makes one, says to what, and leaves fixed stations alone', async () => {
    const { text, markup } = await shown({ chord: '500', readings, fixed: '7' })
    expect(text).toMatch(/Proposed line: \d parts? of constant curvature with easements/)
    expect(text).toMatch(/Moving the curve by at most [\d.]+ mm makes it even/)
    const row = textOf(markup).match(/ 7 1750 mm .*? 8 2000 mm/)![0]
    expect(row).toContain('no move')
    expect(text).toContain('station spacing 250 mm, reading accuracy 0.5 mm, tolerance 5 %')
  })

  test('with faults comes back as typed, each complaint leading to its field', async () => {
    const { text, markup, complete } = await shown({ chord: '50', readings: '30 <b>', across: '10' })
    expect(complete).toBe(false)
    expect(text).toContain('to fix')
    expect(fieldsOf(markup).get('readings')).toBe('30 <b>')
    const ids = tagsOf(markup).flatMap(({ attributes }) => attributes.get('id') ?? [])
    for (const { attributes } of tagsOf(markup))
      if (attributes.get('href')?.startsWith('#')) expect(ids).toContain(attributes.get('href')!.slice(1))
    const tight = await shown({ chord: '500', readings: '300 12', across: '100', acrossIs: 'diameter' })
    expect(tight.text).toContain('readings, station 0 : An ordinate of 300 mm')
    expect(tight.text).toContain('curve size : A chord of 500 mm does not fit in a circle of radius 50 mm')
  })
})

describe('the drawing of readings', () => {
  const station = (index: number, change: Partial<StationCheck>): StationCheck => ({
    index,
    atMm: 250 * index,
    ordinateMm: 10,
    radiusMm: null,
    radiusLowMm: null,
    radiusHighMm: null,
    targetOrdinateMm: 12,
    deviationMm: -2,
    verdict: 'bend-more',
    runningSumMm: null,
    throwMm: null,
    ...change,
  })
  const drawn = (stations: StationCheck[]) => {
    const text = readingsDrawing(stations, 'metric').toString()
    expect(nestingFault(text, true)).toBeNull()
    expect(text).not.toMatch(/NaN|Infinity/)
    return tagsOf(text).filter(({ kind }) => kind !== 'close')
  }
  const withClass = (tags: ReturnType<typeof drawn>, name: string) =>
    tags.filter(({ attributes }) => attributes.get('class')?.split(' ').includes(name))

  test('bars are as high as their readings, to either side of straight', () => {
    const tags = drawn([
      station(0, { ordinateMm: 10 }),
      station(1, { ordinateMm: 5 }),
      station(2, { ordinateMm: -4, targetOrdinateMm: null, verdict: null }),
      station(3, { ordinateMm: null, verdict: null }),
    ])
    const [first, second, third] = withClass(tags, 'reading').map(({ attributes }) => ({
      y: Number(attributes.get('y')),
      height: Number(attributes.get('height')),
    }))
    expect(first!.height).toBeCloseTo(2 * second!.height, 1)
    expect(third!.height).toBeCloseTo(0.4 * first!.height, 1)
    expect(third!.y).toBeCloseTo(first!.y + first!.height, 1)
    expect(withClass(tags, 'target')).toHaveLength(3)
    expect(tags.some(({ text }) => text === '?')).toBe(true)
    expect(withClass(tags, 'throw')).toHaveLength(0)
  })

  test('each verdict has a sign of its own shape', () => {
    const tags = drawn([
      station(0, { verdict: 'bend-more' }),
      station(1, { verdict: 'ease' }),
      station(2, { verdict: 'good' }),
    ])
    for (const sign of ['sign-more', 'sign-ease', 'sign-good']) expect(withClass(tags, sign)).toHaveLength(1)
  })

  test('arrows point up for out, down for in, by their size; a station that stays has a dot', () => {
    const tags = drawn([station(0, { throwMm: 4 }), station(1, { throwMm: -2 }), station(2, { throwMm: 0 })])
    const [out, inward] = withClass(tags, 'throw').map(({ attributes }) => {
      const [, zero, tip] = /M[\d.]+ ([\d.]+)V([\d.]+)/.exec(attributes.get('d')!)!
      return Number(zero) - Number(tip)
    })
    expect(out).toBeGreaterThan(0)
    expect(inward).toBeCloseTo(-out! / 2, 1)
    expect(withClass(tags, 'still')).toHaveLength(1)
  })

  test('five hundred stations, one alone, and nothing but zeros can be drawn', () => {
    const many = drawn(Array.from({ length: 500 }, (_, index) => station(index, { throwMm: index % 7 })))
    expect(withClass(many, 'reading')).toHaveLength(500)
    drawn([station(0, {})])
    drawn([station(0, { ordinateMm: 0, targetOrdinateMm: 0, throwMm: 0 })])
  })
})
