import { describe, expect, it } from 'vitest'
import { midOrdinateMm } from '../../../src/bending/ordinates.ts'
import { checked } from './curves.ts'

const MEASURED = [0, 3, 9, 17, 21, 19, 22, 16, 23, 23, 15, 10, 2, 0]
const PROPOSED = [0, 4, 10, 16, 20, 20, 20, 20, 20, 20, 16, 10, 4, 0]

describe('against ordinates that were proposed', () => {
  it('too little ordinate: the end turns and moves, by how much is said, and the table is given all the same', () => {
    // by hand: error 1 at station 2 of 6, so half throws 0 0 0 1 2 3 and throws twice that; 2·1/250 rad at the end
    const check = checked({ chordMm: 500, readingsMm: [0, 5, 11, 10, 5, 0], proposedMm: [0, 5, 10, 10, 5, 0] })
    expect(check.stations.map(({ throwMm }) => throwMm)).toEqual([0, 0, 0, 2, 4, 6])
    expect(check.stations.map(({ runningSumMm }) => runningSumMm)).toEqual([0, 0, 1, 1, 1, 1])
    expect(check.findings).toMatchObject([
      { rule: 'end-direction', severity: 'warn', stations: [5], measured: 1, limit: 0, unit: 'mm' },
      { rule: 'end-position', severity: 'warn', stations: [5], measured: 6, limit: 0, unit: 'mm' },
    ])
    expect(check.findings[0]!.message).toContain('0.46°')
    expect(check.largestThrowMm).toBe(6)
  })

  it('a direction kept but the place not: ordinate set one station late', () => {
    // by hand: errors 1, −1 at stations 1 and 2: one half throw, kept to the end
    const check = checked({ chordMm: 500, readingsMm: [0, 6, 9, 5, 0], proposedMm: [0, 5, 10, 5, 0] })
    expect(check.stations.map(({ throwMm }) => throwMm)).toEqual([0, 0, 2, 2, 2])
    expect(check.findings).toMatchObject([{ rule: 'end-position', measured: 2 }])
    expect(check.findings[0]!.cure).toContain('one station earlier')
    // The cure followed: 1 mm taken from station 2 and set at station 1.
    const cured = checked({ chordMm: 500, readingsMm: [0, 6, 9, 5, 0], proposedMm: [0, 6, 9, 5, 0] })
    expect(cured.findings).toEqual([])
  })

  it('fixed stations that it moves, and throws over the maximum, are named; the table stays as it is', () => {
    const { findings, stations } = checked({
      chordMm: 500,
      readingsMm: MEASURED,
      proposedMm: PROPOSED,
      fixed: [12, 8, 0],
      maximumThrowMm: 10,
    })
    expect(findings).toMatchObject([
      { rule: 'fixed-station-moves', severity: 'stop', stations: [8], measured: 14, limit: 0 },
      { rule: 'maximum-throw', severity: 'stop', stations: [8, 9], measured: 14, limit: 10 },
    ])
    expect(stations[8]!.throwMm).toBe(-14)
  })

  it('outward is the other side for a curve read as negative throughout', () => {
    const negative = (list: readonly number[]) => list.map((v) => 0 - v)
    const { stations } = checked({ chordMm: 500, readingsMm: negative(MEASURED), proposedMm: negative(PROPOSED) })
    expect(stations.map(({ throwMm }) => throwMm)).toEqual([0, 0, -2, -6, -8, -8, -10, -8, -14, -14, -8, -4, 0, 0])
  })

  it('a gap leaves the targets and verdicts, and no throws', () => {
    const check = checked({ chordMm: 500, readingsMm: [0, 4, null, 16, 0], proposedMm: [0, 4, 10, 12, 4] })
    expect(check.findings).toMatchObject([{ rule: 'missing-reading', severity: 'stop', stations: [2] }])
    expect(check.stations.map(({ throwMm }) => throwMm)).toEqual([null, null, null, null, null])
    expect(check.stations.map(({ verdict }) => verdict)).toEqual(['good', 'good', null, 'ease', 'bend-more'])
    expect(check.stations[2]).toMatchObject({
      ordinateMm: null,
      radiusMm: null,
      targetOrdinateMm: 10,
      deviationMm: null,
    })
    expect(check.turnedDeg).toBeNull()
  })
})

describe('without a proposal', () => {
  it('a gap leaves nothing to compare with', () => {
    const check = checked({ chordMm: 500, readingsMm: [0, null, 20, 20, null, 0] })
    expect(check.findings).toMatchObject([{ rule: 'missing-reading', stations: [1, 4] }])
    expect(check.stations.every(({ targetOrdinateMm, verdict }) => targetOrdinateMm === null && verdict === null)).toBe(
      true,
    )
    expect(check.proposal).toBeNull()
  })

  it('another spacing leaves the targets, and no throws', () => {
    const check = checked({ chordMm: 500, spacingMm: 300, readingsMm: PROPOSED })
    expect(check.findings).toMatchObject([{ rule: 'spacing-not-half-chord', measured: 300, limit: 250, unit: 'mm' }])
    expect(check.stations.every(({ throwMm, runningSumMm }) => throwMm === null && runningSumMm === null)).toBe(true)
    for (const [n, { targetOrdinateMm, atMm }] of check.stations.entries()) {
      expect(targetOrdinateMm).toBeCloseTo(PROPOSED[n]!, 6)
      expect(atMm).toBe(300 * n)
    }
    expect(check.largestThrowMm).toBeNull()
  })

  it('a chord and a spacing given in inches are half of each other', () => {
    expect(checked({ chordMm: 20 * 25.4, spacingMm: 10 * 25.4, readingsMm: PROPOSED }).findings).toEqual([])
  })
})

describe('on the bench', () => {
  const target = midOrdinateMm(2400, 500)!

  it('measures every station against the radius, at any spacing, and throws nothing', () => {
    const check = checked({ chordMm: 500, spacingMm: 90, radiusMm: 2400, readingsMm: [target, 10, 16, null] })
    expect(check.stations.map(({ verdict }) => verdict)).toEqual(['good', 'bend-more', 'ease', null])
    expect(check.stations.map(({ targetOrdinateMm }) => targetOrdinateMm)).toEqual([target, target, target, target])
    expect(check.stations.map(({ throwMm }) => throwMm)).toEqual([null, null, null, null])
    expect(check.stations[0]!.radiusMm).toBeCloseTo(2400, 9)
    expect(check.findings).toMatchObject([{ rule: 'missing-reading', severity: 'warn', stations: [3] }])
    expect(check.proposal).toBeNull()
  })

  it('says what plays no part in it', () => {
    const check = checked({ chordMm: 500, radiusMm: 2400, readingsMm: [13, 13], proposedMm: [1, 2], fixed: [0] })
    expect(check.findings).toMatchObject([{ rule: 'not-used', severity: 'note' }])
    expect(check.findings[0]!.message).toMatch(/proposed, fixed/)
    expect(check.stations[0]!.targetOrdinateMm).toBe(target)
  })

  it('says where the rail bends the other way, but for less than can be read', () => {
    const check = checked({ chordMm: 500, radiusMm: 2400, readingsMm: [-13, 13, -0.4] })
    expect(check.findings).toMatchObject([{ rule: 'bends-other-way', severity: 'note', stations: [0] }])
  })

  it('a chord as long as the circle is wide shows half of it', () => {
    expect(checked({ chordMm: 500, radiusMm: 250, readingsMm: [250] }).stations[0]).toMatchObject({
      targetOrdinateMm: 250,
      radiusMm: 250,
      verdict: 'good',
    })
  })
})

describe('assumptions', () => {
  it('are the defaults used, each with its place', () => {
    expect(checked({ chordMm: 381, readingsMm: [0] }).assumptions.map(({ field, value }) => [field, value])).toEqual([
      ['/spacing', '190.5 mm'],
      ['/resolution', '0.5 mm'],
      ['/tolerancePct', '5 %'],
    ])
    expect(
      checked({ chordMm: 381, readingsMm: [0], spacingMm: 100, resolutionMm: 1, tolerancePct: 2 }).assumptions,
    ).toEqual([])
  })
})

describe('a search that was ended', () => {
  // 200 readings that make no curve: a rule of their own, always the same.
  const wild = Array.from({ length: 200 }, (_, n) => 90 * Math.sin(n * n) + 40 * Math.sin(n / 9))

  it('says so, proposes the best it found, and keeps the ends', () => {
    const { findings, stations, proposal } = checked({ chordMm: 600, readingsMm: wild, maximumThrowMm: 1 })
    expect(findings.map(({ rule }) => rule)).toEqual(expect.arrayContaining(['search-ended', 'maximum-throw']))
    expect(findings.find(({ rule }) => rule === 'maximum-throw')!.message).toContain('found')
    expect(proposal).not.toBeNull()
    expect(stations[199]!.throwMm).toBe(0)
  })

  it('is not said of an even curve of as many stations', () => {
    const even = Array.from({ length: 200 }, (_, n) => 18 * Math.max(0, Math.min(1, (n - 1) / 40, (197 - n) / 50)))
    const { findings, largestThrowMm } = checked({ chordMm: 600, readingsMm: even })
    expect(findings).toEqual([])
    expect(largestThrowMm).toBeLessThan(1e-6)
  })
})
