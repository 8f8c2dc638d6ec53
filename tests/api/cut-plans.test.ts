import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { CUT_PLAN_ANSWER, type CutPlan } from '../../src/api/answers/cut-plan.ts'
import { answerSchema } from '../../src/api/answers/schema.ts'
import { appWithoutStore, asking, example, placesIn, problemIn } from './asking.ts'

const { ask } = asking(appWithoutStore())
const post = (json: unknown) => ask('/v1/cut-plans', { method: 'POST', json })

async function planOf(json: unknown): Promise<CutPlan> {
  const answer = await post(json)
  if (answer.status !== 200) throw new Error(answer.text)
  const body: unknown = JSON.parse(answer.text)
  expect(answerSchema(CUT_PLAN_ANSWER).parse(body)).toEqual(body)
  return body as CutPlan
}

/** Lengths are the same to a millionth of a millimetre, and what rounding adds to that. */
const SLACK_MM = 1.01e-6

const STICK = { length: 1500, price: '12.00' }

describe('a cut plan', () => {
  test('of two runs in one stick: two cuts, what is left, what it costs (by hand)', async () => {
    const plan = await planOf({ runs: [{ length: 700 }, { length: 650 }], sticks: [STICK], kerf: 2 })
    expect(plan).toMatchObject({ cost: '12.00', costLowerBound: '12.00', gap: '0.00', provenOptimal: true, joints: 0 })
    expect(plan.sticks).toHaveLength(1)
    expect(plan.sticks[0]).toMatchObject({ lengthMm: 1500, fromStock: false, kerfMm: 4, offcutMm: 146 })
    expect(plan.sticks[0]!.pieces.toSorted((a, b) => a.run - b.run)).toEqual([
      { run: 0, fromMm: 0, lengthMm: 700 },
      { run: 1, fromMm: 0, lengthMm: 650 },
    ])
    expect([plan.sticksUsed, plan.sticksLowerBound, plan.shortestPieceMm]).toEqual([1, 1, 650])
  })

  test('takes what is on hand first, free of charge, and counts joiners singly (by hand)', async () => {
    // 12 ft of two 6-ft sticks to the last bit, one of them in the shed: one stick and one joiner to buy.
    const asked = {
      runs: [{ length: '12 ft' }],
      sticks: [{ length: '6 ft', price: 17.25, onHand: 1 }],
      joinerPrice: '0.90',
    }
    const plan = await planOf(asked)
    expect(plan).toMatchObject({ cost: '18.15', provenOptimal: true, joints: 1, sticksUsed: 2 })
    expect(plan.sticks.map(({ fromStock, kerfMm, offcutMm }) => [fromStock, kerfMm, offcutMm])).toEqual([
      [true, 0, 0],
      [false, 0, 0],
    ])
  })

  test('lists what it assumed', async () => {
    const plan = await planOf({ runs: [{ length: 700 }], sticks: [STICK] })
    expect(plan.assumptions.map(({ field, value }) => [field, value])).toEqual([
      ['/sticks/0/onHand', '0'],
      ['/kerf', '1 mm'],
      ['/minimumPiece', '150 mm'],
      ['/joinerPrice', '0.00'],
      ['/effort', 'quick'],
    ])
    const sticks = [{ ...STICK, onHand: 0 }]
    const said = { runs: [{ length: 700 }], sticks, kerf: 1, minimumPiece: 150, joinerPrice: 0, effort: 'thorough' }
    expect((await planOf(said)).assumptions).toEqual([])
  })

  test('is never dearer for looking longer, and the same whenever it is asked for', async () => {
    const asked = example('six-runs-to-cut') as object
    const quick = await post({ ...asked, effort: 'quick' })
    expect((await post({ ...asked, effort: 'quick' })).text).toBe(quick.text)
    const thorough = await planOf({ ...asked, effort: 'thorough' })
    expect(Number(thorough.cost)).toBeLessThanOrEqual(Number((JSON.parse(quick.text) as CutPlan).cost))
  })

  test('accounts for every millimetre and every cent', async () => {
    const lengths = fc.integer({ min: 200, max: 40_000 }).map((tenths) => tenths / 10)
    const request = fc.record({
      runs: fc.array(fc.record({ length: lengths }), { minLength: 1, maxLength: 8 }),
      sticks: fc.uniqueArray(
        fc.record({
          length: fc.constantFrom(914.4, 1000, 1524, 1828.8),
          price: fc.integer({ min: 1, max: 3000 }).map((cents) => (cents / 100).toFixed(2)),
          onHand: fc.integer({ min: 0, max: 3 }),
        }),
        { minLength: 1, maxLength: 3, selector: ({ length }) => length },
      ),
      kerf: fc.constantFrom(0, 1, 1.5),
      joinerPrice: fc.constantFrom('0.00', '0.90', '4.00'),
    })
    await fc.assert(
      fc.asyncProperty(request, async (asked) => {
        const plan = await planOf(asked)
        for (const { lengthMm, kerfMm, offcutMm, pieces } of plan.sticks) {
          const piecesMm = pieces.reduce((sum, piece) => sum + piece.lengthMm, 0)
          expect(Math.abs(piecesMm + kerfMm + offcutMm - lengthMm)).toBeLessThanOrEqual(SLACK_MM)
          expect(Math.min(kerfMm, offcutMm)).toBeGreaterThanOrEqual(0)
        }
        for (const [run, { length }] of asked.runs.entries()) {
          const pieces = plan.sticks.flatMap((stick) => stick.pieces).filter((piece) => piece.run === run)
          let atMm = 0
          for (const piece of pieces.toSorted((a, b) => a.fromMm - b.fromMm)) {
            expect(Math.abs(piece.fromMm - atMm)).toBeLessThanOrEqual(SLACK_MM)
            atMm += piece.lengthMm
          }
          expect(Math.abs(atMm - length)).toBeLessThanOrEqual(SLACK_MM)
        }
        const pieces = plan.sticks.reduce((sum, stick) => sum + stick.pieces.length, 0)
        expect(plan.joints).toBe(pieces - asked.runs.length)
        let cents = plan.joints * Math.round(Number(asked.joinerPrice) * 100)
        for (const { length, price, onHand } of asked.sticks) {
          const own = plan.sticks.filter(({ lengthMm }) => lengthMm === length)
          expect(own.filter(({ fromStock }) => fromStock)).toHaveLength(Math.min(onHand, own.length))
          cents += Math.max(0, own.length - onHand) * Math.round(Number(price) * 100)
        }
        expect(plan.cost).toBe((cents / 100).toFixed(2))
        const [cost, bound, gap] = [plan.cost, plan.costLowerBound, plan.gap].map((text) =>
          Math.round(Number(text) * 100),
        )
        expect(cost! - bound!).toBe(gap)
        expect(gap).toBeGreaterThanOrEqual(0)
        expect(plan.provenOptimal).toBe(gap === 0)
      }),
      { numRuns: 60 },
    )
  })
})

describe('what cannot be cut', () => {
  test('is told in full: the faults of fields and those between them', async () => {
    const answer = await post({
      runs: [{ length: '6' }, { lenght: 5 }, { length: 0, name: 7 }],
      sticks: [{ length: '5 ft', price: '14.505' }, { length: '60 in', price: '1', onHand: -1 }, { length: '9 ft' }],
      kerf: '4 m',
      minimumPiece: '5 m',
      joinerPrice: 'free',
      effort: 'throrough',
    })
    expect(answer.status).toBe(422)
    expect(placesIn(answer).toSorted()).toEqual([
      '/effort',
      '/joinerPrice',
      '/runs/0/length',
      '/runs/1/lenght',
      '/runs/2/length',
      '/runs/2/name',
      '/sticks/0/price',
      '/sticks/1/onHand',
      '/sticks/2/price',
    ])
    const between = { runs: [{ length: 900 }], kerf: '4 m', minimumPiece: '5 m' }
    const twins = await post({
      ...between,
      sticks: [
        { length: '5 ft', price: 1 },
        { length: '60 in', price: '1' },
      ],
    })
    expect(placesIn(twins).toSorted()).toEqual(['/kerf', '/minimumPiece', '/sticks/1/length'])
    const both = await post({ ...between, sticks: [{ length: '5 ft', price: 1 }], effort: 1 })
    expect(placesIn(both).toSorted()).toEqual(['/effort', '/kerf', '/minimumPiece'])
  })

  test('is refused for its size alone', async () => {
    const runs = Array.from({ length: 501 }, () => ({ length: 'x' }))
    const sticks = Array.from({ length: 21 }, (_, n) => ({ length: 1000 + n, price: 1 }))
    expect(placesIn(await post({ runs, sticks }))).toEqual(['/runs', '/sticks'])
    const bulk = await post({ runs: [{ length: '10 km' }, { length: 1e7 }], sticks: [{ length: 700, price: '1' }] })
    expect(bulk.status).toBe(422)
    const long = await post({ runs: [{ length: 1e7 }, { length: 1e7 }], sticks: [{ length: 700, price: '1' }] })
    expect(problemIn(long).errors).toMatchObject([{ pointer: '/sticks', code: 'too-many' }])
    expect(placesIn(await post({ runs: [], sticks: [] })).toSorted()).toEqual(['/runs', '/sticks'])
  })
})
