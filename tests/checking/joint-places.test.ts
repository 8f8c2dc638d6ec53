import { describe, expect, it } from 'vitest'
import { type JointRequirements, jointPlaceFindings, type PlacedJoint } from '../../src/checking/joint-places.ts'

const NOTHING: JointRequirements = {
  keepOut: [],
  tieSpacingMm: null,
  joinerMm: 0,
  staggerMm: null,
  square: false,
}

function joints(left: number[], right: number[] = [], kind = 'joiner'): PlacedJoint[] {
  const of = (rail: 'left' | 'right') => (stationMm: number) => ({ rail, stationMm, kind })
  return [...left.map(of('left')), ...right.map(of('right'))]
}

const found = (asked: Partial<JointRequirements>, placed: PlacedJoint[]) =>
  jointPlaceFindings('main', placed, { ...NOTHING, ...asked })

it('where nothing is asked nothing is found', () => {
  expect(found({}, joints([100, 200], [100, 201]))).toEqual([])
})

describe('stretches to keep out of', () => {
  const keepOut = [{ from: 1000, to: 1500, reason: 'footbridge' }]

  it('joints in one are counted, of any kind and either rail', () => {
    const [finding, ...more] = found({ keepOut }, [...joints([400, 1200], [1300]), ...joints([1400], [], 'insulated')])
    expect(more).toEqual([])
    expect(finding).toMatchObject({ rule: 'joint-in-keep-out', severity: 'warn', track: 'main', measured: 3, limit: 0 })
    expect(finding!.message).toMatch(
      /^3 joints are between 1000 mm and 1500 mm \(footbridge\).* the first at 1200 mm\.$/,
    )
  })

  it('each stretch is a finding of its own; without a reason none is told', () => {
    const two = [...keepOut, { from: 3000, to: 3100, reason: null }]
    const findings = found({ keepOut: two }, joints([1200, 3050]))
    expect(findings.map(({ measured }) => measured)).toEqual([1, 1])
    expect(findings[1]!.message).toMatch(/^One joint is between 3000 mm and 3100 mm, where there should be none/)
  })

  it('its ends are free, to a thousandth of a millimetre', () => {
    expect(found({ keepOut }, joints([1000, 1500, 1000.0009, 1499.9991]))).toEqual([])
    expect(found({ keepOut }, joints([1000.002, 1499.998]))).toMatchObject([{ measured: 2 }])
  })

  it('a joint with a joiner keeps half its length away', () => {
    // by hand: half of 30 is 15
    const asked = { keepOut, joinerMm: 30 }
    expect(found(asked, joints([985, 1515]))).toEqual([])
    expect(found(asked, joints([985.002, 1514.998]))).toMatchObject([{ measured: 2 }])
    expect(found(asked, joints([990]))[0]!.message).toContain('or so near that the joiner reaches in')
    expect(found(asked, joints([990], [], 'turnout'))).toEqual([])
  })
})

describe('joints kept apart', () => {
  it('those of the left rail too near one of the right are counted, with the least distance', () => {
    const [finding, ...more] = found({ staggerMm: 300 }, joints([1000, 2000, 3000], [1290, 1800, 3300]))
    expect(more).toEqual([])
    expect(finding).toMatchObject({ rule: 'joints-too-near', severity: 'warn', measured: 200, limit: 300, unit: 'mm' })
    expect(finding!.message).toMatch(/^2 joints of the left rail are within 300 mm .* the first at 1000 mm\.$/)
  })

  it('one is told of as one', () => {
    expect(found({ staggerMm: 300 }, joints([1000], [800]))[0]!.message).toContain('One joint of the left rail is')
  })

  it('as far apart as asked is far enough, and only plain joiners are looked at', () => {
    expect(found({ staggerMm: 300 }, joints([1000], [1300, 700]))).toEqual([])
    expect(found({ staggerMm: 300 }, joints([1000], [1299.9991]))).toEqual([])
    expect(found({ staggerMm: 300 }, joints([1000], [1299.998]))).toHaveLength(1)
    expect(found({ staggerMm: 300 }, joints([1000], [1000], 'insulated'))).toEqual([])
    expect(found({ staggerMm: 300 }, joints([1000]))).toEqual([])
  })
})

describe('joints opposite each other', () => {
  it('those of either rail with none opposite are counted', () => {
    const [finding, ...more] = found({ square: true, staggerMm: 300 }, joints([1000, 2000], [1000, 1900]))
    expect(more).toEqual([])
    expect(finding).toMatchObject({ rule: 'joints-not-square', severity: 'warn', measured: 2, limit: 0 })
    expect(finding!.message).toMatch(/^2 joints are not opposite a joint of .* the first at 1900 mm\.$/)
  })

  it('opposite is within a thousandth of a millimetre', () => {
    expect(found({ square: true }, joints([1000], [1000.0009]))).toEqual([])
    expect(found({ square: true }, joints([1000], [1000.002]))).toMatchObject([{ measured: 2 }])
    expect(found({ square: true }, joints([1000]))[0]!.message).toMatch(/^One joint is not opposite/)
  })
})

describe('joints between ties', () => {
  it('those not midway between two are counted (by hand: ties at 0, 45, 90 …)', () => {
    const [finding, ...more] = found({ tieSpacingMm: 45 }, joints([22.5, 112.5, 90], [100]))
    expect(more).toEqual([])
    expect(finding).toMatchObject({ rule: 'joint-on-tie', severity: 'warn', measured: 2, limit: 0 })
    expect(finding!.message).toMatch(/^2 joints are not midway between two ties; the first at 90 mm\.$/)
  })

  it('midway is within a thousandth of a millimetre, and only of plain joiners', () => {
    expect(found({ tieSpacingMm: 45 }, joints([22.5009, 67.4991]))).toEqual([])
    expect(found({ tieSpacingMm: 45 }, joints([22.502, 67.498]))).toMatchObject([{ measured: 2 }])
    expect(found({ tieSpacingMm: 45 }, joints([90], [], 'expansion'))).toEqual([])
  })
})
