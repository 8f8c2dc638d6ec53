import { describe, expect, it } from 'vitest'
import { type Metal, metalFaults, metalOfTemper } from '../../src/bending/metal.ts'
import { MATERIALS } from '../../src/catalogue/materials.ts'
import { HARD_BRASS, IDEAL, LINEAR } from './rails.ts'

const refused = (metal: Metal) => metalFaults(metal).map(({ path }) => path.join('/'))

describe('metals', () => {
  it('of every catalogued temper are sound and in MPa', () => {
    const metals = MATERIALS.flatMap(({ tempers }) => tempers).map(metalOfTemper)
    expect(metals.length).toBeGreaterThan(5)
    expect(metals.flatMap(metalFaults)).toEqual([])
    expect(metalOfTemper(MATERIALS[0]!.tempers[0]!)).toEqual(HARD_BRASS)
  })

  it('with impossible figures are refused field by field', () => {
    expect(refused({ ...HARD_BRASS, youngsModulusMpa: 0, yieldMpa: -1, elongationPct: 0 })).toEqual([
      'youngsModulusGpa',
      'yieldMpa',
      'elongationPct',
    ])
    expect(refused({ ...HARD_BRASS, hardening: { model: 'ramberg-osgood', n: 1 } })).toEqual(['hardening/n'])
    expect(refused({ ...HARD_BRASS, hardening: { model: 'ramberg-osgood', n: Number.NaN } })).toEqual(['hardening/n'])
    expect(refused({ ...HARD_BRASS, hardening: { model: 'ramberg-osgood', n: 1001 } })).toEqual(['hardening/n'])
    expect(refused({ ...LINEAR, hardening: { model: 'linear', tangentModulusMpa: -1 } })).toEqual([
      'hardening/tangentModulusGpa',
    ])
    expect(refused({ ...HARD_BRASS, hardening: { model: 'ramberg-osgood', n: 1000 } })).toEqual([])
    expect(refused({ ...HARD_BRASS, yieldMpa: 11_030 })).toEqual(['yieldMpa'])
    expect(refused({ ...LINEAR, hardening: { model: 'linear', tangentModulusMpa: 110_300 } })).toEqual([
      'hardening/tangentModulusGpa',
    ])
  })

  it('whose modulus was given in the yield’s unit are refused with a hint', () => {
    const [fault] = metalFaults({ ...IDEAL, youngsModulusMpa: 110.3 })
    expect(fault).toMatchObject({ path: ['yieldMpa'], hint: 'yield in MPa, E in GPa' })
  })

  it('may harden not at all', () => {
    expect(refused(IDEAL)).toEqual([])
    expect(refused({ ...LINEAR, hardening: { model: 'linear', tangentModulusMpa: 0 } })).toEqual([])
  })
})
