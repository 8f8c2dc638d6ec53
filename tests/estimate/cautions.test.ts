import { describe, expect, it } from 'vitest'
import { cautionsFor } from '../../src/estimate/cautions.ts'
import { oneCurve } from '../../src/estimate/questions/one-curve.ts'
import { arc, estimateOf, planOf, straight } from './plans.ts'

/** 193.7 g/m in half-hard brass: 22.7076 mm² times 8530 kg/m³, derived by an independent program. */
const ASCE_SECTION = {
  height: 8.43,
  footWidth: 8.43,
  footDepth: 0.9966572812,
  webThickness: 0.922242,
  headWidth: 4.215,
  headDepth: 2.2626813952,
}

const brass = { metal: { id: 'brass' }, bender: { roller: null }, power: null } as never
const about = (cautions: readonly string[]) => cautions.map((caution) => caution.split(':')[0])

describe('lifting', () => {
  // common practice, no source: one person carries up to 20 kg
  it('is for two above 20 kg of rail, and not at 20 kg', () => {
    expect(about(cautionsFor(brass, 20))).not.toContain('Lifting')
    expect(about(cautionsFor(brass, 20.001))).toContain('Lifting')
    expect(about(cautionsFor(brass, null))).not.toContain('Lifting')
  })

  it('goes by the weight of both rails of all track', () => {
    const of = (lengthMm: number) =>
      estimateOf(planOf([straight(lengthMm)], {}, { rail: { section: ASCE_SECTION, material: 'brass' } })).cautions
    // by hand: 20 kg / 0.1937 kg/m is 103.25 m of rail, 51.6 m of track
    expect(about(of(51_500))).not.toContain('Lifting')
    const [lifting] = of(51_800).filter((caution) => caution.startsWith('Lifting'))
    expect(lifting).toContain('20 kg of rail')
    expect(lifting).toContain('two people')
  })
})

describe('springing in', () => {
  const rail = { section: '332', material: 'brass', temper: 'half-hard' } as const
  const ofPlan = (radiusMm: number) => about(estimateOf(planOf([arc(radiusMm, 60)], {}, { rail })).cautions)
  const ofCurve = (radius: number) => {
    const answer = oneCurve({ radius, rail })
    return answer.ok && about(answer.curve.cautions)
  }

  it('is cautioned against where a rail is sprung in, before twisting', () => {
    for (const cautions of [ofPlan(2743), ofCurve(2743)]) expect(cautions).toContain('Springing in')
    for (const cautions of [ofPlan(900), ofCurve(900)]) expect(cautions).not.toContain('Springing in')
    expect(about(cautionsFor(brass, null, false, true)).slice(1, 4)).toEqual(['Bending', 'Springing in', 'Twist'])
  })

  it('of ready-made curves is none', () => {
    const panels = [{ radius: 2743, angle: 30, onHand: 2 }]
    const plan = planOf([arc(2743, 60)], {}, { rail, supplies: { panels } })
    expect(about(estimateOf(plan).cautions)).not.toContain('Springing in')
  })
})

describe('what else is cautioned against', () => {
  const usual = [
    'Cutting',
    'Bending',
    'Twist',
    'Ground',
    'Mains power near water is work for a licensed electrician. Local codes and the makers’ instructions take precedence over anything printed here.',
  ]

  it('is the work every plan asks for', () => {
    expect(about(cautionsFor(brass, null))).toEqual(usual)
  })

  it('is springiness of hard metals, the rollers, held rail and current where a plan has them', () => {
    const bending = (id: string) =>
      cautionsFor({ metal: { id }, bender: { roller: null }, power: null } as never, null).find((caution) =>
        caution.startsWith('Bending'),
      )
    for (const id of ['stainless', 'steel']) expect(bending(id)).toContain('whips')
    for (const id of ['brass', 'aluminium', 'nickel-silver']) expect(bending(id)).not.toContain('whips')
    const all = cautionsFor({ metal: { id: 'brass' }, bender: { roller: {} }, power: {} } as never, 30, true)
    expect(about(all)).toEqual([
      ...usual.slice(0, 3),
      'Rollers',
      'Heat',
      'Lifting',
      'Ground',
      'Current in the rails',
      usual[4],
    ])
  })
})
