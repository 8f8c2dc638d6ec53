import { expect, test } from 'vitest'
import { FINDINGS } from '../../src/api/finding-catalogue.ts'
import { appWithoutStore, asking } from './asking.ts'

const { ask } = asking(appWithoutStore())

test('every rule of findings is listed, with its source and the fields of a plan that set its limit', async () => {
  const { items } = JSON.parse((await ask('/v1/rules')).text)
  expect(items.map(({ rule }: { rule: string }) => rule)).toEqual(Object.keys(FINDINGS))
  for (const { source, when } of items) expect([source, when].every((told: string) => told.length > 5)).toBe(true)
  const ruleNamed = (name: string) => items.find(({ rule }: { rule: string }) => rule === name)
  expect(ruleNamed('maximum-grade')).toMatchObject({
    severities: ['warn'],
    source: 'common practice, no source',
    limits: [
      { field: 'standards.maximumGradePct', unlessGiven: '2 %: a main line, common practice' },
      { field: 'standards.shortGradeLength', unlessGiven: 'no grade counts as short' },
      { field: 'standards.maximumShortGradePct', unlessGiven: '3 %: common practice for short grades' },
      { field: 'tracks[].limits[].maximumGradePct', unlessGiven: null },
    ],
  })
  // NEM 113 names no field: its 60 gauges are fixed.
  expect(ruleNamed('curvature-jump')).toMatchObject({ source: 'NEM 113: 60 gauges', limits: [] })
})
