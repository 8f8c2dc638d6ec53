import { describe, expect, test } from 'vitest'
import type { Estimate } from '../../src/estimate/answer.ts'
import { ARC, appWithoutStore, asking, example, placesIn, planWith, problemIn, TANGENT, trackOf } from './asking.ts'

const { ask } = asking(appWithoutStore())
const post = (json: unknown) => ask('/v1/estimates', { method: 'POST', json })

describe('joints and gaps over the wire', () => {
  test('the loop in the sun: joints, gaps and what its breaks take', async () => {
    const answer = await post(example('loop-in-the-sun'))
    expect(answer.status).toBe(200)
    const { joints, bill, tracks, expansion } = JSON.parse(answer.text) as Estimate
    expect(joints).toHaveLength(tracks[0]!.joints)
    const count = (kind: string) => joints.filter((joint) => joint.kind === kind).length
    expect([count('expansion'), count('insulated'), count('bridge-end'), count('closing')]).toEqual([6, 2, 2, 0])
    const lines = bill.lines.map(({ item, required, packs, amount }) => [item, required, packs, amount])
    expect(lines).toContainEqual(['insulated-joiner', 2, 1, '6.00'])
    expect(lines).toContainEqual(['expansion-joint', 6, 3, '55.50'])
    // By hand: 10 °F and 95 °F are -12.2 °C and 35 °C, and 20 K are added for the sun.
    expect(expansion!.coldestC).toBeCloseTo(-110 / 9, 9)
    expect(expansion!.hottestC).toBeCloseTo(55, 9)
    // By hand: 23.4e-6 × (14 ft + 14 ft)/2 of the centre line × 36.7 K; its rails differ by less than 2 %.
    const middle = joints.find(({ stationMm }) => Math.abs(stationMm - 14 * 304.8) < 1e-6)!
    expect(middle.gapMm! / (23.4e-6 * 14 * 304.8 * (330 / 9))).toBeCloseTo(1, 1)
    expect(middle.gapInch64).toMatch(/^\d+\/64 in$/)
  })

  test('every fault at once, those between the parts too', async () => {
    const answer = await post(
      planWith({
        climate: { laying: 'mild', coldest: 40, hottest: '41 F', sunAllowance: -1 },
        joints: { kind: 'welded', held: 'yes', gapLimits: 2 },
        tracks: [
          {
            ...trackOf(TANGENT),
            breaks: [
              { at: '3 ft', kind: 'insulated' },
              { at: '2 ft', kind: 'bridge-end' },
              { at: '9 ft', kind: 'gap' },
              { at: '7 ft', kind: 'turnout' },
            ],
          },
        ],
      }),
    )
    const faults = problemIn(answer).errors.map((error) => [('pointer' in error && error.pointer) || '', error.code])
    expect(faults.toSorted()).toEqual(
      [
        ['/climate/laying', 'bad-temperature'],
        ['/climate/sunAllowance', 'out-of-range'],
        ['/joints/gapLimits', 'unknown-field'],
        ['/joints/held', 'wrong-type'],
        ['/joints/kind', 'unknown-value'],
        ['/tracks/0/breaks/1/at', 'out-of-order'],
        ['/tracks/0/breaks/2/kind', 'unknown-value'],
        ['/tracks/0/breaks/3/at', 'out-of-range'],
      ].toSorted(),
    )
  })

  test.each([
    [{ laying: 15, coldest: -10 }, '/climate/hottest', 'missing'],
    [{ laying: 15, coldest: 30, hottest: '80 F' }, '/climate/coldest', 'contradictory'],
    [{ laying: '15', coldest: -10, hottest: 30 }, '/climate/laying', 'bad-temperature'],
    [{ laying: 15, coldest: '-200 F', hottest: 30 }, '/climate/coldest', 'out-of-range'],
  ])('%j is refused', async (climate, pointer, code) => {
    const answer = await post(planWith({ climate }))
    expect(problemIn(answer).errors).toMatchObject([{ pointer, code, hint: expect.any(String) as string }])
  })

  test.each([
    ['a stretch that ends before it begins', [{ from: '3 ft', to: '2 ft' }], 'to', 'out-of-order'],
    ['a stretch of no length', [{ from: 500, to: 500, reason: 'path' }], 'to', 'out-of-order'],
    ['a stretch beyond the end of the track', [{ from: '7 ft', to: '8 ft' }], 'from', 'out-of-range'],
    ['a stretch without an end', [{ from: '1 ft' }], 'to', 'missing'],
    ['a negative station', [{ from: -1, to: '1 ft' }], 'from', 'out-of-range'],
    ['a misspelt field', [{ from: 0, to: '1 ft', reasons: 'path' }], 'reasons', 'unknown-field'],
  ])('%s is refused at its place', async (_, keepOut, field, code) => {
    const answer = await post(planWith({ tracks: [{ ...trackOf(TANGENT), keepOut }] }))
    expect(answer.status).toBe(422)
    expect(problemIn(answer).errors).toMatchObject([
      { pointer: `/tracks/0/keepOut/0/${field}`, code, hint: expect.any(String) as string },
    ])
  })

  test('each faulty stretch is told of, with other faults of the plan', async () => {
    const keepOut = [
      { from: '2 ft', to: '1 ft' },
      { from: '1 ft', to: '2 ft', reason: 'path' },
      { from: '9 ft', to: '10 ft' },
    ]
    const tracks = [{ ...trackOf(TANGENT, { ...TANGENT, length: 0 }), keepOut }]
    const unread = await post(planWith({ tracks, joints: { arrangement: 'square', stagger: 0 } }))
    expect(placesIn(unread).toSorted()).toEqual([
      '/joints/stagger',
      '/tracks/0/elements/1/length',
      '/tracks/0/keepOut/0/to',
    ])
    const read = await post(planWith({ tracks: [{ ...trackOf(TANGENT), keepOut }] }))
    expect(placesIn(read)).toEqual(['/tracks/0/keepOut/0/to', '/tracks/0/keepOut/2/from'])
  })

  test.each([
    [{ arrangement: 'square', stagger: '6 in' }, '/joints/stagger', 'contradictory'],
    [{ arrangement: 'squared' }, '/joints/arrangement', 'unknown-value'],
    [{ stagger: 'half a stick' }, '/joints/stagger', 'bad-length'],
    [{ stagger: -1 }, '/joints/stagger', 'out-of-range'],
    [{ betweenTies: 'yes' }, '/joints/betweenTies', 'wrong-type'],
    [{ staggered: 300 }, '/joints/staggered', 'unknown-field'],
  ])('joints %j are refused', async (joints, pointer, code) => {
    const answer = await post(planWith({ joints }))
    expect(answer.status).toBe(422)
    expect(problemIn(answer).errors).toMatchObject([{ pointer, code }])
  })

  test('more stretches than can be are refused for their number', async () => {
    const keepOut = Array.from({ length: 101 }, (_, n) => ({ from: n, to: n + 0.5 }))
    const answer = await post(planWith({ tracks: [{ ...trackOf(TANGENT), keepOut }] }))
    expect(problemIn(answer).errors).toMatchObject([{ pointer: '/tracks/0/keepOut', code: 'too-many' }])
  })

  test('square joints lie opposite each other, joints between ties midway between two', async () => {
    const plan = (joints: object) => planWith({ tracks: [trackOf({ ...TANGENT, length: '20 ft' }, ARC)], joints })
    const answered = async (joints: object) => (JSON.parse((await post(plan(joints))).text) as Estimate).joints
    const square = await answered({ arrangement: 'square' })
    const stations = (rail: string) => square.filter((joint) => joint.rail === rail).map(({ stationMm }) => stationMm)
    expect(stations('left').length).toBeGreaterThan(3)
    expect(stations('left')).toEqual(stations('right').map((mm) => expect.closeTo(mm, 6) as number))
    const between = await answered({ betweenTies: true })
    expect(between.length).toBeGreaterThan(6)
    // By hand: ties stand every 45 mm from the start, so joints at odd multiples of 22.5 mm.
    for (const { stationMm } of between) expect(Math.abs((stationMm / 22.5) % 2)).toBeCloseTo(1, 4)
  })

  test('what cannot be kept to is found, and the plan is answered all the same', async () => {
    const long = { ...trackOf({ ...TANGENT, length: '20 ft' }), keepOut: [{ from: 0, to: '20 ft', reason: 'viaduct' }] }
    const answer = await post(planWith({ tracks: [long] }))
    expect(answer.status).toBe(200)
    const { findings, cutting } = JSON.parse(answer.text) as Estimate
    expect(findings.map(({ rule }) => rule)).toContain('joint-in-keep-out')
    expect(findings.find(({ rule }) => rule === 'joint-in-keep-out')!.message).toContain('viaduct')
    expect(cutting.provenOptimal).toBe(false)
  })

  test('more breaks than can be are refused for their number', async () => {
    const breaks = Array.from({ length: 501 }, (_, n) => ({ at: n + 1, kind: 'insulated' }))
    const answer = await post(
      planWith({
        tracks: [
          { ...trackOf(TANGENT), breaks },
          { ...trackOf(TANGENT), name: 'b', breaks },
        ],
      }),
    )
    expect(problemIn(answer).errors).toMatchObject([{ pointer: '/tracks', code: 'too-many' }])
  })
})
