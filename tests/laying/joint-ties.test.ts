import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type TieRow, tiesToAddAtJoints } from '../../src/laying/joint-ties.ts'

const row = (lengthMm: number, spacingMm: number, closed = false): TieRow => ({ lengthMm, spacingMm, closed })

describe('ties added beside joints', () => {
  // by hand, ties every 40 mm from 0 on
  it.each([
    ['no joint', row(400, 40), [], 0],
    ['midway between two ties', row(400, 40), [100], 0],
    ['just off the middle', row(400, 40), [100.01], 1],
    ['beside a tie, before it', row(400, 40), [115], 1],
    ['right over a tie: it is moved aside and one is added', row(400, 40), [120], 1],
    ['two joints abreast share', row(400, 40), [130, 130], 1],
    ['either side of a middle: one between them serves both', row(400, 40), [139, 141], 1],
    ['nearly abreast, both after a tie', row(400, 40), [130, 133], 1],
    ['far apart, each its own', row(400, 40), [130, 290], 2],
    ['past the last tie, which is too far: one before, one beyond', row(430, 41), [425], 1],
    ['no tie within half a spacing on either side', row(430, 50), [427], 2],
    ['at a joined start: the tie there is shared, one is missing within', row(400, 40), [0, 0], 1],
    ['at a joined end where the last tie stands', row(400, 40), [400], 1],
    ['at a joined end, the last tie near enough before it', row(415, 40), [415], 0],
    ['at a joined end, the last tie too far before it', row(425, 40), [425], 1],
    ['where a loop closes', row(400, 40, true), [0, 0], 1],
    ['the same told from the other side', row(400, 40, true), [400, 0], 1],
    ['on both sides of where a loop closes', row(400, 40, true), [395, 5], 2],
  ])('%s', (_, ties, joints, added) => {
    expect(tiesToAddAtJoints(ties, joints)).toBe(added)
  })

  it('are none where joints fall midway, and the joints’ order is all one', () => {
    const joints = fc.uniqueArray(fc.nat(48), { maxLength: 12 })
    fc.assert(
      fc.property(joints, fc.double({ min: 1, max: 90, noNaN: true }), (places, spacingMm) => {
        const middles = places.map((n) => (n + 0.5) * spacingMm)
        expect(tiesToAddAtJoints(row(50 * spacingMm, spacingMm), middles)).toBe(0)
        const off = middles.map((mm, n) => mm + ((n % 3) - 1) * spacingMm * 0.2)
        const reversed = off.toReversed()
        expect(tiesToAddAtJoints(row(50 * spacingMm, spacingMm), off)).toBe(
          tiesToAddAtJoints(row(50 * spacingMm, spacingMm), reversed),
        )
      }),
    )
  })
})

/**
 * The rule read again, on a grid of whole millimetres: which joints lack a tie on a side, and whether `count` ties put
 * anywhere can serve them all. Every choice is tried.
 */
function fewest(ties: TieRow, joints: readonly number[]): number {
  const { lengthMm, spacingMm, closed } = ties
  const standing: number[] = []
  for (let mm = 0; closed ? mm < lengthMm : mm <= lengthMm; mm += spacingMm) standing.push(mm)
  const rounds = closed ? [-lengthMm, 0, lengthMm] : [0]
  const wants: number[][] = []
  for (const joint of new Set(joints.map((mm) => (closed ? mm % lengthMm : mm)))) {
    for (const side of [-1, 1]) {
      if (!closed && ((joint === 0 && side < 0) || (joint === lengthMm && side > 0))) continue
      const away = (mm: number) => rounds.map((round) => (mm + round - joint) * side)
      // A tie under the joint serves the side before it, at an end the one beyond.
      const under = !closed && joint === lengthMm ? false : side < 0
      const serves = (mm: number) => away(mm).some((d) => (d > 0 || (d === 0 && under)) && 2 * d <= spacingMm)
      if (standing.some(serves)) continue
      // In steps of half a millimetre, so that there is room between joints a millimetre apart.
      const placeable = (mm: number) => away(mm).some((d) => d > 0 && 2 * d <= spacingMm)
      const places: number[] = []
      for (let half = 0; half <= 2 * lengthMm; half++) if (placeable(half / 2)) places.push(half / 2)
      wants.push(places)
    }
  }
  const search = (left: readonly number[][], count: number): boolean => {
    const [first, ...rest] = left
    if (!first) return true
    if (count === 0) return false
    return first.some((place) =>
      search(
        rest.filter((places) => !places.includes(place)),
        count - 1,
      ),
    )
  }
  for (let count = 0; ; count++) if (search(wants, count)) return count
}

describe('ties added beside joints, against an exhaustive search', () => {
  const joints = (lengthMm: number) => fc.array(fc.nat(lengthMm), { maxLength: 3 })

  it('on open track', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 4, max: 9 }),
        fc.integer({ min: 10, max: 45 }),
        joints(45),
        (spacing, length, places) => {
          const on = places.map((mm) => Math.min(mm, length))
          expect(tiesToAddAtJoints(row(length, spacing), on)).toBe(fewest(row(length, spacing), on))
        },
      ),
      { numRuns: 300 },
    )
  })

  it('round a closed track', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 4, max: 8 }),
        fc.integer({ min: 7, max: 9 }),
        joints(40),
        (spacing, count, places) => {
          const on = places.map((mm) => mm % (spacing * count))
          const ties = row(spacing * count, spacing, true)
          expect(tiesToAddAtJoints(ties, on)).toBe(fewest(ties, on))
        },
      ),
      { numRuns: 300 },
    )
  })
})
