import { describe, expect, test } from 'vitest'
import { CellCache } from '../../src/api/cells/cell-cache.ts'
import { cellText } from '../../src/api/cells/cell-text.ts'
import { CELLS } from '../../src/api/endpoints/cells.ts'
import { createApp } from '../../src/app.ts'
import type { Estimate } from '../../src/estimate/answer.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import type { Workers } from '../../src/workers/workers.ts'
import { WorkersError } from '../../src/workers/workers-error.ts'
import { appWithoutStore, asking, placesIn, problemIn } from './asking.ts'

/* No cell may touch the store: this app has none. */
const { ask } = asking(appWithoutStore())

async function cell(asked: string): Promise<number> {
  const answer = await ask(`/v1/cell/${asked}`)
  expect(answer.text, asked).toMatch(/^-?(0|[1-9]\d*)(\.\d+)?$/)
  expect(answer.status).toBe(200)
  expect(answer.text.length).toBeLessThanOrEqual(32)
  return Number(answer.text)
}

const estimateOf = async (plan: unknown): Promise<Estimate> =>
  JSON.parse((await ask('/v1/estimates', { method: 'POST', json: plan })).text)

/** By hand: what `track=S6ft_E2ft_Ld18ft-a45_S1p2m` says. */
const TRACK = 'S6ft_E2ft_Ld18ft-a45_S1p2m'
const PLAN = {
  rail: { section: '250', material: 'brass' },
  tracks: [
    {
      name: 'track',
      elements: [
        { kind: 'tangent', length: '6 ft' },
        { kind: 'easement', length: '2 ft' },
        { kind: 'arc', diameter: '18 ft', angle: 45, turn: 'left' },
        { kind: 'tangent', length: '1.2 m' },
      ],
    },
  ],
}
const SUPPLIES =
  'stick=5ft&stick=6ft&stickPrice=14.50&stickPrice=16.25&joinerPack=10&joinerPrice=9&tieSpacing=1-3/4in&tiePack=100&tiePrice=21&fastenerPack=500&fastenerPrice=12'

describe('numbers', () => {
  test('the ordinate is that of GET /v1/bends, and of the circle (closed form)', async () => {
    const bends = JSON.parse((await ask('/v1/bends?diameter=20ft&chord=500')).text)
    for (const [n, rail] of ['outer', 'inner'].entries()) {
      const midMm = await cell(`mid-ordinate?diameter=20ft&chord=500&rail=${rail}`)
      expect(midMm).toBe(bends.rails[n].ordinates[0].midMm)
      const r = bends.rails[n].measuredRadiusMm
      expect(midMm).toBeCloseTo(r - Math.sqrt(r * r - 250 * 250), 9)
    }
  })

  test('the forming radius is that of GET /v1/bends; without the temper it is refused with its range', async () => {
    const bends = JSON.parse((await ask('/v1/bends?radius=3m&material=brass&temper=half-hard')).text)
    expect(await cell('forming-radius?radius=3m&material=brass&temper=half-hard&rail=inner')).toBe(
      bends.rails[1].forming.formingRadiusMm,
    )
    const unknown = await ask('/v1/cell/forming-radius?radius=3m&material=brass')
    expect(placesIn(unknown)).toEqual(['temper'])
    expect(problemIn(unknown).errors[0]!.detail).toMatch(/from \d+ to \d+ mm/)
  })

  test('the rise under a level (closed form: length × grade)', async () => {
    // By hand: 4 ft = 1219.2 mm, 2 % of it 24.384 mm.
    expect(await cell('level-rise?grade=2')).toBe(24.384)
    expect(await cell('level-rise?grade=-1.5&length=2m')).toBe(-30)
    expect((await ask('/v1/cell/level-rise?grade=0')).text).toBe('0')
    expect((await ask('/v1/cell/level-rise?grade=-0')).text).toBe('0')
  })

  test('the gap is that between pieces in an estimate', async () => {
    const estimate = await estimateOf({
      ...PLAN,
      tracks: [{ name: 'track', elements: [{ kind: 'tangent', length: 20_000 }] }],
      climate: { laying: 15, coldest: -10, hottest: 35 },
      supplies: { sticks: [{ length: '6 ft' }] },
    })
    const whole = estimate.cutting.sticks.flatMap(({ pieces }) => pieces).map(({ lengthMm }) => lengthMm)
    const lengthMm = Math.max(...whole)
    const gapMm = Math.max(...estimate.joints.map((joint) => joint.gapMm!))
    expect(await cell(`gap?material=brass&length=${lengthMm}&laying=15&hottest=35`)).toBeCloseTo(gapMm, 6)
    // By hand: brass 20e-6, 2 m, 10 K and the 20 K of the sun: 1.2 mm. Laid hotter than it ever gets: none.
    expect(await cell('gap?material=brass&length=2m&laying=25&hottest=35')).toBeCloseTo(1.2, 9)
    expect(await cell('gap?material=brass&length=2m&laying=60&hottest=35')).toBe(0)
    expect(await cell('gap?material=brass&length=2m&laying=77F&hottest=95F&sunAllowance=36F')).toBeCloseTo(1.2, 9)
  })

  test('the rail of one curve (closed form: (R ± (gauge + head)/2)·angle)', async () => {
    const [outer, inner, both] = await Promise.all(
      ['outer', 'inner', 'both'].map((rail) => cell(`rail-length?radius=3m&angle=90&rail=${rail}`)),
    )
    const apart = (45 + 2.8448) / 2
    expect(outer).toBeCloseTo(((3000 + apart) * Math.PI) / 2, 6)
    expect(inner).toBeCloseTo(((3000 - apart) * Math.PI) / 2, 6)
    expect(both).toBeCloseTo(3000 * Math.PI, 6)
    // More than a whole turn.
    expect(await cell('rail-length?diameter=6m&angle=405&rail=both')).toBeCloseTo((6000 * Math.PI * 405) / 180, 6)
  })

  test('of a whole track are those of its estimate', async () => {
    const supplies = {
      sticks: [
        { length: '5 ft', price: '14.50' },
        { length: '6 ft', price: '16.25' },
      ],
      joiners: { packSize: 10, pricePerPack: '9' },
      ties: { spacing: '1-3/4 in', packSize: 100, pricePerPack: '21' },
      fasteners: { packSize: 500, pricePerPack: '12' },
    }
    const { tracks, cutting, bill } = await estimateOf({ ...PLAN, supplies })
    const required = (item: string) => bill.lines.find((line) => line.item === item)!.required
    expect(await cell(`rail-length?track=${TRACK}&rail=left`)).toBe(tracks[0]!.rails.left.lengthMm)
    expect(await cell(`ties?track=${TRACK}&tieSpacing=1-3/4in`)).toBe(tracks[0]!.ties)
    expect(await cell(`sticks?track=${TRACK}&${SUPPLIES}`)).toBe(cutting.sticksUsed)
    expect(await cell(`joiners?track=${TRACK}&${SUPPLIES}`)).toBe(required('joiner'))
    expect(await cell(`cost?track=${TRACK}&${SUPPLIES}`)).toBe(Number(bill.total))
    expect(await cell(`joiners?track=${TRACK}&${SUPPLIES}&start=joined`)).toBe(required('joiner') + 2)
    // By hand: 72 ft of 6-ft sticks on both rails are 24, packs of five 25.
    expect(await cell('sticks?track=S72ft&stick=6ft')).toBe(24)
    expect(await cell('sticks?track=S72ft&stick=6ft&stickPack=5&count=buy')).toBe(25)
    // By hand: 10 m at 50 mm are 201 ties, a loop of it 200, one end less where it is joined.
    expect(await cell('ties?length=10m&tieSpacing=50')).toBe(201)
    expect(await cell('ties?length=10m&tieSpacing=50&end=joined')).toBe(200)
  })

  test('rail of a closed track has its easements between the neighbours around its end', async () => {
    const track = 'S2m_E600_Lr2m-a180_E600_S2m_E600_Lr2m-a180_E600'
    const elements = [0, 1].flatMap(() => [
      { kind: 'tangent', length: 2000 },
      { kind: 'easement', length: 600 },
      { kind: 'arc', radius: 2000, angle: 180, turn: 'left' },
      { kind: 'easement', length: 600 },
    ])
    const { tracks } = await estimateOf({ ...PLAN, tracks: [{ name: 'track', closed: true, elements }] })
    for (const rail of ['left', 'right'] as const)
      expect(await cell(`rail-length?track=${track}&closed=yes&rail=${rail}`)).toBe(tracks[0]!.rails[rail].lengthMm)
    // An easement at the start comes from the arc at the end, and only so has anything to do between it and an arc of its own.
    const turned = 'E600_Lr2m-a180_S2m_Lr1m-a180'
    const open = await cell(`rail-length?track=${turned}&rail=right`)
    const closed = await cell(`rail-length?track=${turned}&rail=right&closed=yes`)
    // By hand: the right rail is longer than the track by half the gauge and head times the turn, and the easement turns by
    // half its length times the sum of the curvatures at its ends: 1/2000 alone, or with 1/1000 before it.
    expect(closed - open).toBeCloseTo(((45 + 2.8448) / 2) * (600 / 2) * (1 / 1000), 6)
    expect(placesIn(await ask('/v1/cell/rail-length?radius=3m&angle=90&closed=yes'))).toEqual(['closed'])
    expect(placesIn(await ask(`/v1/cell/rail-length?track=${track}&closed=maybe`))).toEqual(['closed'])
  })

  test('every cell answers its example', async () => {
    expect(CELLS.map(({ name }) => name).sort()).toEqual(
      [
        'mid-ordinate',
        'rail-length',
        'forming-radius',
        'ties',
        'gap',
        'level-rise',
        'sticks',
        'joiners',
        'cost',
        'overhang',
        'vertical-curve',
        'cars-up-grade',
        'turnout-radius',
        'turnout-lead',
      ].sort(),
    )
    for (const { name, example } of CELLS) expect(await cell(`${name}?${example}`)).toBeGreaterThan(0)
  })

  test('a number too long for a cell is rounded to fit', () => {
    expect(cellText(1 / 3)).toBe('0.3333333333333333')
    expect(cellText(-1.2345678901234567e-20)).toBe('-0.0000000000000000000123456789')
    expect(cellText(5e-324)).toBe('0')
    expect(cellText(1.5e29)).toBe('150000000000000000000000000000')
    for (const value of [Math.PI * 1e15, -Math.E * 1e-9, 123456.789])
      expect(cellText(value).length).toBeLessThanOrEqual(32)
  })
})

describe('what cannot be answered', () => {
  test('is refused with every fault at once', async () => {
    const answer = await ask(`/v1/cell/cost?track=S6ft_Q_L&stick=long&stickPrice=much&kerf=-1&colour=red&errors=sell`)
    expect(answer.status).toBe(400)
    expect(placesIn(answer).sort()).toEqual(['colour', 'errors', 'kerf', 'stick', 'stickPrice', 'track', 'track'])
    expect(placesIn(await ask('/v1/cell/mid-ordinate?chord=500&chord=300'))).toEqual(['chord', 'radius'])
    expect(placesIn(await ask('/v1/cell/mid-ordinate?radius=200&chord=500'))).toEqual(['chord'])
    expect(placesIn(await ask('/v1/cell/rail-length'))).toEqual(['track'])
    expect(placesIn(await ask('/v1/cell/rail-length?radius=3m'))).toEqual(['angle'])
    expect(placesIn(await ask(`/v1/cell/rail-length?track=${TRACK}&angle=3&radius=3m`))).toEqual(['radius', 'angle'])
    expect(placesIn(await ask(`/v1/cell/rail-length?track=${TRACK}&rail=outer`))).toEqual(['rail'])
    expect(placesIn(await ask('/v1/cell/rail-length?radius=20&angle=90'))).toEqual(['radius'])
    expect(placesIn(await ask(`/v1/cell/rail-length?radius=${'9'.repeat(400)}&angle=90`))).toEqual(['radius'])
    expect(placesIn(await ask('/v1/cell/ties'))).toEqual(['track'])
    expect(placesIn(await ask(`/v1/cell/ties?track=${TRACK}&length=3m`))).toEqual(['length'])
    expect(placesIn(await ask('/v1/cell/gap?length=2m&laying=warm&hottest=35')).sort()).toEqual(['laying', 'material'])
    expect(placesIn(await ask(`/v1/cell/cost?track=${TRACK}&stick=6ft&stickPrice=16`)).sort()).toEqual([
      'fastenerPrice',
      'joinerPrice',
      'tiePrice',
    ])
    const inTrack = await ask('/v1/cell/sticks?track=S6ft_Rr20-a45')
    expect(placesIn(inTrack)).toEqual(['track'])
    expect(problemIn(inTrack).errors[0]!.detail).toContain('element 2')
    expect(placesIn(await ask('/v1/cell/sticks?track=S6ft&joinerPack=0&temper=hard')).sort()).toEqual([
      'joinerPack',
      'temper',
    ])
  })

  test('with errors=cell stands in the cell, in one short line', async () => {
    const { status, text, headers } = await ask('/v1/cell/sticks?track=S6ft_Q&stick=long&errors=cell')
    expect(status).toBe(200)
    expect(headers.get('content-type')).toBe('text/plain; charset=utf-8')
    expect(text).toMatch(/^ERR bad-track track: element 2, from character 6: "Q" is not an element; .* \(and 1 more\)$/)
    expect(text.length).toBeLessThanOrEqual(255)
    expect(text).not.toContain('\n')
    const long = await ask(`/v1/cell/sticks?track=${'Q'.repeat(1500)}&errors=cell`)
    expect(long.text.length).toBeLessThanOrEqual(255)
    expect((await ask('/v1/cell/level-rise?errors=cell')).text).toBe('ERR missing grade: this parameter is required')
  })

  test.each(['__proto__', 'constructor', 'toString'])('%s is no parameter and no value', async (name) => {
    expect(placesIn(await ask(`/v1/cell/ties?length=3m&${name}=1`))).toEqual([name])
    const answer = await ask(`/v1/cell/forming-radius?radius=3m&material=${name}&section=${name}&rail=${name}`)
    expect([...new Set(placesIn(answer))].sort()).toEqual(['material', 'rail', 'section', 'temper'])
    expect((await ask(`/v1/cell/sticks?track=${name}&errors=cell`)).text).toMatch(/^ERR bad-track track: element 1/)
  })

  test('with errors=cell has a tag like a number, and is not sent again', async () => {
    const asked = '/v1/cell/level-rise?grade=steep&errors=cell'
    const first = await ask(asked)
    const tag = first.headers.get('etag')!
    expect(tag).toMatch(/^"[\w-]+"$/)
    expect(first.headers.get('cache-control')).toBe('public, max-age=3600')
    const headers = { 'If-None-Match': tag }
    for (const again of [asked, `${asked}&refresh=2`]) {
      const answer = await ask(again, { headers })
      expect([answer.status, answer.text, answer.headers.get('etag')]).toEqual([304, '', tag])
    }
    expect((await ask(asked.replace('steep', 'level'), { headers })).status).toBe(200)
    expect((await ask(asked, { method: 'HEAD' })).headers.get('etag')).toBe(tag)
    const refused = await ask('/v1/cell/level-rise?grade=steep')
    expect([refused.headers.get('etag'), refused.headers.get('cache-control')]).toEqual([null, 'no-cache'])
  })

  test('when too much is going on, that is said and not kept', async () => {
    let busy = true
    const workers: Workers = {
      ...inThisThread,
      estimate: (input) => {
        if (busy) throw new WorkersError('full')
        return inThisThread.estimate(input)
      },
    }
    const app = asking(createApp({ store: {} as ProjectStore, workers }))
    const asked = `/v1/cell/sticks?track=${TRACK}&errors=cell`
    expect((await app.ask(asked)).text).toMatch(/^ERR too-busy track: /)
    expect((await app.ask(`/v1/cell/sticks?track=${TRACK}`)).status).toBe(503)
    busy = false
    expect((await app.ask(asked)).text).toMatch(/^\d+$/)
  })
})

describe('answers that are kept', () => {
  const answer = (text: string) => ({ text, tag: '"t"' })

  test('are so many, whatever is asked: the oldest go first', () => {
    const cache = new CellCache()
    for (let n = 0; n < 6_000; n++) cache.put(`/v1/cell/ties?length=${n}`, answer(String(n)))
    const still = Array.from({ length: 6_000 }, (_, n) => cache.get(`/v1/cell/ties?length=${n}`)?.text)
    expect(still.slice(0, 1_000).filter(Boolean)).toEqual([])
    expect(still.slice(1_000)).toEqual(Array.from({ length: 5_000 }, (_, n) => String(1_000 + n)))
  })

  test('come to so much together: two million characters with what was asked', () => {
    const cache = new CellCache()
    const asked = (n: number) => `/v1/cell/sticks?track=${'S6ft_'.repeat(395)}${n}`
    for (let n = 0; n < 3_000; n++) cache.put(asked(n), answer('E'.repeat(255)))
    const still = Array.from({ length: 3_000 }, (_, n) => n).filter((n) => cache.get(asked(n)))
    const characters = still.map((n) => asked(n).length + 255 + 3).reduce((sum, each) => sum + each, 0)
    expect(characters).toBeLessThanOrEqual(2_000_000)
    expect(characters).toBeGreaterThan(1_990_000)
    expect(still.at(-1)).toBe(2_999)
    cache.put(`/v1/cell/ties?${'x'.repeat(2_100)}`, answer('1'))
    expect(cache.get(`/v1/cell/ties?${'x'.repeat(2_100)}`)).toBeUndefined()
  })
})
