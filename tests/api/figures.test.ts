import { describe, expect, test } from 'vitest'
import { answerSchema } from '../../src/api/answers/schema.ts'
import type { Estimate } from '../../src/estimate/answer.ts'
import { FIGURE_ANSWER, type FigureAnswer } from '../../src/estimate/questions/figure.ts'
import { FIELDS_OF_FIGURE, FIGURE_WORDS } from '../../src/plan/rows/figures.ts'
import { appWithoutStore, asking, example, placesIn, problemIn } from './asking.ts'

const { ask } = asking(appWithoutStore())
const post = (json: unknown) => ask('/v1/figures', { method: 'POST', json })

async function figureOf(json: unknown): Promise<FigureAnswer> {
  const answer = await post(json)
  if (answer.status !== 200) throw new Error(answer.text)
  const body: unknown = JSON.parse(answer.text)
  expect(answerSchema(FIGURE_ANSWER).parse(body)).toEqual(body)
  return body as FigureAnswer
}

async function faultsOf(json: unknown): Promise<string[]> {
  const answer = await post(json)
  expect(answer.status).toBe(422)
  return problemIn(answer).errors.map((error) => `${'pointer' in error ? error.pointer : ''} ${error.code}`)
}

const KINDS = [
  { id: 'six-left', hand: 'left', number: 6 },
  { id: 'six-right', hand: 'right', number: 6 },
]

describe('the examples', () => {
  test.each(['passing-loop', 'yard-of-four-tracks', 'crossover-in-a-curve'])(
    '%s: its tracks go into a plan as they are, and close to a millionth of a millimetre',
    async (name) => {
      const asked = example(name) as Record<string, unknown>
      const { tracks, findings } = await figureOf(asked)
      const { turnoutTypes, standards } = asked
      const plan = { rail: { section: '250', material: 'brass' }, turnoutTypes, standards, tracks }
      const answer = await ask('/v1/estimates', { method: 'POST', json: plan })
      expect(answer.status).toBe(200)
      const estimate = JSON.parse(answer.text) as Estimate
      const gaps = estimate.tracks.flatMap(({ closure }) => closure?.gapMm ?? [])
      for (const gap of gaps) expect(gap).toBeLessThan(1e-6)
      expect(findings.map(({ rule }) => rule)).toEqual(estimate.findings.map(({ rule }) => rule))
    },
  )

  test('a passing loop: the siding stands clear for 8 ft, as asked (closed form)', async () => {
    const { measures, side, assumptions } = await figureOf(example('passing-loop'))
    const named = new Map(measures.map(({ name, valueMm }) => [name, valueMm]))
    expect(side).toBe('left')
    expect(named.get('clear length of the siding')).toBeCloseTo(8 * 304.8, 9)
    // Both ends: 90 mm of the leg, then 160 − 90 by a straight and an arc of 3048 mm.
    const f = 2 * Math.atan(1 / 12)
    const leg = 540 + 67.5 / Math.tan(f) + 22.5 * Math.tan(f / 2)
    const end = (70 - 3048 * (1 - Math.cos(f))) / Math.tan(f) + 3048 * Math.sin(f)
    expect(named.get('points to points')).toBeCloseTo(2 * (270 + 90 / Math.tan(f) + end) + 8 * 304.8, 6)
    expect(leg).toBeGreaterThan(540)
    expect(assumptions.map(({ field }) => field)).toEqual(
      expect.arrayContaining(['/rail', '/fouling', '/start', '/gauge']),
    )
  })
})

describe('what is left open', () => {
  test('is assumed and listed: side, kinds, spacing, radius, start', async () => {
    const { assumptions, side } = await figureOf({ figure: 'passing-loop', turnoutTypes: KINDS, clear: 2000 })
    const told = new Map(assumptions.map(({ field, value }) => [field, value]))
    expect(side).toBe('left')
    expect(Object.fromEntries(told)).toMatchObject({
      '/side': 'left',
      '/left': 'six-left',
      '/right': 'six-right',
      '/spacing': '200 mm',
      '/fouling': '200 mm',
      '/radius': '3240 mm',
      '/rail': 'code 250 brass',
    })
  })

  test('is the right where all turnouts are right-handed', async () => {
    expect((await figureOf({ figure: 'crossover', turnoutTypes: [KINDS[1]] })).side).toBe('right')
    expect((await figureOf({ figure: 'crossover', turnoutTypes: KINDS, right: 'six-right' })).side).toBe('left')
    expect((await figureOf({ figure: 'junction', turnoutTypes: KINDS, left: 'six-left' })).side).toBe('left')
  })

  test('is the rail, whose assumptions are those of a plan where it is given', async () => {
    const rail = { section: '332', material: 'stainless' }
    const { assumptions } = await figureOf({ figure: 'junction', turnoutTypes: KINDS, rail })
    const fields = assumptions.map(({ field }) => field)
    expect(fields).not.toContain('/rail')
    expect(fields).toContain('/rail/temper')
  })
})

describe('where it starts', () => {
  test('its tracks are turned and moved, and named as asked', async () => {
    const asked = {
      figure: 'crossover',
      turnoutTypes: KINDS,
      prefix: 'east ',
      start: { x: '1 m', y: -500, heading: 90 },
    }
    const { tracks } = await figureOf(asked)
    expect(tracks.map(({ name }) => name)).toEqual(['east main', 'east other', 'east crossover'])
    expect(tracks[0]!.start).toMatchObject({ x: 1000, y: -500, heading: 90 })
    expect(tracks[1]!.start).toMatchObject({ x: 800, y: -500, heading: 90 })
    const names = tracks.flatMap(({ elements }) => (elements as { name?: string }[]).flatMap(({ name }) => name ?? []))
    expect(names).toEqual(['east W1', 'east W2'])
  })
})

describe('a figure that is refused', () => {
  test('is told every fault of its fields, its kinds and its measures at once', async () => {
    const asked = {
      figure: 'passing-loop',
      turnoutTypes: [
        { id: 'a', hand: 'left', number: 6, heelSpread: 3 },
        { id: 'b', hand: 'rigth', number: 6 },
      ],
      spacing: 'wide',
      angle: 30,
      clera: 2000,
    }
    expect((await faultsOf(asked)).toSorted()).toEqual([
      '/angle contradictory',
      '/clear missing',
      '/clera unknown-field',
      '/spacing bad-length',
      '/turnoutTypes/0/heelSpread missing',
      '/turnoutTypes/1/hand unknown-value',
    ])
    expect(placesIn(await post({}))).toEqual(['/figure'])
    expect(placesIn(await post([]))).toContain('')
  })

  test('for a field without effect, in each of them', async () => {
    for (const figure of Object.keys(FIGURE_WORDS) as (keyof typeof FIGURE_WORDS)[]) {
      const idle = (['curve', 'count', 'angle', 'wye'] as const).filter(
        (field) => !FIELDS_OF_FIGURE[figure].includes(field),
      )
      const values = { curve: { radius: 2000, turn: 'left' }, count: 3, angle: 30, wye: 'w' }
      const places = placesIn(await post({ figure, ...values }))
      for (const field of idle) expect([figure, places]).toEqual([figure, expect.arrayContaining([`/${field}`])])
    }
  })

  test('for kinds that are missing, unknown or of the other hand', async () => {
    const loop = { figure: 'passing-loop', clear: 2000 }
    expect(await faultsOf(loop)).toEqual(['/left missing', '/right missing'])
    expect(await faultsOf({ ...loop, turnoutTypes: KINDS, left: 'six-rigth' })).toEqual(['/left unknown-value'])
    expect(await faultsOf({ ...loop, turnoutTypes: KINDS, left: 'six-right' })).toEqual(['/left contradictory'])
    expect(await faultsOf({ figure: 'reverse-loop', turnoutTypes: KINDS, wye: 'six-left' })).toEqual([
      '/wye contradictory',
    ])
    const bothCurved = { id: 'c', hand: 'left', form: 'both-curved', outerRadius: 3000, radius: 2000, angle: 20 }
    expect(await faultsOf({ figure: 'crossover', turnoutTypes: [bothCurved] })).toEqual(['/left contradictory'])
  })

  test('for a yard without lengths, with too many tracks, or with both ways of saying how many', async () => {
    const yard = { figure: 'ladder', turnoutTypes: KINDS }
    expect(await faultsOf(yard)).toEqual(['/clear missing', '/count missing'])
    expect(await faultsOf({ ...yard, clear: 1000, count: 31 })).toEqual(['/count out-of-range'])
    expect(await faultsOf({ ...yard, clears: Array(31).fill(1000) })).toEqual(['/clears too-many'])
    expect(await faultsOf({ ...yard, clears: [1000, 1000], count: 2 })).toEqual([
      expect.stringContaining('contradictory'),
    ])
  })

  test('for a track to be doubled with too many elements, or with faults of its own', async () => {
    const straights = Array.from({ length: 201 }, () => ({ kind: 'tangent', length: 100 }))
    expect(await faultsOf({ figure: 'parallel', elements: straights })).toEqual(['/elements too-many'])
    expect(await faultsOf({ figure: 'parallel' })).toEqual(['/elements missing'])
    const faulty = [
      { kind: 'tangent', length: -1 },
      { kind: 'turnout', name: 'W', type: 'x', enters: 'points' },
    ]
    expect((await faultsOf({ figure: 'parallel', elements: faulty })).toSorted()).toEqual([
      '/elements/0/length out-of-range',
      '/elements/1/kind contradictory',
      '/elements/1/type unknown-value',
    ])
  })

  test('as a whole where no plan may have it', async () => {
    const asked = { figure: 'ladder', turnoutTypes: KINDS, clear: '9000 m', count: 30, spacing: 300 }
    expect(await faultsOf(asked)).toEqual(['/figure too-many'])
    expect(
      placesIn(
        await post({
          figure: 'parallel',
          elements: [{ kind: 'arc', radius: '9900 m', angle: 1, turn: 'left' }],
          side: 'right',
          spacing: '9000 m',
        }),
      ),
    ).toEqual(['/figure'])
  })
})
