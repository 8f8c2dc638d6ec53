import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { coverStretches, LEFT_OPEN_MM, panelKinds } from '../../src/laying/ready-made.ts'
import type { Panel } from '../../src/plan/rows/supplies.ts'

const RADIUS_MM = 3000
const mmOf = (deg: number, radiusMm = RADIUS_MM) => (deg * Math.PI * radiusMm) / 180
const degOf = (mm: number) => (mm / RADIUS_MM) * (180 / Math.PI)

type OfAnyPanel = Omit<Panel, 'length' | 'radius' | 'angle'>

const OF_ANY: OfAnyPanel = {
  name: null,
  ties: 12,
  joiners: 0,
  price: '10.00',
  packSize: 1,
  onHand: 0,
  buyable: true,
  massEachG: null,
}
const straight = (lengthMm: number, more: Partial<OfAnyPanel> = {}): Panel => ({ ...OF_ANY, length: lengthMm, ...more })
const curved = (deg: number, more: Partial<OfAnyPanel & { radius: number }> = {}): Panel => ({
  ...OF_ANY,
  radius: RADIUS_MM,
  angle: deg,
  ...more,
})

const RULES = { kerf: 1, minimumPiece: 150 }

function cover(lengthsMm: readonly number[], panels: readonly Panel[], rules = RULES) {
  const kind = panelKinds(panels)[0]!
  const stretches = lengthsMm.map((lengthMm) => ({ lengthMm, radiusMm: kind.radiusMm }))
  return coverStretches(stretches, kind, panels, rules, 'quick')
}

/** The pieces of each stretch in degrees, those that are cut in brackets. */
function degrees(covered: ReturnType<typeof cover>): string[] {
  return covered!.coverings.map(({ pieces }) =>
    pieces
      .map(({ lengthMm, whole }) => {
        const deg = Math.round(degOf(lengthMm) * 1000) / 1000
        return whole ? `${deg}` : `(${deg})`
      })
      .join(' '),
  )
}

describe('an arc of ready-made pieces', () => {
  // by hand
  it.each([
    { arcs: [90], sizes: [30], pieces: ['30 30 30'], used: 3 },
    { arcs: [100], sizes: [30], pieces: ['30 30 30 (10)'], used: 4 },
    { arcs: [360], sizes: [30], pieces: [new Array(12).fill('30').join(' ')], used: 12 },
    { arcs: [405], sizes: [45], pieces: [new Array(9).fill('45').join(' ')], used: 9 },
    { arcs: [10], sizes: [30], pieces: ['(10)'], used: 1 },
    // two tens out of one piece
    { arcs: [100, 100], sizes: [30], pieces: ['30 30 30 (10)', '30 30 30 (10)'], used: 7 },
  ])('of $arcs degrees, pieces of $sizes', ({ arcs, sizes, pieces, used }) => {
    const covered = cover(
      arcs.map((deg) => mmOf(deg)),
      sizes.map((deg) => curved(deg)),
    )
    expect(degrees(covered)).toEqual(pieces)
    expect(covered!.used).toHaveLength(used)
  })

  it('takes a shorter piece in place of a cut', () => {
    const covered = cover([mmOf(105)], [curved(30), curved(15, { price: '6.00' })])
    expect(degrees(covered)).toEqual(['30 30 30 15'])
  })

  it('leaves no piece shorter than the shortest allowed', () => {
    // by hand: 1° of 3 m is 52 mm; 150 mm are 2.865°, which the piece before gives up
    const covered = cover([mmOf(91)], [curved(30)])
    expect(degrees(covered)).toEqual(['30 30 (28.135) (2.865)'])
  })

  it('may be of pieces that are sold shorter than that', () => {
    const covered = cover([mmOf(32)], [curved(30), curved(2, { price: '1.00' })])
    expect(degrees(covered)).toEqual(['30 2'])
  })

  it('takes what is on hand first', () => {
    const covered = cover([mmOf(90)], [curved(30, { onHand: 2 })])
    expect(covered!.used.map(({ fromStock }) => fromStock).sort()).toEqual([false, true, true])
  })

  it('leaves on the shelf what would only make another joint', () => {
    // by hand: 1080° are 23 of 45° and two of 22.5°; with all three of them no fewer are bought and one is cut
    const covered = cover([mmOf(1080)], [curved(22.5, { onHand: 3, buyable: false }), curved(45, { price: '30.00' })])
    expect(covered!.used).toHaveLength(25)
    expect(covered!.coverings[0]!.pieces.every(({ whole }) => whole)).toBe(true)
  })

  it('cannot be where there are too few and none is to be bought', () => {
    expect(cover([mmOf(90)], [curved(30, { onHand: 2, buyable: false })])).toBeNull()
    expect(cover([mmOf(90)], [curved(30, { onHand: 3, buyable: false })])!.used).toHaveLength(3)
  })

  it('is laid on with what is left of the one before where that saves a piece', () => {
    // by hand: 4 arcs of 110° are 440° and so 15 pieces; each by itself would take four
    const covered = cover(new Array(4).fill(mmOf(110)), [curved(30)])
    expect(covered!.used).toHaveLength(15)
  })
})

describe('what whole pieces fall short of', () => {
  const lengthMm = 3 * 600 + 3 * LEFT_OPEN_MM
  it('is left open where it is little for each piece', () => {
    for (const mm of [1800, 1800.3, lengthMm]) {
      const [covering] = cover([mm], [straight(600)])!.coverings
      expect(covering!.pieces.map((each) => each.lengthMm)).toEqual([600, 600, 600])
      expect(covering!.leftOpenMm).toBeCloseTo(mm - 1800, 9)
    }
  })

  it('is filled up where it is more', () => {
    const [covering] = cover([lengthMm + 0.001], [straight(600)])!.coverings
    expect(covering!.leftOpenMm).toBe(0)
    expect(covering!.pieces.filter(({ whole }) => !whole).map((each) => each.lengthMm)).toEqual([
      expect.closeTo(601.501 - 150, 6),
      150,
    ])
  })

  it('is found with pieces of two lengths as well', () => {
    const [covering] = cover([1500.4], [straight(600), straight(300, { price: '6.00' })])!.coverings
    expect(covering!.pieces.map((each) => each.lengthMm).sort()).toEqual([300, 600, 600])
    expect(covering!.leftOpenMm).toBeCloseTo(0.4, 9)
  })

  it('does not hang on how a length was summed', () => {
    for (const off of [-1e-7, 1e-7, -5e-10]) {
      const covered = cover([12 * 1828.8 + off], [straight(1828.8)])
      expect(covered!.used).toHaveLength(12)
      expect(covered!.coverings[0]!.pieces.every(({ whole }) => whole)).toBe(true)
    }
  })
})

describe('kinds of pieces', () => {
  it('are by curve, and by whether they have ties', () => {
    const kinds = panelKinds([
      straight(600),
      curved(30),
      straight(300, { ties: 5 }),
      curved(30, { ties: 0 }),
      curved(15, { radius: RADIUS_MM + 5e-4 }),
      curved(15, { radius: RADIUS_MM + 1 }),
    ])
    expect(kinds).toEqual([
      { radiusMm: null, withTies: true, panels: [0, 2] },
      { radiusMm: RADIUS_MM, withTies: true, panels: [1, 4] },
      { radiusMm: RADIUS_MM, withTies: false, panels: [3] },
      { radiusMm: RADIUS_MM + 1, withTies: true, panels: [5] },
    ])
  })
})

/** Every way to put things into groups. */
function partitions<T>(things: readonly T[]): T[][][] {
  const [first, ...rest] = things
  if (first === undefined) return [[]]
  return partitions(rest).flatMap((groups) => [
    [[first], ...groups],
    ...groups.map((_, n) => groups.map((group, at) => (at === n ? [first, ...group] : group))),
  ])
}

describe('any stretches', () => {
  const anyLengths = fc.array(fc.integer({ min: 20, max: 4000 }), { minLength: 1, maxLength: 5 })

  it('take as few pieces of one length as can be, and each is made up to the end', () => {
    fc.assert(
      fc.property(
        anyLengths,
        fc.integer({ min: 200, max: 900 }),
        fc.integer({ min: 0, max: 4 }),
        (runs, sizeMm, kerfMm) => {
          const covered = cover(runs, [straight(sizeMm)], { kerf: kerfMm, minimumPiece: 0 })!
          const open = covered.coverings.map(({ leftOpenMm }) => leftOpenMm)
          for (const [index, mm] of open.entries())
            expect(mm).toBeLessThanOrEqual(LEFT_OPEN_MM * covered.coverings[index]!.pieces.length + 1e-6)
          // derived: stretches laid end to end over pieces of which nothing else is cut; every way to group them
          const toMake = runs.map((mm, index) => mm - open[index]!)
          const fewest = Math.min(
            ...partitions(toMake).map((groups) =>
              groups
                .map((group) => group.reduce((sum, mm) => sum + mm, kerfMm * (group.length - 1)))
                .reduce((sum, mm) => sum + Math.ceil(mm / sizeMm - 1e-9), 0),
            ),
          )
          expect(covered.used).toHaveLength(fewest)
          for (const [index, { pieces, leftOpenMm }] of covered.coverings.entries()) {
            let atMm = 0
            for (const { fromMm, lengthMm } of pieces) {
              expect(fromMm).toBeCloseTo(atMm, 6)
              atMm += lengthMm
            }
            expect(atMm + leftOpenMm).toBeCloseTo(runs[index]!, 6)
          }
        },
      ),
    )
  })

  it('use up each piece to the last millimetre, and each cut piece comes from one of them', () => {
    fc.assert(
      fc.property(
        anyLengths,
        fc.uniqueArray(fc.integer({ min: 200, max: 900 }), { minLength: 1, maxLength: 3 }),
        (runs, sizes) => {
          const panels = sizes.map((mm, n) => straight(mm, { price: `${(mm / 50 + n).toFixed(2)}` }))
          const { coverings, used } = cover(runs, panels)!
          for (const { panel, kerfMm, offcutMm, pieces } of used) {
            const sum = pieces.reduce((all, { lengthMm }) => all + lengthMm, kerfMm + offcutMm)
            expect(sum).toBeCloseTo(sizes[panel]!, 6)
          }
          const cut = used.flatMap(({ pieces }) => pieces.map(({ stretch, lengthMm }) => `${stretch} ${lengthMm}`))
          const laid = coverings.flatMap(({ pieces }, n) => pieces.map(({ lengthMm }) => `${n} ${lengthMm}`))
          expect(cut.sort()).toEqual(laid.sort())
        },
      ),
    )
  })
})
