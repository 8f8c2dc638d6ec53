import { describe, expect, it } from 'vitest'
import { type Chain, evaluated, type Link } from '../../src/fitting/chain.ts'
import { fits } from '../../src/fitting/unknowns.ts'
import type { Pose, Shape } from '../../src/track/types.ts'
import { randomFrom } from '../random.ts'

const shape = (kind: Shape['kind'], startCurvature: number, endCurvature: number): Shape => ({
  kind,
  startCurvature,
  endCurvature,
  lengthMm: 1000,
  turnedRad: ((startCurvature + endCurvature) / 2) * 1000,
})
const STRAIGHT = shape('tangent', 0, 0)
const at = (xMm: number, yMm: number, headingRad = 0): Pose => ({ xMm, yMm, headingRad })

/** A straight, an easement, an arc and an easement; open: the length, the radius, and the angle or the first easement. */
function eased(
  side: 1 | -1,
  third: 'angle' | 'length' | 'none',
  stretches: readonly Pose[],
  keepsLength = false,
): Chain {
  const arc = shape('arc', side * 1e-3, side * 1e-3)
  const links: Link[] = [
    { shape: STRAIGHT, size: 0 },
    { shape: shape('easement', 0, side * 1e-3), endRadius: 1, size: third === 'length' ? 2 : undefined },
    { shape: arc, radius: 1, size: third === 'angle' ? 2 : undefined, keepsLength },
    { shape: shape('easement', side * 1e-3, 0), startRadius: 1 },
  ]
  const unknowns: Chain['unknowns'] = [
    { kind: 'length', shape: STRAIGHT },
    { kind: 'radius', shape: arc },
    ...(third === 'none' ? [] : [{ kind: third, shape: third === 'angle' ? arc : links[1]!.shape }]),
  ]
  return { unknowns, links, stretches, leverMm: 1000 }
}

describe('how the end moves with a radius', () => {
  it('agrees with differences, easements and the angle or the length beside it included', () => {
    const random = randomFrom(5)
    for (let round = 0; round < 60; round++) {
      const stretches = [0, 1, 2, 3, 4].map(() => at(900 * random(), 500 * random() - 250, random()))
      const third = (['angle', 'length', 'none'] as const)[round % 3]!
      const chain = eased(round % 2 ? 1 : -1, third, stretches, third !== 'angle' && random() < 0.5)
      const own = { angle: 0.2 + 2 * random(), length: 300 + 900 * random(), none: 0 }[third]
      const values = [400 + 900 * random(), 900 + 2000 * random(), own].slice(0, chain.unknowns.length)
      const { columns } = evaluated(chain, values)
      for (const [index, value] of values.entries()) {
        const step = 1e-4 * value
        const [more, less] = [step, -step].map((by) => evaluated(chain, values.with(index, value + by)).end)
        const slope = (key: keyof Pose) => (more![key] - less![key]) / (2 * step)
        const [x, y, turn] = columns[index]!
        expect(Math.abs(x! - slope('xMm'))).toBeLessThan(1e-4 * Math.max(1, Math.abs(x!)))
        expect(Math.abs(y! - slope('yMm'))).toBeLessThan(1e-4 * Math.max(1, Math.abs(y!)))
        expect(turn).toBeCloseTo(1000 * slope('headingRad'), 3)
      }
    }
  })
})

describe('a radius', () => {
  it('and a straight, which move the end evenly, are exact (closed form), and on the other side told as below zero', () => {
    const arc = { kind: 'radius', shape: { ...shape('arc', 1e-3, 1e-3), turnedRad: Math.PI / 2 } } as const
    const chain: Chain = {
      unknowns: [{ kind: 'length', shape: STRAIGHT }, arc],
      links: [
        { shape: STRAIGHT, size: 0 },
        { shape: arc.shape, radius: 1 },
      ],
      stretches: [at(0, 0), at(0, 0), at(0, 0)],
      leverMm: 1000,
    }
    const enough = { mm: 1e-9, rad: 1e-12 }
    const { found } = fits(chain, { pose: at(2700, 1900, Math.PI / 2), hasHeading: true }, enough)
    expect(found).toHaveLength(1)
    expect(found[0]!.values[0]).toBeCloseTo(800, 9)
    expect(found[0]!.values[1]).toBeCloseTo(1900, 9)
    const { found: none, beyond } = fits(chain, { pose: at(2700, -1900, Math.PI / 2), hasHeading: true }, enough)
    expect(none).toEqual([])
    expect(beyond!.values[1]).toBeCloseTo(-1900, 9)
  })

  it('between easements, with a length and an angle, is found again to 1e-9', () => {
    const random = randomFrom(23)
    let recovered = 0
    for (let round = 0; round < 120; round++) {
      const stretches = [0, 1, 2, 3, 4].map((n) =>
        n === 0 || n === 4 ? at(500 * random(), 300 * random(), 1) : at(0, 0),
      )
      const chain = eased(round % 2 ? 1 : -1, 'angle', stretches)
      const values = [200 + 1500 * random(), 800 + 3000 * random(), 0.2 + 1.5 * random()]
      const { end } = evaluated(chain, values)
      const { found } = fits(chain, { pose: end, hasHeading: true }, { mm: 0, rad: 0 })
      for (const { missMm, missRad } of found) expect(Math.max(missMm, 1000 * missRad)).toBeLessThan(1e-8)
      if (found.some((fit) => fit.values.every((value, n) => Math.abs(value / values[n]! - 1) < 1e-9))) recovered++
    }
    expect(recovered).toBe(120)
  })
})
