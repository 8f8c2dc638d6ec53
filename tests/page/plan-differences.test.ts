import { describe, expect, test } from 'vitest'
import { planDifferences, valueText } from '../../src/page/pages/plan-differences.ts'

describe('where two plans differ', () => {
  const plan = { title: 'a', tracks: [{ elements: [{ length: 1 }, { length: 2 }] }] }

  test('nowhere, when they say the same in another order', () => {
    expect(planDifferences({ a: 1, b: [2] }, { b: [2], a: 1 })).toEqual([])
  })

  test('in the deepest places that can be named', () => {
    const mine = { tracks: [{ elements: [{ length: 1 }, { length: 3 }, { length: 4 }] }], gauge: 45 }
    expect(planDifferences(plan, mine)).toEqual([
      { path: ['title'], theirs: 'a', mine: undefined },
      { path: ['tracks', 0, 'elements', 1, 'length'], theirs: 2, mine: 3 },
      { path: ['tracks', 0, 'elements', 2], theirs: undefined, mine: { length: 4 } },
      { path: ['gauge'], theirs: undefined, mine: 45 },
    ])
  })

  test('in kind as well as in value: 14.5 is not "14.5", null is not nothing', () => {
    expect(planDifferences({ a: 14.5, b: null, c: [] }, { a: '14.5', c: {} })).toHaveLength(3)
  })

  test('each side in a few words', () => {
    expect([undefined, '6 ft', 45, { length: 4 }].map(valueText)).toEqual(['nothing', '6 ft', '45', 'length 4'])
    expect(valueText([{ kind: 'arc', radius: '9 ft' }, { at: { x: 1, y: null } }])).toBe(
      'kind arc, radius 9 ft; at x 1, y null',
    )
    expect(valueText('x'.repeat(100))).toHaveLength(60)
  })
})
