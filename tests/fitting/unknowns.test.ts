import { describe, expect, it } from 'vitest'
import type { Chain, ChainUnknown } from '../../src/fitting/chain.ts'
import { evaluated, linksOf } from '../../src/fitting/chain.ts'
import { followedBy, NOWHERE } from '../../src/fitting/motion.ts'
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
const STRAIGHT: ChainUnknown = { kind: 'length', shape: shape('tangent', 0, 0) }
const curve = (curvature: number): ChainUnknown => ({ kind: 'angle', shape: shape('arc', curvature, curvature) })
const eased = (from: number, to: number): ChainUnknown => ({ kind: 'length', shape: shape('easement', from, to) })
const chainOf = (...unknowns: ChainUnknown[]): Chain => ({
  unknowns,
  links: linksOf(unknowns),
  stretches: [NOWHERE, ...unknowns.map(() => NOWHERE)],
  leverMm: 1000,
})
const NOTHING = { mm: 0, rad: 0 }
const at = (xMm: number, yMm: number, headingRad = 0): Pose => ({ xMm, yMm, headingRad })

describe('how the end moves', () => {
  it('agrees with differences, for straights, arcs and easements', () => {
    const random = randomFrom(3)
    for (let round = 0; round < 50; round++) {
      const chain: Chain = {
        ...chainOf(STRAIGHT, curve(random() < 0.5 ? 1e-3 : -7e-4), eased(1e-3 * random(), -1e-3 * random())),
        stretches: [0, 1, 2, 3].map(() => at(900 * random(), 500 * random() - 250, random())),
      }
      const values = [400 + 900 * random(), 0.2 + 2 * random(), 300 + 900 * random()]
      const { columns } = evaluated(chain, values)
      for (const [index, value] of values.entries()) {
        const step = 1e-4 * value
        const [more, less] = [step, -step].map((by) => evaluated(chain, values.with(index, value + by)).end)
        const slope = (key: keyof Pose) => (more![key] - less![key]) / (2 * step)
        const [x, y, turn] = columns[index]!
        expect(x).toBeCloseTo(slope('xMm'), 3)
        expect(y).toBeCloseTo(slope('yMm'), 3)
        expect(turn).toBeCloseTo(1000 * slope('headingRad'), 3)
      }
    }
  })
})

describe('values of the unknowns', () => {
  it('of two straights are exact (by hand)', () => {
    const chain = { ...chainOf(STRAIGHT, STRAIGHT), stretches: [NOWHERE, at(0, 0, Math.PI / 2), NOWHERE] }
    const { found } = fits(chain, { pose: at(700, 300), hasHeading: false }, NOTHING)
    expect(found).toHaveLength(1)
    expect(found[0]!.values[0]).toBeCloseTo(700, 10)
    expect(found[0]!.values[1]).toBeCloseTo(300, 10)
  })

  it('that would be below zero are told, with the nearest that would do', () => {
    const chain = { ...chainOf(STRAIGHT, STRAIGHT), stretches: [NOWHERE, at(0, 0, Math.PI / 2), NOWHERE] }
    const { found, beyond, nearest } = fits(chain, { pose: at(700, -300), hasHeading: false }, NOTHING)
    expect(found).toEqual([])
    expect(beyond!.values[1]).toBeCloseTo(-300, 9)
    expect(nearest!.missMm).toBeCloseTo(300.001, 6)
    expect(nearest!.end.xMm).toBeCloseTo(700, 6)
  })

  it('of an S are one, and of three curves two, the shorter first', () => {
    const s = fits(chainOf(curve(1e-3), STRAIGHT, curve(-1e-3)), { pose: at(4000, 1000), hasHeading: true }, NOTHING)
    expect(s.found).toHaveLength(1)
    // By hand: both turn by the same angle.
    expect(s.found[0]!.values[0]).toBeCloseTo(s.found[0]!.values[2]!, 9)
    const three = chainOf(curve(1e-3), curve(-1e-3), curve(1e-3))
    const { found } = fits(three, { pose: at(500, 300, 1), hasHeading: true }, NOTHING)
    // The circle between them lies on either side.
    expect(found).toHaveLength(2)
    const angles = found.map(({ values }) => values.reduce((sum, value) => sum + value))
    expect(angles[0]).toBeLessThan(angles[1]!)
    for (const { missMm, missRad } of found) expect(Math.max(missMm, 1000 * missRad)).toBeLessThan(1e-9)
  })

  it('of one to three random unknowns of any kind are found again', () => {
    const random = randomFrom(17)
    let recovered = 0
    for (let round = 0; round < 200; round++) {
      const kinds = [STRAIGHT, curve(1 / (800 + 2000 * random())), eased(0, 1 / (900 + 900 * random()))]
      const count = 1 + (round % 3)
      const unknowns = Array.from({ length: count }, () => kinds[Math.floor(3 * random())]!)
      // Straights alone cannot turn the end, so two of them are all that x and y determine.
      if (unknowns.every((each) => each === STRAIGHT)) unknowns.splice(2)
      const values = unknowns.map(({ kind }) => (kind === 'angle' ? 0.1 + 3 * random() : 200 + 1500 * random()))
      const turn = () => at(500 + 500 * random(), 300 * random(), 0.3 + random())
      const chain = { ...chainOf(...unknowns), stretches: Array.from({ length: unknowns.length + 1 }, turn) }
      const { end } = evaluated(chain, values)
      const { found } = fits(chain, { pose: end, hasHeading: true }, { mm: 1e-8, rad: 1e-11 })
      expect(found.length, JSON.stringify({ unknowns, values })).toBeGreaterThan(0)
      for (const { missMm } of found) expect(missMm).toBeLessThan(1e-8)
      const isSame = (fit: { readonly values: readonly number[] }) =>
        values.every((value, index) => Math.abs(fit.values[index]! / value - 1) < 1e-9)
      if (found.some(isSame)) recovered++
    }
    expect(recovered).toBeGreaterThan(190)
  })

  it('are none where what is open does not move the end there', () => {
    const { found, beyond } = fits(chainOf(STRAIGHT, STRAIGHT), { pose: at(0, 500), hasHeading: false }, NOTHING)
    expect([found, beyond]).toEqual([[], null])
  })

  it('start at the goal too: a chain that leads nowhere needs a whole turn', () => {
    const full = fits(chainOf(curve(1e-3)), { pose: followedBy(NOWHERE, NOWHERE), hasHeading: true }, { mm: 1, rad: 1 })
    expect(full.found).toEqual([])
  })
})
