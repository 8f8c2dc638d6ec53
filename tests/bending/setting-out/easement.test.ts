import { describe, expect, it } from 'vitest'
import { arcPegs } from '../../../src/bending/setting-out/arc.ts'
import { easementPegs } from '../../../src/bending/setting-out/easement.ts'

describe('pegs of an easement', () => {
  it('stand where IFC Rail puts them, R 300 m over 100 m (published: conformance data ALRW2)', () => {
    const points = [
      [10, 9.9999972222226, 0.0055555544533],
      [50, 49.9913201421206, 0.6943583325788],
      [75, 74.9341088479007, 2.3422790281811],
      [100, 99.7225792178275, 5.5445423656288],
    ] as const
    const pegs = easementPegs(0, 1 / 300, 100, [0, 10, 50, 75, 100])
    expect(pegs).toHaveLength(5)
    for (const [index, [at, x, y]] of points.entries()) {
      const peg = pegs[index + 1]!
      const [, xBefore, yBefore] = points[index - 1] ?? [0, 0, 0]
      expect(peg.atMm).toBe(at)
      expect(peg.alongMm).toBeCloseTo(x, 9)
      expect(peg.offsetMm).toBeCloseTo(y, 9)
      expect(peg.deflectionDeg).toBeCloseTo((Math.atan(y / x) * 180) / Math.PI, 9)
      expect(peg.chordFromStartMm).toBeCloseTo(Math.hypot(x, y), 9)
      expect(peg.chordFromPreviousMm).toBeCloseTo(Math.hypot(x - xBefore, y - yBefore), 9)
      expect(peg.curvaturePerMm).toBeCloseTo(at / 100 / 300, 12)
    }
    expect(pegs[4]!.turnedDeg).toBeCloseTo(9.549297, 6)
  })

  it('see a third of the angle turned near the start (closed form of the small spiral)', () => {
    const [peg] = easementPegs(0, 1 / 1200, 400, [40])
    expect(peg!.deflectionDeg / peg!.turnedDeg).toBeCloseTo(1 / 3, 6)
  })

  it('of even curvature are those of an arc', () => {
    const stations = [0, 100, 250, 600]
    const arc = arcPegs(1200, 600, stations)
    for (const [index, peg] of easementPegs(1 / 1200, 1 / 1200, 600, stations).entries()) {
      expect(peg.deflectionDeg).toBeCloseTo(arc[index]!.deflectionDeg, 9)
      expect(peg.chordFromPreviousMm).toBeCloseTo(arc[index]!.chordFromPreviousMm, 9)
      expect(peg.alongMm).toBeCloseTo(arc[index]!.tangent!.alongMm, 9)
    }
  })

  it('mirror when the curve turns the other way, also one that reverses', () => {
    const stations = [0, 130, 400, 700]
    const left = easementPegs(-1 / 2500, 1 / 1100, 700, stations)
    const right = easementPegs(1 / 2500, -1 / 1100, 700, stations)
    for (const [index, peg] of left.entries()) {
      expect(right[index]!.offsetMm).toBeCloseTo(-peg.offsetMm, 12)
      expect(right[index]!.deflectionDeg).toBeCloseTo(-peg.deflectionDeg, 12)
      expect(right[index]!.chordFromStartMm).toBeCloseTo(peg.chordFromStartMm, 12)
    }
  })
})
