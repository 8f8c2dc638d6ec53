import { describe, expect, it } from 'vitest'
import { type Join, joinFindings, type NearestCurve, nearestCurve } from '../../src/checking/at-joins.ts'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import { placeElements } from '../../src/track/place.ts'
import { arc, easement, straight } from '../estimate/plans.ts'

const placed = (...elements: ElementInput[]) => placeElements({ xMm: 0, yMm: 0, headingRad: 0 }, elements, false)
const left: NearestCurve = { sign: 1, straightMm: 0, eased: false, element: null }

function joinOf(elements: ElementInput[], curve: NearestCurve | null, more: Partial<Join> = {}): Join {
  return { track: 'main', end: 'start', placed: placed(...elements), there: { material: null, curve }, ...more }
}

describe('the curve nearest to an end', () => {
  const track = placed(straight(300), straight(200), arc(1000, 30, 'right'), straight(80), easement(400))

  it('lies beyond the straights before it, and turns as one goes from start to end (by hand)', () => {
    expect(nearestCurve(track, 'start')).toEqual({ sign: -1, straightMm: 500, eased: false, element: 2 })
    const back = placed(arc(1000, 30), straight(80), straight(20))
    expect(nearestCurve(back, 'end')).toEqual({ sign: 1, straightMm: 100, eased: false, element: 0 })
  })

  it('is eased where an easement leads out of the straight into it', () => {
    const eased = placed(straight(100), easement(400), arc(1000, 30, 'right'), easement(300), straight(50))
    expect(nearestCurve(eased, 'start')).toEqual({ sign: -1, straightMm: 100, eased: true, element: 1 })
    expect(nearestCurve(eased, 'end')).toEqual({ sign: -1, straightMm: 50, eased: true, element: 3 })
  })

  it('is none where all is straight', () => {
    expect(nearestCurve(placed(straight(300)), 'start')).toBeNull()
    expect(nearestCurve(placed(straight(300)), 'end')).toBeNull()
  })
})

describe('curves of opposite turn across a join', () => {
  const rightAfter = (straightMm: number) => [straight(straightMm), arc(1000, 30, 'right')]
  const found = (join: Join, limitMm: number | null) => joinFindings([join], { id: 'brass' }, limitMm)

  it('need the straight that is required, counting that on the other side of the join (by hand)', () => {
    const there = { ...left, straightMm: 250 }
    const [finding, ...more] = found(joinOf(rightAfter(300), there), 700)
    expect(more).toEqual([])
    expect(finding).toMatchObject({ rule: 'reverse-curve', severity: 'warn', track: 'main', element: 1 })
    expect(finding).toMatchObject({ measured: 550, limit: 700, unit: 'mm' })
    expect(finding!.message).toContain('at the start of main, with only 550 mm of straight track')
    expect(finding!.message).toContain('At least 700 mm is required.')
    expect(finding!.cure).toContain('150 mm more straight track')
    expect(found(joinOf(rightAfter(450), there), 700)).toEqual([])
    expect(found(joinOf(rightAfter(449.9), there), 700)).toHaveLength(1)
  })

  it('need some straight where no length is required', () => {
    const [finding] = found(joinOf([arc(1000, 30, 'right')], left), null)
    expect(finding).toMatchObject({ measured: 0, limit: null, element: 0 })
    expect(finding!.message).toMatch(/with no straight between the two curves\.$/)
    expect(finding!.cure).toContain('Put a straight between')
    expect(found(joinOf(rightAfter(1), left), null)).toEqual([])
  })

  it('are only noted where both are eased', () => {
    const eased = [easement(300), arc(1000, 30, 'right')]
    const severities = (own: ElementInput[], there: NearestCurve) =>
      found(joinOf(own, there), 700).map(({ severity }) => severity)
    expect(severities(eased, { ...left, eased: true })).toEqual(['note'])
    expect(severities(eased, left)).toEqual(['warn'])
    expect(severities(rightAfter(0.5), { ...left, eased: true })).toEqual(['warn'])
  })

  it('are none where both turn the same way, or one side is straight', () => {
    expect(found(joinOf([arc(1000, 30, 'left')], left), 700)).toEqual([])
    expect(found(joinOf([straight(100)], left), 700)).toEqual([])
    expect(found(joinOf([arc(1000, 30, 'right')], null), 700)).toEqual([])
  })

  it('are looked for from the end that joins', () => {
    const track = [arc(1000, 30, 'left'), straight(900), arc(1000, 30, 'right')]
    expect(found(joinOf(track, left), 700)).toEqual([])
    const [finding] = found(joinOf(track, left, { end: 'end' }), 700)
    expect(finding).toMatchObject({ element: 2, measured: 0 })
    expect(finding!.message).toContain('at the end of main')
  })
})

describe('aluminium at a join', () => {
  const meets = (own: string, other: string | null) => {
    const join = joinOf([straight(100)], null, { there: { material: other, curve: null } })
    return joinFindings([join], { id: own }, null)
  }

  it.each([
    ['aluminium', 'brass', 'brass'],
    ['aluminium', 'nickel-silver', 'nickel-silver'],
    ['aluminium', 'steel', 'steel'],
    ['stainless', 'aluminium', 'stainless'],
  ])('%s that meets %s corrodes', (own, other, nobler) => {
    const [finding, ...more] = meets(own, other)
    expect(more).toEqual([])
    expect(finding).toMatchObject({ rule: 'mixed-metals', severity: 'note', track: 'main', element: null })
    expect(finding!.message).toContain(`At the start of main aluminium meets ${nobler}`)
  })

  it.each([
    ['aluminium', 'aluminium'],
    ['aluminium', null],
    ['brass', 'steel'],
    ['brass', null],
  ])('%s that meets %s does not', (own, other) => {
    expect(meets(own, other)).toEqual([])
  })
})
