import { describe, expect, test } from 'vitest'
import { BENDS, type Bends } from '../../src/api/answers/bends.ts'
import { answerSchema } from '../../src/api/answers/schema.ts'
import { appWithoutStore, asking, placesIn, problemIn } from './asking.ts'

const { ask } = asking(appWithoutStore())

async function bendsOf(query: string): Promise<Bends> {
  const answer = await ask(`/v1/bends?${query}`)
  if (answer.status !== 200) throw new Error(answer.text)
  const body: unknown = JSON.parse(answer.text)
  expect(answerSchema(BENDS).parse(body)).toEqual(body)
  return body as Bends
}

async function refusalOf(query: string): Promise<string[]> {
  const answer = await ask(`/v1/bends?${query}`)
  expect(answer.status).toBe(400)
  return problemIn(answer).errors.map(
    (error) => `${'parameter' in error ? error.parameter : error.pointer} ${error.code}`,
  )
}

/** Closed form; r radius, c chord, x from its middle. */
const ordinate = (r: number, c: number, x: number) => Math.sqrt(r * r - x * x) - Math.sqrt(r * r - (c * c) / 4)

describe('the two rails of one curve', () => {
  test('with everything given: radii by hand, ordinates by closed form', async () => {
    const bends = await bendsOf(
      'diameter=18ft&section=250&material=brass&temper=half-hard&gauge=45&chord=300&chord=500',
    )
    const [radius, head] = [9 * 304.8, 0.112 * 25.4]
    expect(bends.trackRadiusMm).toBeCloseTo(radius, 9)
    expect(bends.assumptions.map(({ field }) => field)).toEqual(['section', 'resolution'])
    expect(bends.rails.map(({ rail }) => rail)).toEqual(['outer', 'inner'])
    const faces = [radius + 22.5, radius - 22.5 - head]
    bends.rails.forEach(({ radiusMm, measuredRadiusMm, ordinates }, index) => {
      const face = faces[index]!
      expect(radiusMm).toBeCloseTo(face + head / 2, 9)
      expect(measuredRadiusMm).toBeCloseTo(face, 9)
      expect(ordinates).toEqual(
        [300, 500].map((chordMm) => ({
          chordMm,
          midMm: expect.closeTo(ordinate(face, chordMm, 0), 8),
          quarterMm: expect.closeTo(ordinate(face, chordMm, chordMm / 4), 8),
          threeEighthsMm: expect.closeTo(ordinate(face, chordMm, chordMm / 8), 8),
          eighthMm: expect.closeTo(ordinate(face, chordMm, (3 * chordMm) / 8), 8),
          radiusErrorPct: expect.any(Number),
        })),
      )
    })
  })

  test('with the curve alone: the rest is assumed and listed', async () => {
    const bends = await bendsOf('diameter=20ft')
    expect(bends).toEqual({
      ...(await bendsOf('radius=3048&section=250&gauge=45mm&chord=300&chord=50cm')),
      assumptions: [
        expect.objectContaining({ field: 'section', value: '250' }),
        expect.objectContaining({ field: 'gauge', value: '45 mm' }),
        expect.objectContaining({ field: 'chord', value: '300 mm and 500 mm' }),
        expect.objectContaining({ field: 'resolution', value: '0.5 mm' }),
      ],
    })
  })

  test.each([
    ['radius=7ft6in', 2286],
    ['radius=7ft+6in', 2286],
    ['radius=7%27%206-1%2F2%22', 7 * 304.8 + 6.5 * 25.4],
    ['radius=7%E2%80%99%206-1%2F2%E2%80%9D', 7 * 304.8 + 6.5 * 25.4],
    ['radius=2.4m', 2400],
    ['radius=2400', 2400],
    ['radius=2400.5', 2400.5],
    ['diameter=16%20feet', 8 * 304.8],
  ])('%s is read', async (query, radius) => {
    expect((await bendsOf(query)).trackRadiusMm).toBeCloseTo(radius, 9)
  })

  test('a chord as long as the diameter of the inner face is answered, a longer one refused', async () => {
    // By hand: inner face R − 22.5 − 2.8448 at code 250.
    const diameter = 2 * (1000 - 22.5 - 0.112 * 25.4)
    const { rails } = await bendsOf(`radius=1000&section=250&chord=${diameter - 1e-9}`)
    expect(rails[1]!.ordinates[0]!.midMm).toBeCloseTo(diameter / 2, 2)
    expect(await refusalOf(`radius=1000&section=250&chord=${diameter + 0.001}&chord=300`)).toEqual([
      'chord out-of-range',
    ])
  })
})

describe('what is refused', () => {
  test('a misspelt parameter, with the nearest one', async () => {
    const answer = await ask('/v1/bends?diamter=20ft')
    expect(answer.status).toBe(400)
    expect(problemIn(answer).errors).toEqual([
      { parameter: 'diamter', code: 'unknown-parameter', detail: expect.any(String), hint: 'did you mean "diameter"?' },
    ])
  })

  test.each([
    ['', ['radius missing']],
    ['chord=300', ['radius missing']],
    ['radius=3m&diameter=6m', ['radius contradictory']],
    ['radius=0', ['radius out-of-range']],
    ['radius=-3m', ['radius out-of-range']],
    ['radius=0x10', ['radius bad-length']],
    ['radius=1e3', ['radius bad-length']],
    ['radius=Infinity', ['radius bad-length']],
    ['radius=3000,5', ['radius bad-length']],
    ['radius=', ['radius bad-length']],
    ['radius=25', ['radius out-of-range']],
    ['diameter=50', ['diameter out-of-range']],
    ['radius=3m&section=25O', ['section unknown-value']],
    ['radius=3m&material=wood', ['material unknown-value']],
    ['radius=3m&material=brass&temper=t6', ['temper unknown-temper']],
    ['radius=3m&temper=half-hard', ['material missing']],
    ['radius=3m&section=250&section=332', ['section repeated-parameter']],
    ['radius=3m&chord=x', ['chord bad-length']],
    ['radius=3m&chord=0', ['chord out-of-range']],
    [`radius=3m${'&chord=300'.repeat(21)}`, ['chord too-many']],
    [
      'radius=x&gauge=y&chord=z&colour=red',
      ['radius bad-length', 'gauge bad-length', 'chord bad-length', 'colour unknown-parameter'],
    ],
  ])('%s', async (query, faults) => {
    expect(await refusalOf(query)).toEqual(faults)
  })

  test('the fault names the parameter that was written', async () => {
    expect(placesIn(await ask('/v1/bends?diameter=10mm'))).toEqual(['diameter'])
  })
})

describe('the catalogue', () => {
  test.each(['sections', 'materials'])('%s can be named in a plan and say where they come from', async (name) => {
    const { items } = JSON.parse((await ask(`/v1/catalogue/${name}`)).text) as {
      items: { id: string; source: string; estimated: boolean }[]
    }
    expect(items.length).toBeGreaterThanOrEqual(5)
    for (const { id, source, estimated } of items) {
      expect(source.length).toBeGreaterThan(5)
      expect(typeof estimated).toBe('boolean')
      const parameter = name === 'sections' ? 'section' : 'material'
      expect((await ask(`/v1/bends?radius=3m&${parameter}=${id}`)).status).toBe(200)
    }
  })
})
