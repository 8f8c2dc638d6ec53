import { describe, expect, it } from 'vitest'
import { layWeb } from '../../../src/laying/cutting/lay-web.ts'

const runs = [{ lengthMm: 2800 }, { lengthMm: 700 }]
const sticksMm = [900, 900, 900, 900]
const rules = { kerfMm: 1, shortestMm: 300, cutting: 'even-pieces' as const }

describe('runs laid over sticks, whatever may share whatever stick', () => {
  it('six pieces that go round in a circle (by hand)', () => {
    // 700 as 350 + 350, beside each of them 900 − 350 − 1 = 549 of the 2800; what is left of it as 851 + 851.
    const { layout, shortestMm, whole } = layWeb(runs, sticksMm, 6, rules, { left: 100_000 })
    expect(whole).toBe(true)
    expect(shortestMm).toBeCloseTo(350, 5)
    const lengthsOf = (run: number) =>
      layout!.pieces.filter((piece) => piece.run === run).map(({ lengthMm }) => lengthMm)
    expect(lengthsOf(1).map(Math.round)).toEqual([350, 350])
    expect(lengthsOf(0)).toHaveLength(4)
    expect(lengthsOf(0).reduce((sum, mm) => sum + mm, 0)).toBeCloseTo(2800, 6)
    for (const stick of sticksMm.keys()) {
      const own = layout!.pieces.filter((piece) => piece.stick === stick)
      const neededMm = own.reduce((sum, { lengthMm }) => sum + lengthMm + 1, -1)
      expect(neededMm).toBeLessThanOrEqual(900 + 1e-5)
    }
  })

  it('in five there is none: three sticks are shorter than 2800, and a stick shared needs 300 + 700 (by hand)', () => {
    expect(layWeb(runs, sticksMm, 5, rules, { left: 100_000 })).toMatchObject({ layout: null, whole: true })
  })

  it('each of two runs alike from a stick of its own, whole', () => {
    const pair = [{ lengthMm: 800 }, { lengthMm: 800 }]
    const { layout } = layWeb(pair, [900, 900], 2, rules, { left: 100_000 })
    expect(layout!.pieces.map(({ lengthMm, stick }) => [lengthMm, stick])).toEqual([
      [800, 0],
      [800, 1],
    ])
  })

  it('says that it does not know where the work does not do', () => {
    expect(layWeb(runs, sticksMm, 6, rules, { left: 3 })).toMatchObject({ layout: null, whole: false })
  })
})
