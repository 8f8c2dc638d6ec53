import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Peg, type SettingOutCurve, settingOut } from '../../../src/estimate/questions/setting-out.ts'
import type { ElementInput } from '../../../src/plan/rows/track.ts'
import { poseAlong } from '../../../src/track/clothoid.ts'
import { arc, easement, planOf, straight } from '../plans.ts'

const DEG = 180 / Math.PI

function curvesOf(elements: ElementInput[], intervalMm?: number, start = { x: 0, y: 0, heading: 0 }) {
  return settingOut(planOf(elements, { start }), intervalMm).tracks[0]!.curves
}

/** Where an offset from a line through `from` leads: the line's direction in radians, `side` +1 to its left. */
function offTheLine(from: Peg, directionRad: number, alongMm: number, leftMm: number) {
  return {
    xMm: from.xMm + alongMm * Math.cos(directionRad) - leftMm * Math.sin(directionRad),
    yMm: from.yMm + alongMm * Math.sin(directionRad) + leftMm * Math.cos(directionRad),
  }
}

/** Every way of setting out a curve must lead to the same places on the sheet. */
function waysAgree({ turn, pegs }: SettingOutCurve, withinMm: number): void {
  const left = turn === 'left' ? 1 : -1
  const start = pegs[0]!
  const end = pegs.at(-1)!
  const tangentRad = start.headingDeg / DEG
  const longRad = Math.atan2(end.yMm - start.yMm, end.xMm - start.xMm)
  const missMm = (peg: Peg, at: { xMm: number; yMm: number }) => Math.hypot(at.xMm - peg.xMm, at.yMm - peg.yMm)
  for (const [index, peg] of pegs.entries()) {
    const { tangent, longChord, chordFromStartMm } = peg
    if (tangent)
      expect(missMm(peg, offTheLine(start, tangentRad, tangent.alongMm, left * tangent.offsetMm))).toBeLessThan(
        withinMm,
      )
    if (longChord)
      expect(missMm(peg, offTheLine(start, longRad, longChord.alongMm, -left * longChord.offsetMm))).toBeLessThan(
        withinMm,
      )
    const sightRad = tangentRad + (left * peg.deflectionDeg) / DEG
    expect(missMm(peg, offTheLine(start, sightRad, chordFromStartMm, 0))).toBeLessThan(withinMm)
    const before = pegs[index - 1] ?? peg
    expect(Math.abs(missMm(peg, before) - peg.chordFromPreviousMm)).toBeLessThan(withinMm)
  }
}

describe('pegs of an arc', () => {
  test('stand at its ends and at the round stations of its track (by hand)', () => {
    // A straight of 1200, then 90° on 1000: 1570.796 long, from 1200 to 2770.796.
    const [curve] = curvesOf([straight(1200), arc(1000, 90)], 500)
    expect(curve).toMatchObject({ element: 1, kind: 'arc', turn: 'left', fromMm: 1200 })
    expect(curve!.pegs.map(({ stationMm }) => Math.round(stationMm * 1e3) / 1e3)).toEqual([
      1200, 1500, 2000, 2500, 2770.796,
    ])
    expect(curve!.pegs.at(-1)!.stationMm).toBe(curve!.toMm)
    const end = curve!.pegs.at(-1)!
    expect(end.xMm).toBeCloseTo(2200, 9)
    expect(end.yMm).toBeCloseTo(1000, 9)
    expect(end.headingDeg).toBeCloseTo(90, 9)
    expect(end.deflectionDeg).toBeCloseTo(45, 9)
    // closed form: deflection of a sub-chord of 300 on 1000 is 300/2000 rad, its chord 2000·sin 0.15
    expect(curve!.pegs[1]!.deflectionDeg).toBeCloseTo(0.15 * DEG, 9)
    expect(curve!.pegs[1]!.chordFromPreviousMm).toBeCloseTo(2000 * Math.sin(0.15), 9)
  })

  test('that begins at a round station has no sub-chord there, however the station was summed', () => {
    const feet = Array.from({ length: 10 }, () => straight(30.48))
    const [curve] = curvesOf([...feet, arc(2400, 30, 'right')], 304.8)
    expect(curve!.pegs.slice(0, 4).map(({ atMm }) => Math.round(atMm * 1e6) / 1e6)).toEqual([0, 304.8, 609.6, 914.4])
    // Three intervals are more than the station by the last binary digit.
    expect(3 * 35.1).toBeGreaterThan(105.3)
    expect(curvesOf([straight(105.3), arc(1000, 3)], 35.1)[0]!.pegs).toHaveLength(3)
  })

  test('shorter than the interval has its two ends, and one of an exact interval no third', () => {
    expect(curvesOf([arc(1000, 10)], 500)[0]!.pegs).toHaveLength(2)
    const exact: ElementInput = { kind: 'arc', radius: 1000, length: 500, turn: 'left' }
    expect(curvesOf([exact], 500)[0]!.pegs).toHaveLength(2)
    // A round station just inside: 10 to 510 has one at 500.
    expect(curvesOf([straight(10), exact], 500)[0]!.pegs.map(({ stationMm }) => stationMm)).toEqual([10, 500, 510])
  })

  test('of more than a turn come round to the same places', () => {
    const length = 2 * Math.PI * 1000
    const [curve] = curvesOf([arc(1000, 450)], length / 4)
    expect(curve!.pegs).toHaveLength(6)
    const [, first, , , , last] = curve!.pegs
    expect(last!.xMm).toBeCloseTo(first!.xMm, 8)
    expect(last!.yMm).toBeCloseTo(first!.yMm, 8)
    expect(last!.deflectionDeg).toBeCloseTo(45, 9)
    expect(last!.longChord).toBeNull()
    waysAgree(curve!, 1e-6)
  })
})

describe('pegs of an easement', () => {
  test('stand where the IFC Rail clothoid runs (published: R 300 m over 100 m, conformance data ALRW2)', () => {
    const metres = 1000
    const bent: ElementInput = { kind: 'arc', radius: 300 * metres, length: 50 * metres, turn: 'right' }
    const [curve] = curvesOf([straight(50 * metres), easement(100 * metres), bent], 25 * metres)
    expect(curve).toMatchObject({ element: 1, kind: 'easement', turn: 'right' })
    const [start, , half, , end] = curve!.pegs
    expect(start!.radiusMm).toBeNull()
    expect(end!.radiusMm).toBeCloseTo(300 * metres, 3)
    expect(half!.tangent!.alongMm).toBeCloseTo(49.9913201421206 * metres, 5)
    expect(half!.tangent!.offsetMm).toBeCloseTo(0.6943583325788 * metres, 5)
    expect(end!.tangent!.offsetMm).toBeCloseTo(5.5445423656288 * metres, 5)
    expect(end!.xMm).toBeCloseTo((50 + 99.7225792178275) * metres, 5)
    expect(end!.yMm).toBeCloseTo(-5.5445423656288 * metres, 5)
    waysAgree(curve!, 1e-6)
  })

  test('have tangent offsets up to 90°, also where it has turned there and back', () => {
    // From −1/600 to +1/400 over 4000: at straight (1600) it has turned −1.333 rad, then back.
    const [, curve] = curvesOf([arc(600, 20, 'right'), easement(4000), arc(400, 20)], 400)
    expect(curve!.kind).toBe('easement')
    const within = (peg: Peg) => peg.atMm < 1600
    expect(curve!.pegs.filter(within).every(({ tangent }) => tangent !== null)).toBe(true)
    // closed form: turned(s) = −s/600 + (1/600 + 1/400)·s²/8000, which passes π/2 once
    const turned = (s: number) => -s / 600 + ((1 / 600 + 1 / 400) * s * s) / 8000
    for (const { atMm, tangent } of curve!.pegs) expect(tangent === null).toBe(turned(atMm) > Math.PI / 2)
    waysAgree(curve!, 1e-6)

    // Past 90° before it reverses, so never again, though it comes back to under 90°.
    const [, sharp] = curvesOf([arc(500, 20, 'right'), easement(4000), arc(450, 20)], 400)
    expect(Math.cos((sharp!.pegs.at(-1)!.headingDeg - sharp!.pegs[0]!.headingDeg) / DEG)).toBeGreaterThan(0)
    const limit = sharp!.pegs.findIndex(({ tangent }) => tangent === null)
    expect(limit).toBeGreaterThan(0)
    expect(sharp!.pegs.slice(limit).every(({ tangent }) => tangent === null)).toBe(true)
    waysAgree(sharp!, 1e-6)
  })
})

describe('a whole track', () => {
  test('that is lifted is not pegged out, one that is there is', () => {
    const pegged = (state: 'existing' | 'lifted') => settingOut(planOf([arc(2000, 30)], { state })).tracks[0]!.curves
    expect(pegged('lifted')).toEqual([])
    expect(pegged('existing')).toHaveLength(1)
  })

  const anyElements = fc
    .record({
      lead: fc.double({ min: 1, max: 4000, noNaN: true }),
      ease: fc.tuple(fc.double({ min: 100, max: 900, noNaN: true }), fc.double({ min: 100, max: 900, noNaN: true })),
      radius: fc.double({ min: 500, max: 9000, noNaN: true }),
      angle: fc.double({ min: 1, max: 200, noNaN: true }),
      turn: fc.constantFrom('left' as const, 'right' as const),
    })
    .map(({ lead, ease, radius, angle, turn }) => [
      straight(lead),
      easement(ease[0]),
      arc(radius, angle, turn),
      easement(ease[1]),
      straight(100),
    ])
  const anyInterval = fc.double({ min: 60, max: 1500, noNaN: true })
  const anyStart = fc.record({
    x: fc.double({ min: -5000, max: 5000, noNaN: true }),
    y: fc.double({ min: -5000, max: 5000, noNaN: true }),
    heading: fc.double({ min: -360, max: 360, noNaN: true }),
  })

  test('every way of setting out leads to the same pegs, and curve to curve they meet', () => {
    fc.assert(
      fc.property(anyElements, anyInterval, anyStart, (elements, interval, start) => {
        const curves = curvesOf(elements, interval, start)
        expect(curves).toHaveLength(3)
        for (const [index, curve] of curves.entries()) {
          waysAgree(curve, 1e-6)
          const next = curves[index + 1]?.pegs[0]
          const last = curve.pegs.at(-1)!
          if (next) expect([last.stationMm, last.xMm, last.yMm]).toEqual([next.stationMm, next.xMm, next.yMm])
          for (const { stationMm } of curve.pegs.slice(1, -1))
            expect(Math.abs(stationMm / interval - Math.round(stationMm / interval))).toBeLessThan(1e-6)
          for (const [nth, peg] of curve.pegs.slice(1).entries())
            expect(peg.atMm - curve.pegs[nth]!.atMm).toBeLessThanOrEqual(interval * (1 + 1e-12) + 1e-6)
        }
      }),
    )
  })

  test('mirrored, the offsets and deflections stay and the pegs lie on the other side', () => {
    const mirrored = (elements: ElementInput[]) =>
      elements.map(
        (one): ElementInput => (one.kind === 'arc' ? { ...one, turn: one.turn === 'left' ? 'right' : 'left' } : one),
      )
    fc.assert(
      fc.property(anyElements, anyInterval, (elements, interval) => {
        const others = curvesOf(mirrored(elements), interval)
        for (const [index, { turn, pegs }] of curvesOf(elements, interval).entries()) {
          expect(others[index]!.turn).not.toBe(turn)
          for (const [nth, peg] of pegs.entries()) {
            const other = others[index]!.pegs[nth]!
            expect(other.deflectionDeg).toBeCloseTo(peg.deflectionDeg, 8)
            expect(other.xMm).toBeCloseTo(peg.xMm, 6)
            expect(other.yMm).toBeCloseTo(-peg.yMm, 6)
            expect(other.tangent?.offsetMm ?? 0).toBeCloseTo(peg.tangent?.offsetMm ?? 0, 6)
          }
        }
      }),
    )
  })

  test('pegs stand on the track: the arc behind two easements, walked element by element', () => {
    const [, curve] = curvesOf([straight(700), easement(450), arc(1300, 80, 'right'), easement(300)], 400, {
      x: 120,
      y: -45,
      heading: 33,
    })
    let pose = { xMm: 120, yMm: -45, headingRad: 33 / DEG }
    pose = poseAlong(pose, 0, 0, 700, 700)
    pose = poseAlong(pose, 0, -1 / 1300, 450, 450)
    expect(curve!.pegs.length).toBeGreaterThan(4)
    for (const { atMm, xMm, yMm, headingDeg } of curve!.pegs) {
      const at = poseAlong(pose, -1 / 1300, -1 / 1300, curve!.lengthMm, atMm)
      expect(xMm).toBeCloseTo(at.xMm, 8)
      expect(yMm).toBeCloseTo(at.yMm, 8)
      expect(headingDeg).toBeCloseTo((((at.headingRad * DEG) % 360) + 360) % 360, 8)
    }
  })

  test('without a curve has no pegs; what is assumed is where it starts', () => {
    const plan = { rail: { section: '250', material: 'brass' }, tracks: [{ name: 'main', elements: [straight(500)] }] }
    const answer = settingOut(plan)
    expect(answer.tracks).toEqual([{ name: 'main', label: null, curves: [] }])
    expect(answer.intervalMm).toBe(500)
    expect(answer.assumptions.map(({ field }) => field)).toEqual(['/tracks/0/start'])
  })
})
