import { describe, expect, it } from 'vitest'
import { poseAlong } from '../../src/track/clothoid.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * Fresnel integrals C(x) = ∫₀ˣ cos(πt²/2) dt and S(x) = ∫₀ˣ sin(πt²/2) dt: M. Abramowitz and I. A. Stegun, *Handbook of
 * Mathematical Functions* (1964), chapter 7, table 7.7, ten places. From memory; each was recomputed in 30-digit
 * arithmetic. They are the x and y of a clothoid whose curvature is πs: from 2 on it has turned more than half a circle,
 * at 10 fifty times π.
 */
const TABLE = [
  [0.1, 0.0999975326, 0.0005235895],
  [0.2, 0.1999210576, 0.0041876092],
  [0.5, 0.4923442259, 0.0647324329],
  [0.8, 0.7228441719, 0.2493413931],
  [1, 0.7798934004, 0.4382591474],
  [1.5, 0.445261176, 0.6975049601],
  [2, 0.4882534061, 0.3434156784],
  [3, 0.6057207893, 0.496312999],
  [4, 0.498426033, 0.4205157542],
  [5, 0.5636311887, 0.4991913819],
  [10, 0.4998986942, 0.4681699786],
] as const

const ORIGIN = { xMm: 0, yMm: 0, headingRad: 0 }

/** Along one long clothoid, and along one that ends at x: the same point by other numbers. */
const rows: Row[] = TABLE.flatMap(([x, c, s]) =>
  [12, x].flatMap((length) => {
    const at = poseAlong(ORIGIN, 0, Math.PI * length, length, x)
    return [
      {
        what: `C(${x}), clothoid of ${length}`,
        printed: c,
        computed: at.xMm,
        within: 1e-10,
        label: 'from memory' as const,
      },
      {
        what: `S(${x}), clothoid of ${length}`,
        printed: s,
        computed: at.yMm,
        within: 1e-10,
        label: 'from memory' as const,
      },
    ]
  }),
)

/** Odd functions: from −x to x the clothoid reverses in the middle and moves 2C(x), 2S(x) in the frame of the middle. */
const reversing: Row[] = TABLE.flatMap(([x, c, s]) => {
  const start = { xMm: 0, yMm: 0, headingRad: (Math.PI * x * x) / 2 }
  const at = poseAlong(start, -Math.PI * x, Math.PI * x, 2 * x, 2 * x)
  return [
    { what: `2·C(${x})`, printed: 2 * c, computed: at.xMm, within: 2e-10, label: 'from memory' },
    { what: `2·S(${x})`, printed: 2 * s, computed: at.yMm, within: 2e-10, label: 'from memory' },
  ]
})

describe('Fresnel integrals', () => {
  const all = [...rows, ...reversing]

  it('agree to the tenth place', () => {
    expect(misses(all)).toEqual([])
  })

  it('compares all 66 numbers, and a wrong one among them would show', () => {
    expect([rows.length, reversing.length]).toEqual([44, 22])
    expect(blindRows(all)).toEqual([])
  })
})
