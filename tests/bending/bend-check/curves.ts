import fc from 'fast-check'
import { checkBend } from '../../../src/bending/bend-check/check.ts'
import type { BendCheck, BendCheckInput } from '../../../src/bending/bend-check/types.ts'

export function checked(input: BendCheckInput): BendCheck {
  const result = checkBend(input)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.check
}

/** Straight between the corners [station, ordinate], 0 before the first and after the last. */
export function profile(corners: readonly (readonly [number, number])[]): (station: number) => number {
  return (station) => {
    const after = corners.findIndex(([at]) => at >= station)
    if (after <= 0) return after === 0 && corners[0]![0] === station ? corners[0]![1] : 0
    const [[from, low], [to, high]] = [corners[after - 1]!, corners[after]!]
    return low + ((high - low) * (station - from)) / (to - from)
  }
}

export function sampled(ordinateAt: (station: number) => number, stations: number): number[] {
  return Array.from({ length: stations }, (_, n) => ordinateAt(n))
}

/** What the readings become when station n stands `outMm[n]` out of place, by the rule of string lining. */
export function displaced(readingsMm: readonly number[], outMm: readonly number[]): number[] {
  return readingsMm.map((v, n) => v + (outMm[n] ?? 0) - ((outMm[n - 1] ?? 0) + (outMm[n + 1] ?? 0)) / 2)
}

export interface Curve {
  readonly corners: readonly (readonly [number, number])[]
  /** Of the even curve, at each station. */
  readonly evenMm: readonly number[]
  /** How far each station stands out of place; the first two and the last two do not. */
  readonly outMm: readonly number[]
  readonly readingsMm: readonly number[]
}

/** A curve of one body with unequal runs, its stations out of place by up to `mostOutMm`, read on a rule. */
export function unevenCurve(sizes: {
  stations: [number, number]
  mostOutMm: number
  stepMm: number
}): fc.Arbitrary<Curve> {
  const [least, most] = sizes.stations
  return fc
    .integer({ min: least, max: most })
    .chain((stations) =>
      fc.record({
        stations: fc.constant(stations),
        parts: fc.array(fc.integer({ min: 50, max: 200 }), { minLength: 3, maxLength: 3 }),
        level: fc.integer({ min: 60, max: 240 }),
        out: fc.array(fc.integer({ min: -100, max: 100 }), { minLength: stations, maxLength: stations }),
      }),
    )
    .map(({ stations, parts, level, out }) => {
      const scale = (stations - 4) / parts.reduce((sum, part) => sum + part, 0)
      const a = 1.3
      const b = a + parts[0]! * scale
      const c = b + parts[1]! * scale
      const d = c + parts[2]! * scale
      const corners = [
        [a, 0],
        [b, level / 10],
        [c, level / 10],
        [d, 0],
      ] as const
      const evenMm = sampled(profile(corners), stations)
      const outMm = out.map((part, n) => (n < 2 || n > stations - 3 ? 0 : (part / 100) * sizes.mostOutMm))
      const rounded = (v: number) => (sizes.stepMm === 0 ? v : Math.round(v / sizes.stepMm) * sizes.stepMm)
      return { corners, evenMm, outMm, readingsMm: displaced(evenMm, outMm).map(rounded) }
    })
}

export function largest(values: readonly (number | null)[]): number {
  return Math.max(...values.map((value) => Math.abs(value!)))
}
