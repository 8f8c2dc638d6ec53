import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bestOnOpenTrack, worstOnLoopOhm } from '../../src/laying/feeder-network.ts'
import { type Block, feedBlock, MOST_FEEDERS, type Supply } from '../../src/laying/power.ts'

const supply = (more: Partial<Supply> = {}): Supply => ({
  currentA: 4,
  allowedDropV: 1,
  railsOhmPerM: 0.01,
  jointOhm: 0,
  feederOhm: 0,
  ...more,
})
const open = (lengthM: number, joints = 0): Block => ({ lengthMm: lengthM * 1000, closed: false, joints })
const loop = (lengthM: number, joints = 0): Block => ({ lengthMm: lengthM * 1000, closed: true, joints })

describe('the far end', () => {
  // by hand, 4 A: 10 m of 0.01 Ω/m are 0.1 Ω
  it.each([
    ['of an open track', open(10), supply(), 0.4],
    ['with ten joints of 5 mΩ', open(10, 10), supply({ jointOhm: 0.005 }), 0.6],
    ['with a feeder of 0.05 Ω', open(10), supply({ feederOhm: 0.05 }), 0.6],
    ['half-way round a loop: two ways of 5 m side by side', loop(10), supply(), 0.1],
  ])('%s', (_, block, given, dropV) => {
    expect(feedBlock(block, given).farEndDropV).toBeCloseTo(dropV, 12)
  })
})

describe('feeders', () => {
  // by hand: ΔV/I = 0.25 Ω at 0.01 Ω/m reaches 25 m past a feeder; two stand up to 4 × 25 = 100 m apart
  it.each([
    [open(10), 1, null, 5_000],
    [open(50), 1, null, 25_000],
    [open(50.01), 2, 100_000 * (50.01 / 150), 25_000 * (50.01 / 150)],
    [open(150), 2, 100_000, 25_000],
    [open(151), 3, 100_000 * (151 / 250), 25_000 * (151 / 250)],
    [loop(100), 1, null, null],
    [loop(101), 2, 50_500, null],
    [loop(350), 4, 87_500, null],
  ])('%o: %d', (block, feeders, spacingMm, endMm) => {
    const fed = feedBlock(block, supply())
    expect(fed.feeders).toBe(feeders)
    expect(fed.widestSpacingMm).toBeCloseTo(100_000, 6)
    if (spacingMm === null) expect(fed.spacingMm).toBeNull()
    else expect(fed.spacingMm).toBeCloseTo(spacingMm, 6)
    if (endMm === null) expect(fed.endMm).toBeNull()
    else expect(fed.endMm).toBeCloseTo(endMm, 6)
  })

  it('help where the wire of one alone drops all that is allowed', () => {
    // by hand: at 4 A one alone drops 1 V, two side by side 0.5 V, and eight of 2 Ω 1 V
    const thin = supply({ feederOhm: 0.25 })
    expect(feedBlock(open(10), thin)).toMatchObject({ feeders: 2 })
    expect(feedBlock(open(10), thin).worstDropV!).toBeLessThan(1)
    expect(feedBlock(open(10), supply({ feederOhm: 2 })).feeders).toBeGreaterThan(8)
  })

  it('are none where more than a thousand would be needed', () => {
    expect(feedBlock(open(10), supply({ feederOhm: 500 }))).toMatchObject({ feeders: null, worstDropV: null })
    expect(feedBlock(loop(10_000), supply({ allowedDropV: 1e-4 })).feeders).toBeNull()
  })
})

it('the count is the smallest that keeps to the allowed drop', () => {
  const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true })
  fc.assert(
    fc.property(
      fc.record({
        currentA: positive(0.5, 10),
        allowedDropV: positive(0.5, 3),
        railsOhmPerM: positive(0.003, 0.06),
        jointOhm: positive(0, 0.01),
        feederOhm: positive(0, 2),
      }),
      positive(2, 200),
      fc.nat(100),
      fc.boolean(),
      (given, lengthM, joints, closed) => {
        const block = { lengthMm: lengthM * 1000, closed, joints }
        const fed = feedBlock(block, given)
        const { loopOhm, worstDropV, spacingMm } = fed
        const dropOf = (feeders: number) => {
          const { lengthMm } = block
          const row = { feeders, lengthMm, ohmPerMm: loopOhm / lengthMm, feederOhm: given.feederOhm }
          return given.currentA * (closed ? worstOnLoopOhm(row) : bestOnOpenTrack(row).worstOhm)
        }
        if (fed.feeders === null) return expect(dropOf(MOST_FEEDERS)).toBeGreaterThan(given.allowedDropV)
        const { feeders } = fed
        expect(worstDropV).toBeLessThanOrEqual(given.allowedDropV * (1 + 1e-8))
        expect(worstDropV).toBeCloseTo(dropOf(feeders), 12)
        for (let fewer = 1; fewer < feeders; fewer++) expect(dropOf(fewer)).toBeGreaterThan(given.allowedDropV)
        // A row that ends is never fed better than a long one.
        if (spacingMm !== null) expect(spacingMm).toBeLessThanOrEqual(fed.widestSpacingMm! * (1 + 1e-8))
      },
    ),
  )
})
