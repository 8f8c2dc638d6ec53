import { describe, expect, test } from 'vitest'
import { CELLS } from '../../src/api/endpoints/cells.ts'
import { appWithoutStore, asking, placesIn } from './asking.ts'

const { ask } = asking(appWithoutStore())
const shown = async (path: string) => Number((await ask(path)).text)
const LENGTHS = [
  'mid-ordinate',
  'forming-radius',
  'level-rise',
  'gap',
  'overhang',
  'vertical-curve',
  'rail-length',
  'turnout-radius',
  'turnout-lead',
]

describe('a cell', () => {
  test.each(CELLS.map(({ name, example }) => [name, example]))(
    '%s is in the unit that is asked for, if it is a length',
    async (name, example) => {
      const path = `/v1/cell/${name}?${example}`
      if (!LENGTHS.includes(name)) return expect(placesIn(await ask(`${path}&units=in`))).toEqual(['units'])
      const mm = await shown(path)
      expect(await shown(`${path}&units=mm`)).toBe(mm)
      expect((await shown(`${path}&units=in`)) * 25.4).toBeCloseTo(mm, 8)
      const wrong = await ask(`${path}&units=ft`)
      expect([wrong.status, placesIn(wrong)]).toEqual([400, ['units']])
    },
  )

  /* By hand: 2 % of 4 ft are 0.96 in. */
  test('in inches is an inch of 25.4 mm', async () => {
    expect(await shown('/v1/cell/level-rise?grade=2&length=4ft&units=in')).toBeCloseTo(0.96, 12)
  })

  test.each([
    ['mid-ordinate', 'section=250&gauge=45', 'section 250 and a gauge of 45 mm'],
    ['forming-radius', 'section=250&gauge=45', 'section 250 and a gauge of 45 mm'],
    ['level-rise', 'length=4ft', 'a level of 4 ft'],
    ['gap', 'sunAllowance=20', '20 K hotter'],
    ['overhang', 'of=corner', 'of=corner'],
    ['vertical-curve', 'from=0&elevation=0', 'station 0 and elevation 0'],
    [
      'cars-up-grade',
      'adhesionPct=25&rollingResistancePct=2&weather=damp&gauge=45&wheelbase=60',
      'an adhesion of 25 %, a rolling resistance of 2 %, damp weather',
    ],
    ['rail-length', 'section=250&gauge=45', 'section 250 and a gauge of 45 mm'],
    ['ties', 'tieSpacing=45', 'a tie spacing of 45 mm'],
    ['sticks', 'stick=5ft', 'sticks of 5 ft (1524 mm)'],
    ['joiners', 'stick=5ft&stickPack=1', 'sticks of 5 ft (1524 mm)'],
    [
      'cost',
      'section=250&material=brass&gauge=45&minimumPiece=150&kerf=1&tieSpacing=45&stick=5ft',
      'section 250 in brass, a gauge of 45 mm, sticks of 5 ft (1524 mm)',
    ],
  ])('%s says what it assumes, and assumes it', async (name, given, said) => {
    const { example, assumes } = CELLS.find((cell) => cell.name === name)!
    expect(assumes).toContain(said)
    const query = new URLSearchParams(example)
    for (const parameter of ['stick', 'stickPrice', ...new URLSearchParams(given).keys()]) query.delete(parameter)
    const without = await shown(`/v1/cell/${name}?${query}`)
    expect(without).not.toBeNaN()
    expect(await shown(`/v1/cell/${name}?${query}&${given}`)).toBe(without)
  })

  test('of everything is listed here', () => expect(CELLS).toHaveLength(14))
})

describe('the ordinates as CSV', () => {
  test('are in inches or fractions of them on request', async () => {
    const first = async (query: string) => {
      const { text } = await ask(`/v1/bends.csv?diameter=20ft&section=250${query}`)
      const [header, row] = text.split('\r\n').map((line) => line.split(','))
      return Object.fromEntries(header!.map((key, index) => [key, row![index]!]))
    }
    const mm = await first('')
    const inches = await first('&units=in')
    expect(Number(inches.midIn) * 25.4).toBeCloseTo(Number(mm.midMm), 9)
    expect(inches.overbendRatio).toBe(mm.overbendRatio)
    // By hand: the chord of 300 mm is 11.811 in, 11-13/16 in to a sixteenth.
    expect((await first('&units=in&fraction=16')).chordFtIn).toBe('11-13/16 in')
    const answer = await ask('/v1/bends.csv?diameter=20ft&fraction=16&gauge=wide')
    expect(placesIn(answer).sort()).toEqual(['gauge'])
    expect(placesIn(await ask('/v1/bends.csv?diameter=20ft&fraction=16'))).toEqual(['fraction'])
  })
})
