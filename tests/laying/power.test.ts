import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Block, feedBlock, type Supply } from '../../src/laying/power.ts'

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

  it('are none where their own wire drops all that is allowed', () => {
    expect(feedBlock(open(10), supply({ feederOhm: 0.25 }))).toMatchObject({ feeders: null, worstDropV: null })
    // by hand: (0.25 − 0.24)/0.01 reaches 1 m, 4 · (0.25 − 0.12)/0.01 are 52 m between two
    expect(feedBlock(open(10), supply({ feederOhm: 0.24 })).feeders).toBe(2)
    expect(feedBlock(open(54.5), supply({ feederOhm: 0.24 })).feeders).toBe(3)
    expect(feedBlock(open(10_000), supply({ allowedDropV: 1e-4 })).feeders).toBeNull()
  })
})

/** The network with a load at `atMm`: two feeders at most are looked at, the nearest on either side. */
function dropAt(atMm: number, feedersMm: readonly number[], ohmPerMm: number, { currentA, feederOhm }: Supply): number {
  const before = feedersMm.filter((mm) => mm <= atMm).at(-1)
  const after = feedersMm.find((mm) => mm > atMm)
  const ways = [before, after].flatMap((mm) => (mm === undefined ? [] : [feederOhm + Math.abs(mm - atMm) * ohmPerMm]))
  // A supply of 0 V behind each way; the load takes its current from all of them side by side.
  const siemens = ways.reduce((sum, ohm) => sum + 1 / ohm, 0)
  return currentA / siemens
}

/** All feeders, all rails: nodes at feeders and load, solved by elimination. Drops at the load. */
function networkDrop(atMm: number, feedersMm: readonly number[], ohmPerMm: number, { currentA, feederOhm }: Supply) {
  const nodes = [...new Set([...feedersMm, atMm])].sort((a, b) => a - b)
  const g = nodes.map(() => nodes.map(() => 0))
  const i = nodes.map((mm) => (mm === atMm ? currentA : 0))
  for (let n = 0; n < nodes.length; n++) {
    if (feedersMm.includes(nodes[n]!)) g[n]![n]! += 1 / feederOhm
    if (n === 0) continue
    const s = 1 / ((nodes[n]! - nodes[n - 1]!) * ohmPerMm)
    g[n]![n]! += s
    g[n - 1]![n - 1]! += s
    g[n]![n - 1]! -= s
    g[n - 1]![n]! -= s
  }
  for (let p = 0; p < nodes.length; p++)
    for (let r = p + 1; r < nodes.length; r++) {
      const f = g[r]![p]! / g[p]![p]!
      for (let c = p; c < nodes.length; c++) g[r]![c]! -= f * g[p]![c]!
      i[r]! -= f * i[p]!
    }
  const v = nodes.map(() => 0)
  for (let p = nodes.length - 1; p >= 0; p--)
    v[p] = (i[p]! - nodes.reduce((sum, _, c) => (c > p ? sum + g[p]![c]! * v[c]! : sum), 0)) / g[p]![p]!
  return v[nodes.indexOf(atMm)]!
}

it('wherever the train stands on an open track, the drop is no more than is told, and that no more than is allowed', () => {
  const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true })
  fc.assert(
    fc.property(
      fc.record({
        currentA: positive(0.5, 10),
        allowedDropV: positive(0.5, 3),
        railsOhmPerM: positive(0.003, 0.06),
        jointOhm: positive(0, 0.01),
        feederOhm: positive(0.001, 0.04),
      }),
      positive(2, 200),
      fc.nat(100),
      fc.array(positive(0, 1), { minLength: 20, maxLength: 20 }),
      (given, lengthM, joints, places) => {
        const block = open(lengthM, joints)
        const fed = feedBlock(block, given)
        const ohmPerMm = fed.loopOhm / block.lengthMm
        if (fed.feeders === null) {
          expect(given.currentA * given.feederOhm).toBeGreaterThanOrEqual(given.allowedDropV)
          return
        }
        const feedersMm = Array.from({ length: fed.feeders }, (_, n) => fed.endMm! + n * (fed.spacingMm ?? 0))
        expect(fed.worstDropV!).toBeLessThanOrEqual(given.allowedDropV * (1 + 1e-8))
        const looked = [
          0,
          block.lengthMm,
          fed.endMm! + (fed.spacingMm ?? 0) / 2,
          ...places.map((part) => part * block.lengthMm),
        ]
        const drops = looked.map((mm) => dropAt(mm, feedersMm, ohmPerMm, given))
        expect(Math.max(...drops)).toBeCloseTo(fed.worstDropV!, 8)
        // The feeders further off only help.
        for (const mm of looked.slice(0, 6))
          expect(networkDrop(mm, feedersMm, ohmPerMm, given)).toBeLessThanOrEqual(
            dropAt(mm, feedersMm, ohmPerMm, given) * (1 + 1e-9),
          )
        // One feeder fewer does not do: its ends and spacings cannot cover the track.
        if (fed.feeders > 1) {
          const reachMm = (given.allowedDropV / given.currentA - given.feederOhm) / ohmPerMm
          expect(2 * reachMm + (fed.feeders - 2) * fed.widestSpacingMm!).toBeLessThan(block.lengthMm)
        }
      },
    ),
  )
})
