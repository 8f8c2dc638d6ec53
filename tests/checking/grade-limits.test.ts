import { describe, expect, it } from 'vitest'
import type { StandardsInput } from '../../src/plan/rows/standards.ts'
import type { TrackInput } from '../../src/plan/rows/track.ts'
import { estimateOf, planOf, straight } from '../estimate/plans.ts'

const TWELVE_METRES = [straight(4000), straight(4000), straight(4000)]
const found = (track: Partial<TrackInput>, standards: StandardsInput = {}) =>
  estimateOf(planOf(TWELVE_METRES, track, { standards }))
    .findings.filter(({ rule }) => rule === 'maximum-grade')
    .map(({ message, element }) => [element, message] as const)

describe('stretches with their own maximum grade', () => {
  const climb = {
    gradeLine: [
      { at: 0, gradePct: 1.5 },
      { at: 9000, gradePct: 0 },
    ],
  }

  it('are checked against it, the rest against the standards', () => {
    expect(found(climb)).toEqual([])
    const limits = [{ from: 5000, to: 7000, maximumGradePct: 0.5, reason: 'in the shed' }]
    expect(found({ ...climb, limits })).toEqual([
      [1, 'From 5000 mm to 7000 mm the grade is 1.50 %; the limit (in the shed) there is 0.5 %.'],
    ])
  })

  it('may allow more, and begin or end within a grade', () => {
    const steep = { gradeLine: [{ at: 0, gradePct: 4 }] }
    const limits = [{ from: 0, to: 11_000, maximumGradePct: 5 }]
    expect(found({ ...steep, limits })).toEqual([
      [2, 'From 11000 mm to 12000 mm the grade is 4.00 %; the limit is 2 %.'],
    ])
  })

  it('count in their order where they overlap', () => {
    const limits = [
      { from: 6000, to: 8000, maximumGradePct: 2 },
      { from: 5000, to: 9000, maximumGradePct: 1 },
    ]
    expect(found({ ...climb, limits }).map(([, message]) => message)).toEqual([
      'From 5000 mm to 6000 mm the grade is 1.50 %; the limit there is 1 %.',
      'From 8000 mm to 9000 mm the grade is 1.50 %; the limit there is 1 %.',
    ])
  })
})

describe('a short grade', () => {
  const bump = (pct: number, mm: number) => ({
    gradeLine: [
      { at: 0, elevation: 0 },
      { at: 2000, gradePct: pct },
      { at: 2000 + mm, gradePct: 0 },
    ],
  })

  it('may be steeper, as long as it is short', () => {
    expect(found(bump(3, 1500))).toHaveLength(1)
    expect(found(bump(3, 1500), { shortGradeLength: 1500 })).toEqual([])
    expect(found(bump(3, 1501), { shortGradeLength: 1500 })).toHaveLength(1)
    expect(found(bump(3.1, 1500), { shortGradeLength: 1500 })).toHaveLength(1)
    expect(found(bump(3.1, 1500), { shortGradeLength: 1500, maximumShortGradePct: 3.5 })).toEqual([])
  })

  it('is as long as all that is too steep in a row', () => {
    const gradeLine = [
      { at: 0, gradePct: 2.5 },
      { at: 1000, gradePct: 3 },
      { at: 2000, gradePct: 0 },
    ]
    expect(found({ gradeLine }, { shortGradeLength: 1500 })).toHaveLength(2)
    expect(found({ gradeLine }, { shortGradeLength: 2000 })).toEqual([])
  })

  it('does not count where the track has a limit of its own', () => {
    const limits = [{ from: 0, to: 12_000, maximumGradePct: 1 }]
    expect(found({ ...bump(1.5, 500), limits }, { shortGradeLength: 1500 })).toHaveLength(1)
  })

  it('is listed as an assumption where it is used', () => {
    const assumed = (standards: StandardsInput) =>
      estimateOf(planOf(TWELVE_METRES, {}, { standards })).assumptions.filter(({ field }) => /short/i.test(field))
    expect(assumed({})).toEqual([])
    expect(assumed({ shortGradeLength: 1500 })).toEqual([
      { field: '/standards/maximumShortGradePct', value: '3 %', reason: 'common practice for short grades' },
    ])
  })
})

describe('a vertical curve', () => {
  it('between gentle grades is no finding, and beside a steep one the grade is', () => {
    const hump = (pct: number) => ({
      gradeLine: [
        { at: 0, gradePct: pct },
        { at: 6000, gradePct: -1, verticalCurve: 2000 },
      ],
    })
    expect(found(hump(2))).toEqual([])
    expect(found(hump(3))).toEqual([[0, 'From 0 mm to 5000 mm the grade is 3.00 %; the limit is 2 %.']])
  })

  it('is the finding where it leaves nothing of the grade', () => {
    const gradeLine = [
      { at: 0, elevation: 0 },
      { at: 1000, gradePct: 3, verticalCurve: 2000 },
      { at: 3000, gradePct: 0, verticalCurve: 2000 },
    ]
    const messages = found({ gradeLine })
    expect(messages.map(([, message]) => message)).toEqual([
      'From 0 mm to 2000 mm the grade reaches 3.00 %; the limit is 2 %.',
      'From 2000 mm to 4000 mm the grade reaches 3.00 %; the limit is 2 %.',
    ])
  })
})
