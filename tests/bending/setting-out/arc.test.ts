import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { arcPegs, stationsAlong } from '../../../src/bending/setting-out/arc.ts'
import { poseAlong } from '../../../src/track/clothoid.ts'

const ORIGIN = { xMm: 0, yMm: 0, headingRad: 0 }
const DEG = 180 / Math.PI

describe('pegs of an arc', () => {
  it('stand where the track runs', () => {
    const anyRadius = fc.double({ min: 300, max: 9000, noNaN: true })
    const anyTurn = fc.double({ min: 0.01, max: 3.1, noNaN: true })
    fc.assert(
      fc.property(anyRadius, anyTurn, fc.double({ min: 0.05, max: 0.7, noNaN: true }), (radius, turn, share) => {
        const length = radius * turn
        const pegs = arcPegs(radius, length, stationsAlong(length, share * length, 0.3 * share * length))
        const end = poseAlong(ORIGIN, 1 / radius, 1 / radius, length, length)
        const chord = Math.hypot(end.xMm, end.yMm)
        let before = ORIGIN
        for (const peg of pegs) {
          const at = poseAlong(ORIGIN, 1 / radius, 1 / radius, length, peg.atMm)
          const near = (value: number, wanted: number) => expect(Math.abs(value - wanted)).toBeLessThan(1e-9 * radius)
          near(peg.chordFromStartMm, Math.hypot(at.xMm, at.yMm))
          near(peg.chordFromPreviousMm, Math.hypot(at.xMm - before.xMm, at.yMm - before.yMm))
          near(peg.deflectionDeg, Math.atan2(at.yMm, at.xMm) * DEG)
          // Along and off the long chord: dot and cross product with its direction, the curve lying to its right.
          near(peg.longChord!.alongMm, (at.xMm * end.xMm + at.yMm * end.yMm) / chord)
          near(peg.longChord!.offsetMm, (at.xMm * end.yMm - at.yMm * end.xMm) / chord)
          if (peg.tangent) {
            near(peg.tangent.alongMm, at.xMm)
            near(peg.tangent.offsetMm, at.yMm)
          }
          expect(peg.tangent === null).toBe(peg.atMm / radius > Math.PI / 2)
          before = { ...at, headingRad: 0 }
        }
      }),
    )
  })

  it('past half a turn have no long chord, past a quarter no tangent offsets', () => {
    const [start, , last] = arcPegs(1000, 4000, [0, 1500, 4000])
    expect(start!.longChord).toBeNull()
    expect(start!.tangent).toEqual({ alongMm: 0, offsetMm: 0 })
    expect(last!.tangent).toBeNull()
    expect(last!.chordFromStartMm).toBeCloseTo(2000 * Math.sin(2), 9)
  })

  it('past a whole turn stand where the track runs, in the line of sight and at the length of their chords', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 300, max: 9000, noNaN: true }),
        fc.double({ min: 1, max: 30, noNaN: true }),
        (radius, turn) => {
          const length = radius * turn
          const [, middle, last] = arcPegs(radius, length, [0, 0.3 * length, length])
          for (const peg of [middle!, last!]) {
            const at = poseAlong(ORIGIN, 1 / radius, 1 / radius, length, peg.atMm)
            const sightRad = peg.deflectionDeg / DEG
            expect(peg.deflectionDeg).toBeGreaterThanOrEqual(0)
            expect(peg.deflectionDeg).toBeLessThan(180)
            expect(peg.chordFromStartMm).toBeGreaterThanOrEqual(0)
            expect(Math.abs(peg.chordFromStartMm * Math.cos(sightRad) - at.xMm)).toBeLessThan(1e-9 * radius * turn)
            expect(Math.abs(peg.chordFromStartMm * Math.sin(sightRad) - at.yMm)).toBeLessThan(1e-9 * radius * turn)
          }
          const between = 0.7 * length
          expect(last!.chordFromPreviousMm).toBeCloseTo(Math.abs(2 * radius * Math.sin(between / radius / 2)), 6)
        },
      ),
    )
    // closed form: seven eighths of a second turn further on, at 1.875 turns; half of it, less 180°, is 157.5°.
    const [, peg] = arcPegs(1000, 4000 * Math.PI, [0, 1.875 * 2000 * Math.PI])
    expect(peg!.deflectionDeg).toBeCloseTo(157.5, 9)
    expect(peg!.chordFromStartMm).toBeCloseTo(2000 * Math.sin(Math.PI / 8), 9)
    expect(peg!.chordFromPreviousMm).toBeCloseTo(2000 * Math.sin(Math.PI / 8), 9)
  })
})

describe('stations', () => {
  it('stand at every interval and at both ends', () => {
    expect(stationsAlong(1000, 300)).toEqual([0, 300, 600, 900, 1000])
    expect(stationsAlong(1000, 300, 120)).toEqual([0, 120, 420, 720, 1000])
    expect(stationsAlong(1000, 300, 0)).toEqual([0, 300, 600, 900, 1000])
    expect(stationsAlong(200, 300)).toEqual([0, 200])
    expect(stationsAlong(0, 300)).toEqual([0])
  })

  it('do not double the last one, however the length was summed', () => {
    expect(stationsAlong(0.1 + 0.2, 0.1)).toHaveLength(4)
    expect(stationsAlong(3657.6, 304.8)).toHaveLength(13)
  })
})
