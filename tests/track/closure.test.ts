import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { sizeOfArc } from '../../src/plan/elements.ts'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import {
  type ClosureCure,
  closureCure,
  closureOf,
  headingAfterDeg,
  headingDeg,
  signedHeadingErrorDeg,
} from '../../src/track/closure.ts'
import { placeElements } from '../../src/track/place.ts'
import type { Pose } from '../../src/track/types.ts'
import { arc, degrees, easement, ORIGIN, pose, radians, tangent } from './tracks.ts'

const missOf = (start: Pose, track: readonly ElementInput[]) =>
  closureOf(start, placeElements(start, track, true).at(-1)!.end)
const cureOf = (start: Pose, track: readonly ElementInput[], toleranceDeg = 0.5) =>
  closureCure(placeElements(start, track, true), toleranceDeg)

/** The track with a cure carried out. */
function cured(track: readonly ElementInput[], { angleChanges, lengthChanges }: ClosureCure): ElementInput[] {
  const changed = [...track]
  for (const { element, changeRad } of angleChanges) {
    const was = changed[element] as Extract<ElementInput, { kind: 'arc' }>
    changed[element] = { ...was, angle: degrees(sizeOfArc(was).angleRad + changeRad), length: undefined }
  }
  for (const { element, changeMm } of lengthChanges ?? []) {
    const was = changed[element] as Extract<ElementInput, { kind: 'tangent' }>
    changed[element] = { ...was, length: was.length + changeMm }
  }
  return changed
}

/** A ring of four quarter turns and four straights, a × b along the two sides. */
const ring = (a1: number, b1: number, a2: number, b2: number, turn: 'left' | 'right' = 'left'): ElementInput[] =>
  [a1, b1, a2, b2].flatMap((length) => [tangent(length), arc(1200, 90, turn)])

describe('headings', () => {
  it.each([
    [0, 0],
    [90, 90],
    [360, 0],
    [405, 45],
    [-90, 270],
    [-405, 315],
    [720, 0],
    [359.5, 359.5],
  ])('%d° is answered as %d°', (given, answered) => {
    expect(headingDeg(radians(given))).toBeCloseTo(answered, 9)
  })

  it('rounding beside half a turn is 180, on either side', () => {
    for (const given of [180 + 5e-10, 180 - 5e-14, -180 - 5e-10, -180 + 5e-10])
      expect(Math.abs(signedHeadingErrorDeg(radians(given)) - 180)).toBeLessThan(1e-12)
    expect(signedHeadingErrorDeg(radians(180 + 5e-10))).toBe(180)
    expect(signedHeadingErrorDeg(radians(180.001))).toBeCloseTo(-179.999, 9)
    expect(signedHeadingErrorDeg(radians(-180.001))).toBeCloseTo(179.999, 9)
    expect(Object.is(signedHeadingErrorDeg(-0), 0)).toBe(true)
  })

  it('rounding below a full turn is 0, and 0 has no sign', () => {
    expect(headingDeg(-1e-15)).toBe(0)
    expect(headingDeg(2 * Math.PI - 4e-16)).toBe(0)
    expect(headingDeg(-0)).toBe(0)
    expect(Object.is(headingDeg(-0), 0)).toBe(true)
    expect(Object.is(headingDeg(-2 * Math.PI), 0)).toBe(true)
    expect(headingDeg(-1e-9)).toBeGreaterThan(359.9)
  })

  it('where nothing has turned a heading is the one given, to the last digit', () => {
    for (const given of [30, 0.1, 123.456, 359.99]) {
      expect(headingAfterDeg(given, 0)).toBe(given)
      expect(headingAfterDeg(given, Math.PI / 2)).toBeCloseTo((given + 90) % 360, 9)
    }
    expect(headingAfterDeg(-30, 0)).toBe(330)
    expect(headingAfterDeg(750, 0)).toBe(30)
    expect(headingAfterDeg(10, -Math.PI / 2)).toBeCloseTo(280, 9)
    expect(Object.is(headingAfterDeg(-360, 0), 0)).toBe(true)
  })

  it.each([
    [0, 0],
    [180, 180],
    [-180, 180],
    [181, -179],
    [-181, 179],
    [360, 0],
    [-359, 1],
    [539, 179],
    [540, 180],
    [-540, 180],
    [-90, -90],
  ])('an error of %d° is %d°', (given, answered) => {
    expect(signedHeadingErrorDeg(radians(given))).toBeCloseTo(answered, 9)
  })

  it('stays within its bounds and differs by whole turns only', () => {
    fc.assert(
      fc.property(fc.double({ min: -1000, max: 1000, noNaN: true }), (rad) => {
        const heading = headingDeg(rad)
        const error = signedHeadingErrorDeg(rad)
        expect(heading).toBeGreaterThanOrEqual(0)
        expect(heading).toBeLessThan(360)
        expect(error).toBeGreaterThan(-180)
        expect(error).toBeLessThanOrEqual(180)
        for (const answer of [heading, error]) expect(Math.cos(rad - radians(answer))).toBeCloseTo(1, 12)
      }),
    )
  })
})

describe('how far a closed track misses its start', () => {
  it('a ring of four equal sides does not, either way round', () => {
    for (const turn of ['left', 'right'] as const) {
      const miss = missOf(ORIGIN, ring(500, 300, 500, 300, turn))
      expect(miss.gapMm).toBeLessThan(1e-9)
      expect(miss.headingDeg).toBeCloseTo(0, 9)
    }
  })

  it('one side 30 mm longer and one 40 mm: 50 mm (by hand)', () => {
    const miss = missOf(ORIGIN, ring(530, 340, 500, 300))
    expect(miss.gapXMm).toBeCloseTo(30, 9)
    expect(miss.gapYMm).toBeCloseTo(40, 9)
    expect(miss.gapMm).toBeCloseTo(50, 9)
  })

  it('a corner of 87° turns 3° too little to the left', () => {
    const track = [...ring(500, 300, 500, 300).slice(0, -1), arc(1200, 87, 'left')]
    expect(missOf({ xMm: 3, yMm: 4, headingRad: radians(200) }, track).headingDeg).toBeCloseTo(-3, 9)
  })

  it('a figure of eight turns 0° and closes', () => {
    // derived: two loops of 270°, the straights cross at a right angle, each 2R long
    const track = [tangent(2000), arc(1000, 270, 'left'), tangent(2000), arc(1000, 270, 'right')]
    const miss = missOf(ORIGIN, track)
    expect(miss.gapMm).toBeLessThan(1e-9)
    expect(miss.headingDeg).toBeCloseTo(0, 9)
  })

  it('a track without elements cannot close', () => {
    expect(() => closureCure([], 0.5)).toThrow(RangeError)
  })
})

describe('the cure of a gap, headings agreeing', () => {
  it('nothing to do', () => {
    expect(cureOf(ORIGIN, ring(500, 300, 500, 300))).toEqual({ angleChanges: [], lengthChanges: [] })
  })

  it('one side too long: that direction alone is shortened, on its longest straight (by hand)', () => {
    expect(cureOf(ORIGIN, ring(530, 300, 500, 300))!.lengthChanges).toEqual([
      { element: 0, changeMm: expect.closeTo(-30, 9) },
    ])
  })

  it('one side too short: the longer of its two straights changes, wherever it stands (by hand)', () => {
    expect(cureOf(ORIGIN, ring(500, 300, 530, 300))!.lengthChanges).toEqual([
      { element: 4, changeMm: expect.closeTo(-30, 9) },
    ])
  })

  it('two sides too long: both are shortened (by hand)', () => {
    const { lengthChanges } = cureOf(ORIGIN, ring(530, 340, 500, 300))!
    expect(lengthChanges).toHaveLength(2)
    expect(lengthChanges!.find(({ element }) => element === 0)!.changeMm).toBeCloseTo(-30, 9)
    expect(lengthChanges!.find(({ element }) => element === 2)!.changeMm).toBeCloseTo(-40, 9)
  })

  it('a straight too short to give is passed over for the one opposite, which grows (by hand)', () => {
    // The end lies 60 mm short along x: the way back has only 40 mm to give
    const track = [30, 300, 40, 300].flatMap((length, side) => [
      tangent(length),
      arc(side === 1 ? 1250 : 1200, 90, 'left'),
    ])
    const { lengthChanges } = cureOf(ORIGIN, track)!
    expect(lengthChanges).toHaveLength(2)
    expect(lengthChanges!.find(({ element }) => element === 0)!.changeMm).toBeCloseTo(60, 9)
    expect(Math.abs(lengthChanges!.find(({ element }) => element !== 0)!.changeMm)).toBeCloseTo(50, 9)
    expect(missOf(ORIGIN, cured(track, { angleChanges: [], lengthChanges })).gapMm).toBeLessThan(1e-9)
  })

  it('of two straights that head alike the longer gives, wherever it stands (by hand)', () => {
    const [, ...rest] = ring(500, 300, 500, 300)
    expect(cureOf(ORIGIN, [tangent(510), tangent(20), ...rest])!.lengthChanges).toEqual([
      { element: 0, changeMm: expect.closeTo(-30, 9) },
    ])
    expect(cureOf(ORIGIN, [tangent(20), tangent(510), ...rest])!.lengthChanges).toEqual([
      { element: 1, changeMm: expect.closeTo(-30, 9) },
    ])
  })

  it('an oval with one straight longer than the other: parallel, but one alone will do (by hand)', () => {
    const oval = [tangent(500), arc(1200, 180, 'left'), tangent(400), arc(1200, 180, 'left')]
    expect(cureOf({ xMm: 70, yMm: -90, headingRad: 1 }, oval)).toEqual({
      angleChanges: [],
      lengthChanges: [{ element: 0, changeMm: expect.closeTo(-100, 8) }],
    })
  })

  it('has none without two directions, unless the gap lies along the one', () => {
    const oval = [tangent(500), arc(1200, 180, 'left'), tangent(400), arc(1100, 180, 'left')]
    expect(cureOf(ORIGIN, oval)).toEqual({ angleChanges: [], lengthChanges: null })
    expect(cureOf(ORIGIN, [tangent(500)])).toEqual({ angleChanges: [], lengthChanges: null })
    expect(cureOf(ORIGIN, [arc(1200, 360, 'left')])).toEqual({ angleChanges: [], lengthChanges: [] })
  })

  it('has none when a straight would have to lose more than it has', () => {
    // Only ever on, up and right: 1300 mm each way, and 100 mm of straight to take it from
    const track = [tangent(100), arc(600, 90, 'left'), tangent(100), arc(600, 90, 'right')]
    expect(cureOf(ORIGIN, track)).toEqual({ angleChanges: [], lengthChanges: null })
  })

  it('leaves something of every straight (by hand: the one there is would have to go altogether)', () => {
    expect(cureOf(ORIGIN, [tangent(500), arc(1200, 178, 'left')])).toEqual({
      angleChanges: [{ element: 1, changeRad: expect.closeTo(radians(182), 12) }],
      lengthChanges: null,
    })
  })

  it('is the best of all pairs, found again by trying them all', () => {
    const sides = fc.array(fc.double({ min: 50, max: 3000, noNaN: true }), { minLength: 3, maxLength: 9 })
    fc.assert(
      fc.property(sides, pose, (lengths, start) => {
        const corner = 360 / lengths.length
        const track = lengths.flatMap((length) => [tangent(length), arc(1200, corner, 'left')])
        const cure = cureOf(start, track)!
        const placed = placeElements(start, track, true)
        const { gapMm, gapXMm, gapYMm } = missOf(start, track)
        fc.pre(gapMm > 1e-3)
        let best = Number.POSITIVE_INFINITY
        for (let i = 0; i < track.length; i += 2)
          for (let j = i + 2; j < track.length; j += 2) {
            const [u, v] = [placed[i]!.start.headingRad, placed[j]!.start.headingRad]
            if (Math.abs(Math.sin(v - u)) < 1e-6) continue
            // Resolved along the two headings by turning the sheet so that one of them drops out
            const alongU = -(gapXMm * Math.sin(v) - gapYMm * Math.cos(v)) / Math.sin(v - u)
            const alongV = (gapXMm * Math.sin(u) - gapYMm * Math.cos(u)) / Math.sin(v - u)
            if (placed[i]!.lengthMm + alongU > 0 && placed[j]!.lengthMm + alongV > 0)
              best = Math.min(best, Math.max(Math.abs(alongU), Math.abs(alongV)))
          }
        if (cure.lengthChanges === null) {
          expect(best).toBe(Number.POSITIVE_INFINITY)
          return
        }
        const largest = Math.max(...cure.lengthChanges.map(({ changeMm }) => Math.abs(changeMm)))
        expect(Math.abs(largest - best)).toBeLessThan(2e-6)
        expect(missOf(start, cured(track, cure)).gapMm).toBeLessThan(1e-5)
      }),
    )
  })
})

describe('the cure of headings that do not agree', () => {
  it('the longest arc makes up what is missing, then the gap is closed (by hand: 3°)', () => {
    const track = ring(500, 300, 500, 300)
    track[3] = arc(1500, 87, 'left')
    const cure = cureOf(ORIGIN, track)!
    expect(cure.angleChanges).toEqual([{ element: 3, changeRad: expect.closeTo(radians(3), 12) }])
    const after = missOf(ORIGIN, cured(track, cure))
    expect(after.headingDeg).toBeCloseTo(0, 9)
    expect(after.gapMm).toBeLessThan(1e-6)
  })

  it('turned too far, to the right: the longest arc gives', () => {
    const track = ring(500, 300, 500, 300, 'right')
    track[5] = arc(1200, 100, 'right')
    const cure = cureOf(ORIGIN, track)!
    expect(cure.angleChanges).toEqual([{ element: 5, changeRad: expect.closeTo(-radians(10), 12) }])
    expect(missOf(ORIGIN, cured(track, cure)).gapMm).toBeLessThan(1e-6)
  })

  it('an arc of the other hand is changed the other way (by hand: 375° left, 30° right)', () => {
    const track = [...ring(500, 300, 500, 300), arc(9000, 30, 'right')]
    track[1] = arc(1200, 105, 'left')
    const cure = cureOf(ORIGIN, track)!
    expect(cure.angleChanges).toEqual([{ element: 8, changeRad: expect.closeTo(-radians(15), 12) }])
    expect(missOf(ORIGIN, cured(track, cure)).headingDeg).toBeCloseTo(0, 9)
  })

  it('more than any one arc can give is spread over all, in proportion', () => {
    // 46 arcs of 10° to the left: 100° too many
    const track = Array.from({ length: 46 }, () => [tangent(300), arc(1200, 10, 'left')]).flat()
    const cure = cureOf(ORIGIN, track)!
    expect(cure.angleChanges).toHaveLength(46)
    for (const { changeRad } of cure.angleChanges) expect(degrees(changeRad)).toBeCloseTo(-100 / 46, 9)
    expect(missOf(ORIGIN, cured(track, cure)).headingDeg).toBeCloseTo(0, 9)
  })

  it('what turned too little to give anything up is turned on to the full circle', () => {
    // 90° on the arc and 400/1200 rad on the easements: the error is more than the arc has
    const track = [easement(400), arc(1200, 90, 'left'), easement(400)]
    const open = [tangent(10), ...track]
    const turned = 90 + degrees(400 / 1200)
    const cure = cureOf(ORIGIN, open)!
    expect(cure.angleChanges).toEqual([{ element: 2, changeRad: expect.closeTo(radians(360 - turned), 12) }])
    expect(missOf(ORIGIN, cured(open, cure)).headingDeg).toBeCloseTo(0, 9)
  })

  it('of two arcs that turned too little only the longer is turned on (by hand)', () => {
    // 30° and 60° to the left; even both together have less than the 90° error to give up
    const open = [tangent(10), arc(1200, 30, 'left'), tangent(10), arc(1200, 60, 'left')]
    expect(cureOf(ORIGIN, open)!.angleChanges).toEqual([{ element: 3, changeRad: expect.closeTo(radians(270), 12) }])
  })

  it('has none where nothing but an easement turns', () => {
    expect(cureOf(ORIGIN, [tangent(100), easement(300)])).toEqual({ angleChanges: [], lengthChanges: null })
    const placed = placeElements(ORIGIN, [easement(300), arc(600, 30, 'left')], false).slice(0, 1)
    expect(closureCure(placed, 0.5)).toBeNull()
  })

  it('is left alone within the tolerance', () => {
    const track = ring(500, 300, 500, 300)
    track[7] = arc(1200, 89.6, 'left')
    expect(cureOf(ORIGIN, track, 0.5)!.angleChanges).toEqual([])
    expect(cureOf(ORIGIN, track, 0.3)!.angleChanges).toHaveLength(1)
  })

  it('mends the heading of any spoilt ring, and the gap wherever it claims to', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 12 }),
        fc.array(fc.double({ min: -20, max: 20, noNaN: true }), { minLength: 12, maxLength: 12 }),
        fc.constantFrom('left' as const, 'right' as const),
        pose,
        (sides, spoils, turn, start) => {
          const track = Array.from({ length: sides }, (_, side) => [
            tangent(400 + 37 * side),
            easement(50),
            arc(1200 + 10 * side, 360 / sides + spoils[side]!, turn),
            easement(60),
          ]).flat()
          const cure = cureOf(start, track)
          if (!cure) throw new Error('a ring can always be mended')
          const after = missOf(start, cured(track, cure))
          expect(Math.abs(after.headingDeg)).toBeLessThan(0.5 + 1e-9)
          if (cure.lengthChanges) expect(after.gapMm).toBeLessThan(1e-5)
        },
      ),
    )
  })
})

describe('a long closed track', () => {
  it('of 1,000 headings is searched in milliseconds and the gap still closes', () => {
    const track = Array.from({ length: 1000 }, (_, index) => [
      tangent(30 + (index % 7)),
      arc(4000, 0.36, 'left'),
    ]).flat()
    const placed = placeElements(ORIGIN, track, true)
    const started = performance.now()
    const cure = closureCure(placed, 0.5)!
    expect(performance.now() - started).toBeLessThan(500)
    expect(missOf(ORIGIN, cured(track, cure)).gapMm).toBeLessThan(1e-5)
  })
})
