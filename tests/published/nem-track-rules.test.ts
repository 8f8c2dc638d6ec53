import { describe, expect, it } from 'vitest'
import { USUAL } from '../../src/plan/usual.ts'
import { arc, estimateOf, planOf, straight } from '../estimate/plans.ts'

/** MOROP NEM 010 (2011): 45 mm is one of the standard gauges. Published. */
it('NEM 010: the gauge assumed is a standard one', () => {
  expect([16.5, 32, 45, 64, 89, 127, 184]).toContain(USUAL.gauge)
})

/** MOROP NEM 113: no transition is needed above a radius of 60 gauges, 2700 mm at 45 mm. Published. */
describe('NEM 113: transition', () => {
  const jumps = (radiusMm: number, gaugeMm: number) =>
    estimateOf(planOf([straight(900), arc(radiusMm, 30)], {}, { gauge: gaugeMm })).findings.filter(
      ({ rule }) => rule === 'curvature-jump',
    ).length

  it.each([
    [45, 2700],
    [32, 1920],
    [89, 5340],
  ])('at %d mm gauge it is asked for below %d mm', (gaugeMm, limitMm) => {
    expect(jumps(limitMm, gaugeMm)).toBe(0)
    expect(jumps(limitMm - 1, gaugeMm)).toBe(1)
  })
})

/** NEM 111 §3.2 and NEM 113: a straight longer than the longest vehicle between reverse curves. Published. */
it('NEM 111, NEM 113: straight between reverse curves as long as the longest vehicle', () => {
  const findings = (straightMm: number) =>
    estimateOf(
      planOf([arc(5000, 20), straight(straightMm), arc(5000, 20, 'right')], {}, { standards: { longestCar: 711.2 } }),
    ).findings.filter(({ rule }) => rule === 'reverse-curve').length
  expect([findings(711.2), findings(711), findings(0.1)]).toEqual([0, 1, 1])
})

/** NMRA Layout Design SIG, radius ÷ longest car: 2 may track, 2.5 uniform stock, 3 reliable. Published. */
it('NMRA Layout Design SIG: reliable running from three car lengths of radius', () => {
  const stops = (carLengths: number) =>
    estimateOf(planOf([arc(carLengths * 700, 20)], {}, { standards: { longestCar: 700 } })).findings.filter(
      ({ severity }) => severity === 'stop',
    ).length
  expect([2, 2.5, 2.99, 3, 3.5].map(stops)).toEqual([1, 1, 1, 0, 0])
})
