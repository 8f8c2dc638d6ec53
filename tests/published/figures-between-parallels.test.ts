import { describe, expect, it } from 'vitest'
import { toRadians } from '../../src/measure/angle.ts'
import { type Built, built, trackCalled } from '../fitting/figures/built.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * The figures of tracks between parallels, measured in the plan that comes of them.
 *
 * - Derived figures to 0.005 mm, gauge 45 mm, tracks 150 mm apart: crossover and ladder by the formulas of field books,
 *   from memory, which the two rows below are published examples of.
 * - S. Chandra & M. M. Agarwal, *Railway Engineering*, examples 15.1 and 15.2, as reprinted online: Coles's method for a
 *   crossover of "1 in N" turnouts (N = cot F) between tracks of 1676 mm gauge 5 m apart; the straight between the noses
 *   measured along the tracks, (D − G)N − G√(1 + N²). Of example 15.2 the difference of its own rounded figures is printed,
 *   39.88 − 20.18 = 19.70, as 19.69, so it is compared to 0.02 m. Their overall lengths take 4GN for the two leads.
 */
const placeAlong = (
  { xMm, yMm, headingDeg }: { xMm: number; yMm: number; headingDeg: number },
  along: number,
  left: number,
) => {
  const h = toRadians(headingDeg)
  return { x: xMm + along * Math.cos(h) - left * Math.sin(h), y: yMm + along * Math.sin(h) + left * Math.cos(h) }
}

function crossoverOf(kind: object, gauge: number, spacing: number) {
  const made = built({ figure: 'crossover', gauge, spacing, turnoutTypes: [{ id: 'a', hand: 'left', ...kind }] })
  const first = trackCalled(made, 'main').elements[0]!
  const second = trackCalled(made, 'other').elements.at(-1)!
  const lead = first.turnout!.leadMm
  // A frog lies half a gauge to the side of its straight; the second turnout faces the other way.
  const frogs = [placeAlong(first.start, lead, gauge / 2), placeAlong(second.end, -lead, -gauge / 2)] as const
  const frogToFrog = frogs[1].x - frogs[0].x
  const leg = straightOfLeg(made, lead)
  const straight = trackCalled(made, 'crossover').lengthMm + 2 * leg
  const meeting = (turnout: NonNullable<typeof first.turnout>) =>
    turnout.lengthMm - turnout.divergingOffsetMm / Math.tan(toRadians(turnout.divergingAngleDeg))
  const intersections = second.end.xMm - first.start.xMm - 2 * meeting(first.turnout!)
  return { frogToFrog, straight, intersections }
}

/** Of a diverging leg, from the end of its curve: there the curve of a turnout without toe ends at the frog. */
function straightOfLeg(made: Built, lead: number): number {
  const { turnout } = trackCalled(made, 'main').elements[0]!
  const f = toRadians(turnout!.frogAngleDeg)
  const curveEnds = turnout!.closureRadiusMm * Math.tan(f / 2) * (1 + Math.cos(f))
  expect(curveEnds).toBeLessThan(lead)
  return (turnout!.lengthMm - curveEnds) / Math.cos(f)
}

function ladderOf(number: number) {
  const kinds = ['left', 'right'].map((hand) => ({ id: hand, hand, number, length: 2 * 45 * number + 30 }))
  const made = built({
    figure: 'ladder',
    spacing: 150,
    fouling: 120,
    clear: 3000,
    count: 4,
    radius: 700,
    turnoutTypes: kinds,
  })
  const on = trackCalled(made, 'ladder and track 4').elements.filter(({ turnout }) => turnout)
  const [a, b] = on as [(typeof on)[0], (typeof on)[0]]
  expect(on).toHaveLength(2)
  return Math.hypot(b.start.xMm - a.start.xMm, b.start.yMm - a.start.yMm)
}

const derived = (what: string, printed: number, computed: number): Row => ({
  what,
  printed,
  computed,
  within: 0.005,
  label: 'derived',
})

const of = (number: number) => crossoverOf({ number, length: 2 * 45 * number + 30 }, 45, 150)
const [six, eight] = [of(6), of(8)]
const coles = (number: number) =>
  crossoverOf({ number, numbering: 'cot', length: 2 * 1676 * number + 1000 }, 1676, 5000)

const rows: readonly Row[] = [
  derived('No. 6, frog to frog', 353.75, six.frogToFrog),
  derived('No. 6, straight', 366.25, six.straight),
  derived('No. 6, intersections', 893.75, six.intersections),
  derived('No. 6, ladder', 906.25, ladderOf(6)),
  derived('No. 8, frog to frog', 475.31, eight.frogToFrog),
  derived('No. 8, straight', 484.69, eight.straight),
  derived('No. 8, intersections', 1195.31, eight.intersections),
  derived('No. 8, ladder', 1204.69, ladderOf(8)),
  { what: '1 in 8.5, m', printed: 13.91, computed: coles(8.5).frogToFrog / 1000, within: 0.005, label: 'published' },
  { what: '1 in 12, m', printed: 19.69, computed: coles(12).frogToFrog / 1000, within: 0.02, label: 'published' },
]

describe('crossovers and ladders between parallel tracks, as they lie in a plan', () => {
  it('agree to the printed digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 10 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(10)
    expect(blindRows(rows)).toEqual([])
  })
})
