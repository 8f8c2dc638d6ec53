import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { BUILDS } from '../../src/api/answers/projects.ts'
import { answerSchema } from '../../src/api/answers/schema.ts'
import { RESERVATIONS, SHED } from '../../src/api/answers/shed.ts'
import { createApp } from '../../src/app.ts'
import type { BillLine, Estimate } from '../../src/estimate/answer.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { BUILD } from '../../src/projects/store.ts'
import { BILL_SINCE } from '../../src/shed/bill-since.ts'
import { NOTHING } from '../../src/shed/stock.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { temporaryStore } from '../servers/databases.ts'
import { type Answer, type Asked, asking, placesIn, planWith, problemIn } from './asking.ts'

const NOBODY = '01890a5d-ac96-774b-bcce-b302099a8057'
const BRASS = { section: '250', material: 'brass' }

let store: ProjectStore
let client: ReturnType<typeof asking>

beforeAll(async () => {
  store = await temporaryStore()
  client = asking(createApp({ store, workers: inThisThread }))
})
afterAll(() => store.close())
beforeEach(async () => {
  for (const { id } of (await store.list({ limit: 200, after: null })).items) await store.remove(id, 'any')
  await put({})
})

const ask = (path: string, asked?: Asked): Promise<Answer> => client.ask(path, asked)
const put = (json: unknown, headers: Readonly<Record<string, string>> = { 'If-Match': '*' }) =>
  ask('/v1/shed', { method: 'PUT', headers, json })
const bodyOf = (answer: Answer) => JSON.parse(answer.text)

/** Two rails of 2400 mm: without stock two sticks of 2500 mm, which leave 99 mm each. */
const plan = (supplies: object = {}) =>
  planWith({
    tracks: [{ name: 'main', elements: [{ kind: 'tangent', length: 2400 }] }],
    supplies: { sticks: [{ length: 2500, packSize: 3 }], ties: { packSize: 10 }, ...supplies },
  })

async function create(json: unknown = plan()): Promise<string> {
  const answer = await ask('/v1/projects', { method: 'POST', json: { name: 'Pond line', plan: json } })
  expect(answer.status).toBe(201)
  return bodyOf(answer).id
}

async function estimateOf(id: string): Promise<Estimate> {
  const answer = await ask(`/v1/projects/${id}/estimate`)
  expect(answer.status).toBe(200)
  return bodyOf(answer)
}

const sticksLine = ({ bill }: Estimate, lengthMm: number) =>
  bill.lines.find((line) => line.item === 'rail-stick' && line.lengthMm === lengthMm)
const build = (id: string, headers: Readonly<Record<string, string>> = {}) =>
  ask(`/v1/projects/${id}/built`, { method: 'POST', headers })

describe('the shed', () => {
  test('keeps what is put in, and is answered with its tag', async () => {
    const first = await ask('/v1/shed')
    expect(first.status).toBe(200)
    const shed = bodyOf(first)
    expect(answerSchema(SHED).parse(shed)).toEqual(shed)
    expect(shed).toMatchObject(NOTHING)
    expect(first.headers.get('etag')).toBe(`"${shed.revision}"`)

    const written = await put(
      {
        sticks: [
          { section: '250', material: 'aluminum', length: '5 ft', count: 2 },
          { ...BRASS, length: '60 in', count: 4 },
          { ...BRASS, lengthMm: 437.25, count: 1 },
          { ...BRASS, length: 1524, count: 1 },
        ],
        joiners: [{ ...BRASS, count: 6 }],
        fasteners: 150,
      },
      { 'If-Match': first.headers.get('etag')! },
    )
    expect(written.status).toBe(200)
    expect(written.headers.get('etag')).toBe(`"${shed.revision + 1}"`)
    expect(bodyOf(written)).toMatchObject({
      revision: shed.revision + 1,
      sticks: [
        { section: '250', material: 'aluminium', lengthMm: 1524, count: 2 },
        { ...BRASS, lengthMm: 1524, count: 5 },
        { ...BRASS, lengthMm: 437.25, count: 1 },
      ],
      joiners: [{ ...BRASS, count: 6 }],
      ties: 0,
      fasteners: 150,
    })
    const again = await ask('/v1/shed')
    expect(bodyOf(again)).toEqual(bodyOf(written))
    const { sticks, joiners, ties, fasteners } = bodyOf(again)
    expect(bodyOf(await put({ sticks, joiners, ties, fasteners }))).toMatchObject({ sticks, joiners, ties, fasteners })
    const unchanged = await ask('/v1/shed', { headers: { 'If-None-Match': `"${shed.revision + 2}"` } })
    expect([unchanged.status, unchanged.text]).toEqual([304, ''])
  })

  test('keeps ready-made pieces by size and ties, and is answered as it may be put back', async () => {
    const written = await put({
      panels: [
        { ...BRASS, diameter: '20 ft', angle: 30, ties: 24, count: 2 },
        { ...BRASS, radius: '10 ft', angle: 30, count: 1 },
        { ...BRASS, radiusMm: 3048, angleDeg: 30, ties: 24, count: 1 },
        { ...BRASS, length: '2 ft', ties: 13, count: 4 },
        { ...BRASS, lengthMm: 609.6, radiusMm: null, angleDeg: null, ties: 12, count: 1 },
        { section: '332', material: 'aluminum', length: 900, count: 1 },
      ],
      insulatedJoiners: [{ ...BRASS, count: 3 }],
      transitionJoiners: [{ ...BRASS, count: 2 }],
      expansionJoints: [{ ...BRASS, count: 1 }],
      tieStrips: [
        { ties: 12, count: 4 },
        { ties: 24, count: 1 },
        { ties: 12, count: 2 },
      ],
    })
    expect(written.status).toBe(200)
    const { revision: _, updatedAt: __, ...stock } = bodyOf(written)
    const straight = { radiusMm: null, angleDeg: null }
    // By hand: 3048 mm · π/6 = 1595.9291 mm.
    const curve = { lengthMm: expect.closeTo(1595.9291, 4), radiusMm: 3048, angleDeg: 30 }
    expect(stock).toEqual({
      ...NOTHING,
      panels: [
        { ...BRASS, lengthMm: 609.6, ...straight, ties: 13, count: 4 },
        { ...BRASS, lengthMm: 609.6, ...straight, ties: 12, count: 1 },
        { ...BRASS, ...curve, ties: 24, count: 3 },
        { ...BRASS, ...curve, ties: 0, count: 1 },
        { section: '332', material: 'aluminium', lengthMm: 900, ...straight, ties: 0, count: 1 },
      ],
      insulatedJoiners: [{ ...BRASS, count: 3 }],
      transitionJoiners: [{ ...BRASS, count: 2 }],
      expansionJoints: [{ ...BRASS, count: 1 }],
      tieStrips: [
        { ties: 24, count: 1 },
        { ties: 12, count: 6 },
      ],
    })
    expect(bodyOf(await put(stock))).toMatchObject(stock)
    // What is left out is not there, as ever.
    expect(bodyOf(await put({ ties: 1 }))).toMatchObject({ ...NOTHING, ties: 1 })
  })

  test('says what is wrong with ready-made pieces', async () => {
    const answer = await put({
      panels: [
        { ...BRASS, ties: 2, count: 1 },
        { ...BRASS, length: 600, diameter: '20 ft', angle: 30, count: 1 },
        { ...BRASS, radius: 3048, diameter: 6096, angle: 30, count: 1 },
        { ...BRASS, radius: 3048, count: 1 },
        { ...BRASS, radiusMm: 3048, angleDeg: 30, lengthMm: 1500, count: 1 },
        { ...BRASS, radiusMm: 3048, angleDeg: 30, lengthMm: 1595.9291, ties: -1, count: 1 },
      ],
    })
    expect(answer.status).toBe(422)
    expect(placesIn(answer).toSorted()).toEqual([
      '/panels/0/length',
      '/panels/1/length',
      '/panels/2/radius',
      '/panels/3/angle',
      '/panels/4/lengthMm',
      '/panels/5/ties',
    ])
    const many = await put({ panels: [2000, 3001].map((count) => ({ ...BRASS, length: 600 + count, count })) })
    expect(problemIn(many).errors).toMatchObject([{ pointer: '/panels', code: 'too-many' }])
  })

  test('is replaced only by who says which revision they read', async () => {
    expect((await put({ ties: 1 }, {})).status).toBe(428)
    const stale = await put({ ties: 1 }, { 'If-Match': '"1000000"' })
    expect(stale.status).toBe(412)
    expect(stale.headers.get('etag')).toBe((await ask('/v1/shed')).headers.get('etag'))
    expect((await put({ ties: 1 }, { 'If-Match': 'x' })).status).toBe(400)
  })

  test('names everything that is wrong at once, and changes nothing', async () => {
    const answer = await put({
      sticks: [
        { section: '251', material: 'brass', length: '5 ft', count: 1 },
        { ...BRASS, count: 1 },
        { ...BRASS, length: '5', count: 1.5 },
        { ...BRASS, length: 1524, lengthMm: 1524, count: -1 },
      ],
      joiners: [{ ...BRASS }],
      ties: '9',
      tise: 9,
    })
    expect(answer.status).toBe(422)
    expect(placesIn(answer).toSorted()).toEqual([
      '/joiners/0/count',
      '/sticks/0/section',
      '/sticks/1/length',
      '/sticks/2/count',
      '/sticks/2/length',
      '/sticks/3/count',
      '/sticks/3/length',
      '/ties',
      '/tise',
    ])
    const many = await put({ sticks: Array.from({ length: 3 }, () => ({ ...BRASS, length: 1524, count: 2_000 })) })
    expect(problemIn(many).errors).toMatchObject([{ pointer: '/sticks', code: 'too-many' }])
    expect(bodyOf(await ask('/v1/shed'))).toMatchObject(NOTHING)
  })
})

describe('estimates of saved projects', () => {
  test('never have the same stick, whether the stock or the projects came first', async () => {
    await put({ sticks: [{ ...BRASS, length: 2500, count: 3 }], ties: 60 })
    const [a, b] = [await create(), await create()]
    for (const round of [3, 1, 4]) {
      await put({ sticks: [{ ...BRASS, length: 2500, count: round }], ties: 60 })
      const [ofA, ofB] = [await estimateOf(a), await estimateOf(b)]
      const stock = [ofA, ofB].map(({ cutting }) => cutting.sticks.filter(({ fromStock }) => fromStock).length)
      expect(stock).toEqual([Math.min(2, round), Math.max(0, Math.min(2, round - 2))])
      // 2400 mm at 45 mm takes 54 ties.
      expect([ofA, ofB].map(({ bill }) => bill.lines.find(({ item }) => item === 'tie')!.onHand)).toEqual([54, 6])
    }
    const answer = bodyOf(await ask('/v1/shed/reservations'))
    expect(answerSchema(RESERVATIONS).parse(answer)).toEqual(answer)
    expect(answer.items).toMatchObject([
      { project: a, name: 'Pond line', stock: { sticks: [{ ...BRASS, lengthMm: 2500, count: 2 }], ties: 54 } },
      { project: b, stock: { sticks: [{ ...BRASS, lengthMm: 2500, count: 2 }], ties: 6 } },
    ])
    const csv = await ask(`/v1/projects/${b}/bill.csv`)
    expect(csv.text).toMatch(/^tie,Tie,,each,54,6,48,/m)
  })

  test('never have the same ready-made piece', async () => {
    const readyMade = (length: number) =>
      planWith({
        tracks: [{ name: 'main', elements: [{ kind: 'tangent', length }] }],
        supplies: { panels: [{ length: 600, ties: 13, price: '9.00' }], readyMade: 'always' },
      })
    const [a, b] = [await create(readyMade(1800)), await create(readyMade(1200))]
    for (const there of [4, 2, 9]) {
      await put({ panels: [{ ...BRASS, length: 600, ties: 13, count: there }] })
      const pieces = await Promise.all([a, b].map(async (id) => (await estimateOf(id)).readyMade!.panels))
      const fromStock = pieces.map((used) => used.filter((piece) => piece.fromStock).length)
      expect(pieces.map((used) => used.length)).toEqual([3, 2])
      expect(fromStock).toEqual([Math.min(3, there), Math.min(2, Math.max(0, there - 3))])
    }
    const { items } = bodyOf(await ask('/v1/shed/reservations'))
    const had = (count: number) => ({ panels: [{ ...BRASS, lengthMm: 600, ties: 13, count }] })
    expect(items).toMatchObject([
      { project: a, stock: had(3) },
      { project: b, stock: had(2) },
    ])
  })

  test('a plan that says what is on hand has that and leaves the shed to others', async () => {
    await put({ sticks: [{ ...BRASS, length: 2500, count: 2 }] })
    const stated = await create(plan({ sticks: [{ length: 2500, onHand: 0 }] }))
    const open = await create()
    expect(sticksLine(await estimateOf(stated), 2500)).toMatchObject({ onHand: 0, toBuy: 2 })
    expect(sticksLine(await estimateOf(open), 2500)).toMatchObject({ onHand: 2, toBuy: 0 })
  })

  test('the page shows the same', async () => {
    await put({ sticks: [{ ...BRASS, length: 2400, count: 2 }] })
    const id = await create()
    expect((await ask(`/plans/${id}/record`)).text).toMatch(
      /2 of 2400 mm, none to be bought.*in the shed and not reserved for another project/i,
    )
  })
})

describe('building', () => {
  test('takes what the estimate took, and brings back offcuts and what is over of packs', async () => {
    await put({ sticks: [{ ...BRASS, length: 3000, count: 1 }], ties: 40, joiners: [{ ...BRASS, count: 5 }] })
    const id = await create()
    const before = bodyOf(await ask('/v1/shed')).revision
    const answer = await build(id)
    expect(answer.status).toBe(200)
    const built = bodyOf(answer)
    expect(answerSchema(BUILD).parse(built)).toEqual(built)
    expect(built).toMatchObject({
      revision: 1,
      taken: { sticks: [{ ...BRASS, lengthMm: 3000, count: 1 }], joiners: [], ties: 40, fasteners: 0 },
      // By hand: 3000 − 2400 − 1 of kerf; of a pack of three one stick is cut, and its 99 mm are too short to keep;
      // 14 ties short, two packs of ten bought; 216 fasteners bought singly.
      returned: {
        sticks: [
          { ...BRASS, lengthMm: 2500, count: 2 },
          { ...BRASS, lengthMm: 599, count: 1 },
        ],
        joiners: [],
        ties: 6,
        fasteners: 0,
      },
    })
    expect(bodyOf(await ask('/v1/shed'))).toMatchObject({
      revision: before + 1,
      ...built.returned,
      joiners: [{ ...BRASS, count: 5 }],
    })
    expect(bodyOf(await ask('/v1/shed/reservations'))).toEqual({ items: [] })
    // It still reads as it was built.
    expect(sticksLine(await estimateOf(id), 3000)).toMatchObject({ required: 1, onHand: 1, toBuy: 0 })
    const builds = bodyOf(await ask(`/v1/projects/${id}/built`))
    expect(answerSchema(BUILDS).parse(builds)).toEqual({ items: [built] })
  })

  test('takes ready-made pieces that only lie in the shed, and brings back what is cut off them', async () => {
    await put({
      panels: [
        { ...BRASS, radius: 3048, angle: 30, ties: 24, count: 4 },
        { ...BRASS, length: 600, ties: 13, count: 1 },
      ],
      insulatedJoiners: [{ ...BRASS, count: 3 }],
    })
    const elements = [
      { kind: 'tangent', length: 600 },
      { kind: 'arc', radius: 3048, angle: 80, turn: 'left' },
    ]
    const breaks = [{ at: 600, kind: 'insulated' }]
    const id = await create(
      planWith({ tracks: [{ name: 'main', elements, breaks }], supplies: { readyMade: 'always' } }),
    )
    const built = bodyOf(await build(id))
    expect(answerSchema(BUILD).parse(built)).toEqual(built)
    const curve = { ...BRASS, radiusMm: 3048 }
    const straight = { ...BRASS, lengthMm: 600, radiusMm: null, angleDeg: null, ties: 13, count: 1 }
    // By hand: 80° are two pieces and 20° of a third, whose 10° are 531.976 mm, less 1 mm of kerf 9.9812°, with
    // ⌊24 · 9.9812/30⌋ = ⌊7.98⌋ ties.
    const cut = {
      ...curve,
      lengthMm: expect.closeTo(530.976, 3),
      angleDeg: expect.closeTo(9.9812, 4),
      ties: 7,
      count: 1,
    }
    expect(built.taken).toMatchObject({
      sticks: [],
      panels: [straight, { ...curve, angleDeg: 30, ties: 24, count: 3 }],
      insulatedJoiners: [{ ...BRASS, count: 2 }],
    })
    expect(built.returned).toMatchObject({ ...NOTHING, panels: [cut] })
    expect(bodyOf(await ask('/v1/shed'))).toMatchObject({
      panels: [{ ...curve, angleDeg: 30, ties: 24, count: 1 }, cut],
      insulatedJoiners: [{ ...BRASS, count: 1 }],
    })
    // It still reads as it was built.
    expect((await estimateOf(id)).readyMade!.panels.map(({ fromStock }) => fromStock)).toEqual([true, true, true, true])
  })

  test('a revision twice is 409, the next one may be; what is not there is 404', async () => {
    const id = await create()
    expect((await build(id, { 'If-Match': '"2"' })).status).toBe(412)
    expect((await build(id, { 'If-Match': '"1"' })).status).toBe(200)
    const stock = bodyOf(await ask('/v1/shed'))
    const again = await build(id)
    expect(again.status).toBe(409)
    expect(problemIn(again).errors).toMatchObject([{ code: 'already-built' }])
    expect(bodyOf(await ask('/v1/shed'))).toEqual(stock)
    const json = { name: 'Pond line', plan: plan() }
    await ask(`/v1/projects/${id}`, { method: 'PUT', headers: { 'If-Match': '*' }, json })
    // The stick that was over is used now.
    expect(sticksLine(await estimateOf(id), 2500)).toMatchObject({ required: 2, onHand: 1, toBuy: 1 })
    expect(bodyOf(await build(id))).toMatchObject({ revision: 2, taken: { sticks: [{ lengthMm: 2500, count: 1 }] } })
    expect((await build(NOBODY)).status).toBe(404)
    expect((await ask(`/v1/projects/${NOBODY}/built`)).status).toBe(404)
  })

  test('what is lifted is laid again, and the rest of it comes into the shed', async () => {
    const track = (name: string, length: number, more: object) => ({
      name,
      elements: [{ kind: 'tangent', length }],
      ...more,
    })
    const id = await create({
      ...plan(),
      tracks: [
        track('new', 2400, { start: { y: 900 } }),
        track('old', 5000, { state: 'lifted' }),
        track('there', 9000, { state: 'existing', start: { y: 1800 } }),
      ],
    })
    // By hand: either rail comes up as two sticks of 2500 mm and a joiner, with 112 ties; 54 ties are laid again.
    expect(sticksLine(await estimateOf(id), 2500)).toMatchObject({ required: 2, onHand: 4, toBuy: 0 })
    expect(bodyOf(await build(id))).toMatchObject({
      taken: NOTHING,
      returned: {
        sticks: [{ ...BRASS, lengthMm: 2500, count: 2 }],
        joiners: [{ ...BRASS, count: 2 }],
        ties: 112 - 54,
        fasteners: 0,
      },
    })
  })

  test('a plan that cannot be worked out is not built', async () => {
    const { id } = await store.create({ name: 'x', notes: '', plan: {} })
    const answer = await build(id)
    expect(answer.status).toBe(422)
    expect(placesIn(answer)).toContain('/plan/rail')
  })
})

describe('what more has to be bought', () => {
  const long = (length: number) => ({
    ...plan({ sticks: [{ length: 2500, packSize: 3, price: '30.00' }] }),
    tracks: [{ name: 'main', elements: [{ kind: 'tangent', length }] }],
  })
  const save = (id: string, length: number) =>
    ask(`/v1/projects/${id}`, { method: 'PUT', headers: { 'If-Match': '*' }, json: { name: 'x', plan: long(length) } })
  const bill = async (id: string, query = '') => {
    const answer = await ask(`/v1/projects/${id}/bill${query}`)
    expect(answer.status).toBe(200)
    const body = bodyOf(answer)
    expect(answerSchema(BILL_SINCE).parse(body)).toEqual(body)
    return body
  }
  const sticks = ({ lines }: { lines: BillLine[] }) => lines.find(({ item }) => item === 'rail-stick')!

  test('is told for a revision that was bought, or for several', async () => {
    await put({ sticks: [{ ...BRASS, length: 2500, count: 1 }] })
    const id = await create(long(5000))
    await save(id, 10_000)
    await save(id, 15_000)
    // By hand: 4, 8 and 12 sticks; one lies in the shed; packs of three.
    expect(await bill(id)).toMatchObject({ revision: 3, since: [], total: '120.00' })
    expect(sticks(await bill(id))).toMatchObject({ required: 12, onHand: 1, boughtBefore: 0, toBuy: 11, packs: 4 })
    expect(sticks(await bill(id, '?since=1'))).toMatchObject({ required: 12, onHand: 4, boughtBefore: 3, packs: 3 })
    expect(sticks(await bill(id, '?since=2'))).toMatchObject({ required: 12, onHand: 10, boughtBefore: 9, packs: 1 })
    expect(await bill(id, '?since=2&since=1&since=1')).toMatchObject({ since: [1, 2], total: '30.00' })
    expect(await bill(id, '?since=3')).toMatchObject({ since: [3], total: '0.00' })
  })

  test('what was bought for a revision that was built is used up', async () => {
    const id = await create(long(5000))
    await build(id)
    await save(id, 10_000)
    const answer = await bill(id, '?since=1')
    // Of two packs of three, two sticks were left over.
    expect(sticks(answer)).toMatchObject({ required: 8, onHand: 2, boughtBefore: 0, packs: 2 })
    expect(answer).toMatchObject({ since: [], findings: [{ rule: 'bought-before' }] })
  })

  test('is refused for what is no revision', async () => {
    const id = await create(long(5000))
    expect((await ask(`/v1/projects/${id}/bill?since=2`)).status).toBe(404)
    for (const query of ['since=0', 'since=-1', 'since=x', 'since=', 'until=1', `since=${2 ** 31}`])
      expect((await ask(`/v1/projects/${id}/bill?${query}`)).status).toBe(400)
    const many = Array.from({ length: 21 }, () => 'since=1').join('&')
    expect((await ask(`/v1/projects/${id}/bill?${many}`)).status).toBe(400)
  })
})
