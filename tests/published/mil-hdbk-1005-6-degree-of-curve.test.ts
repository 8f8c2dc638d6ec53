import { describe, expect, it } from 'vitest'
import { arcOfChordMm } from '../../src/bending/ordinates.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { placeElements } from '../../src/track/place.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * Radius by degree of curve, feet. Chord definition (railways): the degree is the angle over a chord of 100 ft; arc
 * definition: over an arc of 100 ft. Values of the usual handbook tables, published; 359 ft (16°) is the sharpest
 * curve of MIL-HDBK-1005/6, *Railroad Track Design*. Each row lays 100 ft at the printed radius and reads the degree
 * off, so the allowance is what half of the radius's last digit is worth in degrees; and by the chord definition, a plan
 * with a curve of the printed degree is read, and has to have the printed radius.
 */
const degrees = (rad: number) => (rad * 180) / Math.PI
const row = (what: string, degree: number, radius: number, lastDigit: number, computed: number): Row => ({
  what,
  printed: degree,
  computed,
  within: (0.51 * lastDigit * degree) / radius,
  label: 'published',
})

const BY_CHORD = [
  [1, 5729.65, 0.01],
  [2, 2864.9, 0.1],
  [6, 955.37, 0.01],
  [8, 716.8, 0.1],
  [10, 573.69, 0.01],
  [16, 359.26, 0.01],
  [16, 359, 1],
] as const

const byChord = BY_CHORD.map(([degree, radius, lastDigit]) =>
  row(
    `${degree}°, chord definition, R ${radius}`,
    degree,
    radius,
    lastDigit,
    degrees(arcOfChordMm(radius, 100)! / radius),
  ),
)

const planned = BY_CHORD.map(([degree, radius, lastDigit]): Row => {
  const curve = { kind: 'arc', degree, chord: '100 ft', angle: 10, turn: 'left' }
  const read = readPlan({ rail: { section: '250', material: 'brass' }, tracks: [{ name: 'a', elements: [curve] }] })
  const [element] = read.ok ? read.plan.tracks[0]!.elements : []
  const what = `R of a planned curve of ${degree}°, ${radius} ft`
  const computed = element?.kind === 'arc' ? element.radius / 304.8 : Number.NaN
  return { what, printed: radius, computed, within: 0.51 * lastDigit, label: 'published' }
})

const byArc = (
  [
    [1, 5729.58, 0.01],
    [10, 572.96, 0.01],
  ] as const
).map(([degree, radius, lastDigit]) => {
  const [curve] = placeElements(
    { xMm: 0, yMm: 0, headingRad: 0 },
    [{ kind: 'arc', radius, length: 100, turn: 'left' }],
    false,
  )
  return row(`${degree}°, arc definition, R ${radius}`, degree, radius, lastDigit, degrees(curve!.turnedRad))
})

describe('degree of curve', () => {
  const rows = [...byChord, ...planned, ...byArc]

  it('agrees with the tables to their last digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 16 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(16)
    expect(blindRows(rows)).toEqual([])
  })
})
