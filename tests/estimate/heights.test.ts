import { describe, expect, it } from 'vitest'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { patched } from '../../src/fitting/json-patch.ts'

const RAIL = { section: '250', material: 'brass' }
const STRAIGHT = [{ kind: 'tangent', length: 8000 }]
const CAR = { name: 'car', length: 500, truckCentres: 300, width: 100 }
const LONG = { name: 'long', engine: 'car', cars: [{ car: 'car', count: 3 }] }

function found(plan: unknown, rule: string) {
  const read = readPlan(plan)
  const result = read.ok ? estimate(read.plan, { sent: plan }) : read
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.estimate.findings.filter((finding) => finding.rule === rule)
}

describe('ends that meet by their coordinates', () => {
  const planOf = (elevation: number, more: object = {}) => ({
    rail: RAIL,
    tracks: [
      { name: 'first', elements: STRAIGHT, gradeLine: [{ at: 0, gradePct: 1 }] },
      { name: 'second', elements: STRAIGHT, start: { x: 8000, y: 0, elevation }, ...more },
    ],
  })

  it('are at one height within the gap that joints take up (by hand: 1 % of 8 m is 80 mm)', () => {
    expect(found(planOf(80), 'height-step')).toEqual([])
    expect(found(planOf(82), 'height-step')).toEqual([])
    const [above] = found(planOf(82.1), 'height-step')
    expect(above).toMatchObject({ track: 'second', severity: 'warn', unit: 'mm', limit: 2 })
    expect(above!.measured).toBeCloseTo(2.1, 9)
    const [below] = found(planOf(60), 'height-step')
    expect(below).toMatchObject({ severity: 'stop' })
    expect(below!.message).toContain('20 mm below it')
  })

  it('are brought to one height by either track', () => {
    const graded = {
      gradeLine: [
        { at: 0, elevation: 60 },
        { at: 8000, elevation: 20 },
      ],
    }
    for (const plan of [planOf(60), planOf(60, graded)]) {
      const [finding] = found(plan, 'height-step')
      expect(finding!.remedy).not.toBeNull()
      for (const patch of [finding!.remedy!, ...finding!.otherRemedies])
        expect(found(patched(plan, patch), 'height-step')).toEqual([])
    }
  })

  it('meet whichever way round they were drawn, and not where the plan holds the end there', () => {
    const against = planOf(0)
    const turned = { ...against.tracks[1], start: { x: 16_000, y: 0, heading: 180, elevation: 30 } }
    expect(found({ ...against, tracks: [against.tracks[0], turned] }, 'height-step')).toHaveLength(1)
    const held = { ...against.tracks[0], end: { before: 'second' } }
    const plan = { ...against, tracks: [held, against.tracks[1]] }
    expect(found(plan, 'height-step')).toEqual([])
    expect(found(plan, 'closure')).toHaveLength(1)
  })

  it('do not meet where one lies beside the other, or is lifted', () => {
    const beside = { ...planOf(60).tracks[1], start: { x: 8000, y: 6, elevation: 60 } }
    expect(found({ ...planOf(60), tracks: [planOf(60).tracks[0], beside] }, 'height-step')).toEqual([])
    expect(found(planOf(60, { state: 'lifted' }), 'height-step')).toEqual([])
  })
})

describe('the grade averaged over the longest train', () => {
  /** Short grades of 800 mm at 3 %, with level track between them. */
  const stairs = (levelMm: number) => [
    { at: 0, elevation: 0 },
    { at: 4000, elevation: 0 },
    { at: 4800, elevation: 24 },
    { at: 4800 + levelMm, elevation: 24 },
    { at: 5600 + levelMm, elevation: 48 },
  ]
  const planOf = (levelMm: number, more: object = {}) => ({
    rail: RAIL,
    cars: [CAR],
    trains: [LONG],
    standards: { shortGradeLength: 800 },
    tracks: [{ name: 'hill', elements: STRAIGHT, gradeLine: stairs(levelMm) }],
    ...more,
  })

  it('may be 2 % although each short grade is 3 % (by hand: 1400 mm of 2000 mm at 3 % are 2.1 %)', () => {
    const [finding] = found(planOf(600), 'averaged-grade')
    expect(finding).toMatchObject({ track: 'hill', severity: 'warn', limit: 2, unit: '%' })
    expect(finding!.measured).toBeCloseTo(2.1, 9)
    expect(found(planOf(600), 'maximum-grade')).toEqual([])
    // 2000 mm less 800 mm level are 1200 mm at 3 %: 1.8 %. At 2/3 of them it is 2 %.
    expect(found(planOf(800), 'averaged-grade')).toEqual([])
    expect(found(planOf(2000 - 4000 / 3), 'averaged-grade')).toEqual([])
    expect(found(planOf(2000 - 4000 / 3 - 5), 'averaged-grade')).toHaveLength(1)
  })

  it('is cured by less steep grades', () => {
    const plan = planOf(600)
    const [finding] = found(plan, 'averaged-grade')
    expect(finding!.remedy).not.toBeNull()
    for (const patch of [finding!.remedy!, ...finding!.otherRemedies])
      expect(found(patched(plan, patch), 'averaged-grade')).toEqual([])
  })

  it('is not asked for without short grades or trains, nor where the grade itself is too steep', () => {
    expect(found(planOf(600, { standards: {} }), 'averaged-grade')).toEqual([])
    expect(found(planOf(600, { trains: [] }), 'averaged-grade')).toEqual([])
    const steep = { ...planOf(0).tracks[0]!, gradeLine: [{ at: 0, gradePct: 2.5 }] }
    expect(found(planOf(0, { tracks: [steep] }), 'maximum-grade').length).toBeGreaterThan(0)
    expect(found(planOf(0, { tracks: [steep] }), 'averaged-grade')).toEqual([])
  })

  it('may be as much as a limit of its own there', () => {
    const limits = [{ from: 3000, to: 8000, maximumGradePct: 3 }]
    expect(found(planOf(600, { tracks: [{ ...planOf(600).tracks[0]!, limits }] }), 'averaged-grade')).toEqual([])
  })
})
