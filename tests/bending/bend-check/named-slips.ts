import fc from 'fast-check'
import { slipsAmong } from '../../../src/bending/bend-check/slips.ts'
import { displaced, unevenCurve } from './curves.ts'

const RESOLUTION_MM = 0.5
const NOISE_MM = 0.3
const WRONG_MM = 8

/** Noise of standard deviation 1, nearly normal: twelve even numbers from 0 to 1 add up to 6 ± 1. */
const noise = fc
  .array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 12, maxLength: 12 })
  .map((parts) => parts.reduce((sum, part) => sum + part, -6))

/**
 * Random curves of one body with unequal runs, read with noise: each once as it is, once with one wrong reading and once
 * with one displaced station.
 */
export function namedIn(sizes: { curves: number; seed: number; stations: [number, number] }) {
  const curve = unevenCurve({ stations: sizes.stations, mostOutMm: 0, stepMm: 0 }).chain((even) => {
    const stations = even.evenMm.length
    return fc.record({
      evenMm: fc.constant(even.evenMm),
      noise: fc.array(noise, { minLength: stations, maxLength: stations }),
      at: fc.integer({ min: 2, max: stations - 3 }),
      by: fc.constantFrom(WRONG_MM, -WRONG_MM),
    })
  })
  let [found, falsely, displacedCalled] = [0, 0, 0]
  for (const { evenMm, noise, at, by } of fc.sample(curve, { numRuns: sizes.curves, seed: sizes.seed })) {
    const uneven = evenMm.map((mm, n) => mm + NOISE_MM * noise[n]!)
    const named = namedAmong(uneven.map((mm, n) => (n === at ? mm + by : mm)))
    if (named.includes(at)) found++
    if (named.some((station) => station !== at) || namedAmong(uneven).length > 0) falsely++
    const out = uneven.map((_, n) => (n === at ? by : 0))
    if (namedAmong(displaced(uneven, out)).length > 0) displacedCalled++
  }
  return { found, falsely, displacedCalled }
}

function namedAmong(readingsMm: readonly number[]): number[] {
  const isStraight = (mm: number) => Math.abs(mm) <= RESOLUTION_MM
  const beyond = { straightBefore: isStraight(readingsMm[0]!), straightAfter: isStraight(readingsMm.at(-1)!) }
  return slipsAmong(readingsMm, beyond, RESOLUTION_MM).map(({ station }) => station)
}
