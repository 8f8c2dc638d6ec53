import { describe, expect, it } from 'vitest'
import { toDegrees } from '../../src/measure/angle.ts'
import { turnoutOf } from '../../src/track/turnout/turnout.ts'
import { blindRows, misses, type Row } from './rows.ts'
import { degrees, turnout } from './turnouts.ts'

/**
 * Standard turnouts of continental railways, "R–1:N" with N = cot of the angle, gauge 1435 mm: one radius from the points to
 * the end of the curve, where the leg diverges by 1:N. From memory: radius (m), N, and the tangent of the curve R·tan(α/2)
 * (m, to the millimetre), which is half the length of a turnout that ends with its curve. Three curves end before their
 * frogs, which are straight, and the legs go on straight. The angle of 1:7.5, 7.5946°, and of
 * 1:9, 6°20′25″, are published (s21-modellgleis.de, forms of turnouts; the second from memory).
 */
const TYPES = [
  { radiusM: 190, n: 7.5, tangentM: 12.611 },
  { radiusM: 190, n: 9, tangentM: 10.523, straightFrogM: 27.138 },
  { radiusM: 300, n: 9, tangentM: 16.615 },
  { radiusM: 300, n: 14, tangentM: 10.701, straightFrogM: 37.809 },
  { radiusM: 500, n: 12, tangentM: 20.797 },
  { radiusM: 500, n: 14, tangentM: 17.834, straightFrogM: 44.942 },
  { radiusM: 760, n: 14, tangentM: 27.108 },
  { radiusM: 1200, n: 18.5, tangentM: 32.409 },
] as readonly { radiusM: number; n: number; tangentM: number; straightFrogM?: number }[]

const angleDeg = (n: number) => toDegrees(Math.atan(1 / n))

/** From the points to where the diverging leg, run backwards, meets the main. */
function tangentMm({ radiusM, n, straightFrogM }: (typeof TYPES)[number]): number {
  const made = turnoutOf(
    {
      hand: 'left',
      radius: radiusM * 1000,
      ...(straightFrogM
        ? { form: 'straight-frog', numbering: 'cot', number: n, length: 1000 * straightFrogM }
        : { form: 'curved-frog', angle: angleDeg(n) }),
    },
    1435,
  )
  if (!made.ok) throw new Error(JSON.stringify(made.faults))
  const { xMm, yMm, headingRad } = made.turnout.legs.diverging.end
  return xMm - yMm / Math.tan(headingRad)
}

const rows: Row[] = TYPES.map((type) => ({
  what: `tangent of ${type.radiusM}–1:${type.n}, m`,
  printed: type.tangentM,
  computed: tangentMm(type) / 1000,
  within: 1.1e-3,
  label: 'from memory',
}))
rows.push(
  {
    what: 'angle of 1:7.5, degrees',
    printed: 7.5946,
    computed: turnout({ gauge: 1435, number: 7.5, numbering: 'cot', hand: 'left' }).frogAngleDeg,
    within: 5e-5,
    label: 'published',
  },
  {
    what: 'angle of 1:9, degrees',
    printed: degrees(6, 20, 25),
    computed: turnout({ gauge: 1435, number: 9, numbering: 'cot', hand: 'left' }).frogAngleDeg,
    within: 0.6 / 3600,
    label: 'from memory',
  },
)

describe('turnouts 1 in N with one radius', () => {
  it('have the tangents of their tables', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 10 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(10)
    expect(blindRows(rows)).toEqual([])
  })
})
