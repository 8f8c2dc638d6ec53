import { describe, expect, it } from 'vitest'
import { closings } from '../../src/fitting/closings.ts'
import type { Closing, Tolerances } from '../../src/fitting/loop.ts'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import { placeElements } from '../../src/track/place.ts'
import { arc, easement, straight } from '../estimate/plans.ts'
import { randomFrom } from '../random.ts'
import { endOf, randomLoop, type Slipped, withSlip } from './random-loops.ts'

const TOLERANCES: Tolerances = { gapMm: 2, headingRad: Math.PI / 360, minimumRadiusMm: 600 }

const closingsOf = (elements: readonly ElementInput[], tolerances = TOLERANCES) =>
  closings(placeElements({ xMm: 40, yMm: -70, headingRad: 1 }, elements, true), tolerances)

/** The elements with a closing carried out. */
function closed(elements: readonly ElementInput[], { changes }: Closing): ElementInput[] {
  const after = [...elements]
  for (const change of changes) {
    const before = after[change.element]!
    if (before.kind === 'tangent' || before.kind === 'easement') {
      if (change.field === 'length') after[change.element] = { ...before, length: change.toMm }
    } else if (before.kind !== 'arc') throw new Error(`no change of a ${before.kind}`)
    else if (change.field === 'angle') after[change.element] = { ...before, angle: (change.toRad * 180) / Math.PI }
    else if (change.field === 'radius') after[change.element] = { ...before, radius: change.toMm }
    else if (change.field === 'turn') after[change.element] = { ...before, turn: change.to }
  }
  return after
}

function misses(elements: readonly ElementInput[]): boolean {
  const { xMm, yMm, headingRad } = endOf(elements)
  const turns = headingRad / (2 * Math.PI)
  return Math.hypot(xMm, yMm) > 2.001 || Math.abs(turns - Math.round(turns)) * 360 > 0.5001
}

const inShort = ({ changes }: Closing) =>
  changes.map((change) =>
    change.field === 'turn'
      ? [change.element, change.to]
      : [change.element, change.field, change.field === 'angle' ? (change.toRad * 180) / Math.PI : change.toMm],
  )

describe('one slip in an oval (by hand)', () => {
  const oval = (change: Record<number, ElementInput>) =>
    [straight(3000), arc(1500, 180), straight(3000), arc(1500, 180)].map((each, index) => change[index] ?? each)

  it('179° for 180° is cured by one degree on that arc, and nothing else', () => {
    const [first, ...others] = closingsOf(oval({ 1: arc(1500, 179) }))
    expect(inShort(first!)).toEqual([[1, 'angle', expect.closeTo(180, 9)]])
    expect(others).toEqual([])
  })

  it('a turn to the wrong side is recognised', () => {
    expect(inShort(closingsOf(oval({ 3: arc(1500, 180, 'right') }))[0]!)).toEqual([[3, 'left']])
  })

  it('of two straights that could both be wrong the odd one is', () => {
    const lengths = closingsOf(oval({ 2: straight(3017) }))
    expect(inShort(lengths[0]!)).toEqual([[2, 'length', expect.closeTo(3000, 6)]])
    expect(inShort(lengths[1]!)).toEqual([[0, 'length', expect.closeTo(3017, 6)]])
  })

  it('a radius unlike the other', () => {
    expect(inShort(closingsOf(oval({ 3: arc(1520, 180) }))[0]!)).toEqual([[3, 'radius', expect.closeTo(1500, 6)]])
  })

  it('a radius under the minimum is never proposed', () => {
    const tight = [straight(3000), arc(500, 180), straight(3000), arc(1500, 180)]
    const radii = closingsOf(tight).flatMap(({ changes }) => changes.filter(({ field }) => field === 'radius'))
    expect(radii.map((change) => 'toMm' in change && change.toMm >= 600)).toEqual(radii.map(() => true))
  })

  it('the same wrong angle twice is changed twice, and angles are traded where one is too large and one too small', () => {
    const both = [
      [1, 'angle', expect.closeTo(180, 6)],
      [3, 'angle', expect.closeTo(180, 6)],
    ]
    expect(inShort(closingsOf(oval({ 1: arc(1500, 178), 3: arc(1500, 178) }))[0]!)).toEqual(both)
    expect(inShort(closingsOf(oval({ 1: arc(1500, 179), 3: arc(1500, 181) }))[0]!)).toEqual(both)
  })

  it('with easements, whose curve turns the wrong way', () => {
    const lost = (500 / 1500) * (180 / Math.PI)
    const end = (turn: 'left' | 'right') => [easement(500), arc(1500, 180 - lost, turn), easement(500)]
    const eased = [straight(3000), ...end('left'), straight(3000), ...end('right')]
    expect(inShort(closingsOf(eased)[0]!)).toEqual([[6, 'left']])
  })

  it('a loop that closes, a single straight and nothing at all need or have none', () => {
    expect(closingsOf([straight(1000)])).toEqual([])
    expect(closings([], TOLERANCES)).toEqual([])
  })
})

describe('random loops with one slip each', () => {
  it('are closed by the first cure in at least nine of ten, mostly by the slip itself, and no element is deleted', () => {
    const random = randomFrom(4711)
    const found = { closed: 0, slip: 0, any: 0 }
    for (let each = 0; each < 200; each++) {
      const loop = randomLoop(random)
      expect(misses(loop)).toBe(false)
      const kind = (['angle', 'turn', 'length'] as const)[each % 3]!
      const { elements, element } = withSlip(loop, kind, random)
      const cures = closingsOf(elements)
      const isSlip = ({ changes }: Closing) => {
        const [change] = changes
        return changes.length === 1 && change!.element === element && (change!.field as Slipped['kind']) === kind
      }
      for (const cure of cures) {
        expect(misses(closed(elements, cure))).toBe(false)
        for (const change of cure.changes) {
          if (change.field === 'length') expect(change.toMm).toBeGreaterThan(1 - 1e-9)
          if (change.field === 'angle') expect(change.toRad).toBeGreaterThan(1e-3 - 1e-9)
          if (change.field === 'radius') expect(change.toMm).toBeGreaterThanOrEqual(600)
        }
      }
      if (cures[0] && !misses(closed(elements, cures[0]))) found.closed++
      if (cures[0] && isSlip(cures[0])) found.slip++
      if (cures.some(isSlip)) found.any++
    }
    expect(found.closed).toBeGreaterThanOrEqual(180)
    expect(found.slip).toBeGreaterThanOrEqual(180)
    expect(found.any).toBeGreaterThanOrEqual(198)
  })
})
