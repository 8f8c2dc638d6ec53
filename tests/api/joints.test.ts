import { describe, expect, test } from 'vitest'
import type { Estimate } from '../../src/estimate/answer.ts'
import { appWithoutStore, asking, example, planWith, problemIn, TANGENT, trackOf } from './asking.ts'

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
