import { describe, expect, it } from 'vitest'
import {
  breakAtFreeEnd,
  type CheckedExpansion,
  type CheckedJoint,
  expansionFindings,
} from '../../src/checking/expansion.ts'

const SLIDING: CheckedExpansion = {
  joints: 'sliding',
  held: false,
  layingC: 15,
  coldestC: -10,
  hottestC: 40,
  expansionPerK: 20e-6,
  gapLimitMm: 2,
  expansionJointLimitMm: 10,
  longestLengthMm: 4000.7,
  heldStressHottestMpa: null,
  heldForceHottestN: null,
  bucklingLengthMm: null,
  lengths: [],
}

const joint = (gapColdestMm: number | null, more: Partial<CheckedJoint> = {}): CheckedJoint => ({
  track: 'main',
  rail: 'left',
  stationMm: 1234.4,
  kind: 'joiner',
  gapColdestMm,
  ...more,
})

const found = (
  more: Partial<CheckedExpansion>,
  joints: CheckedJoint[] = [],
  insulatorMm = 0,
  straight: string[] = [],
) => expansionFindings({ ...SLIDING, ...more }, joints, insulatorMm, straight)
const rules = (more: Partial<CheckedExpansion>) => found(more).map(({ rule }) => rule)

it('nothing is said without a climate, or where all is well', () => {
  expect(expansionFindings(null, [joint(99)], 0, ['main'])).toEqual([])
  expect(found({}, [joint(1)], 0, ['main'])).toEqual([])
})

it('a metal whose expansion is not known is noted, and nothing else', () => {
  const findings = found({ expansionPerK: null, layingC: 90 }, [joint(99)])
  expect(findings).toMatchObject([{ rule: 'expansion-unknown', severity: 'note', track: null, measured: null }])
})

describe('rail laid in no weather of the place', () => {
  it('is told of beyond the hottest and the coldest, which themselves pass', () => {
    expect(found({ layingC: 41 })).toMatchObject([
      { rule: 'laid-too-hot', severity: 'warn', measured: 41, limit: 40, unit: '°C', track: null, element: null },
    ])
    expect(found({ layingC: -11 })).toMatchObject([
      { rule: 'laid-too-cold', severity: 'warn', measured: -11, limit: -10, unit: '°C' },
    ])
    for (const layingC of [40, -10, 40 + 1e-10, -10 - 1e-10]) expect(rules({ layingC })).toEqual([])
    expect([rules({ layingC: 40 + 1e-8 }), rules({ layingC: -10 - 1e-8 })]).toEqual([
      ['laid-too-hot'],
      ['laid-too-cold'],
    ])
  })
})

describe('gaps that open too far', () => {
  it('are one finding a track, with the widest and how many', () => {
    const findings = found({}, [
      joint(3),
      joint(5, { rail: 'right', stationMm: 2000 }),
      joint(4),
      joint(2),
      joint(6, { track: 'spur' }),
    ])
    expect(findings).toMatchObject([
      { rule: 'gap-too-wide', severity: 'warn', track: 'main', element: null, measured: 5, limit: 2, unit: 'mm' },
      { track: 'spur', measured: 6 },
    ])
    expect(findings[0]!.message).toBe(
      'At -10 °C the joint of the right rail at 2000 mm opens to 5 mm, the widest of 3 such joints; a joiner can take 2 mm.',
    )
    expect(findings[1]!.message).not.toContain('widest')
  })

  it('equal to the limit passes; of two as wide the first is named', () => {
    expect(found({}, [joint(2), joint(null)])).toEqual([])
    expect(found({}, [joint(2.001)])).toHaveLength(1)
    expect(found({}, [joint(3, { stationMm: 1000 }), joint(3, { stationMm: 1500 })])[0]!.message).toContain('1000 mm')
  })

  it('an insulator fills its own thickness', () => {
    expect(found({}, [joint(3.5, { kind: 'insulated' })], 1.5)).toEqual([])
    expect(found({}, [joint(3.6, { kind: 'insulated' })], 1.5)).toMatchObject([{ measured: expect.closeTo(2.1, 9) }])
    expect(found({}, [joint(3.5)], 1.5)).toMatchObject([{ measured: 3.5 }])
  })

  it('expansion joints have a limit and a finding of their own', () => {
    const joints = [joint(11, { kind: 'expansion' }), joint(9, { kind: 'expansion' }), joint(3)]
    const findings = found({}, joints)
    expect(findings).toMatchObject([
      { measured: 11, limit: 10 },
      { measured: 3, limit: 2 },
    ])
    expect(findings[0]!.message).toContain('; an expansion joint can take 10 mm.')
  })

  it('are cured by shorter pieces, or by expansion joints where the rail is clamped', () => {
    const cure = (joints: 'sliding' | 'clamped', kind: string, longestLengthMm: number | null = 4000.7) =>
      found({ joints, longestLengthMm }, [joint(20, { kind })])[0]!.cure
    expect(cure('sliding', 'joiner')).toContain('Lay pieces of at most 4000 mm,')
    expect(cure('sliding', 'joiner', null)).toContain('Lay shorter pieces, use')
    expect(cure('sliding', 'expansion')).toContain('where shorter pieces meet')
    expect(cure('clamped', 'expansion')).toContain('with lengths of at most 4000 mm between them')
    expect(cure('clamped', 'joiner')).toContain('Put an expansion joint in its place')
  })
})

describe('expansion joints that clamped rail needs', () => {
  const length = (track: string, leftMm: number, rightMm: number, expansionJointsAtMm: number[] | null) => ({
    track,
    leftMm,
    rightMm,
    expansionJointsAtMm,
  })
  const needed = (...lengths: CheckedExpansion['lengths'][number][]) => found({ joints: 'clamped', lengths })

  it('are one finding a track, with the longest length and every place in order', () => {
    const findings = needed(
      length('main', 9000, 9100, [7000, 3000]),
      length('main', 5000, 4900, [1000]),
      length('main', 9999, 9999, []),
      length('spur', 3000, 3000, []),
    )
    expect(findings).toMatchObject([
      { rule: 'expansion-joint-missing', severity: 'warn', track: 'main', measured: 9100, limit: 4000.7, unit: 'mm' },
    ])
    expect(findings[0]!.message).toMatch(/^9100 mm of clamped rail moves as one; .* the expansion of 4001 mm\.$/)
    expect(findings[0]!.cure).toContain('at 1000 mm, 3000 mm, 7000 mm from the start')
  })

  it('of very many the first twelve places are listed', () => {
    const stations = (count: number) => Array.from({ length: count }, (_, n) => 100 * (n + 1))
    expect(needed(length('main', 9000, 9000, stations(12)))[0]!.cure).toMatch(/1100 mm, 1200 mm from the start/)
    expect(needed(length('main', 9000, 9000, stations(14)))[0]!.cure).toMatch(/1200 mm and 2 more places from/)
  })

  it('are not listed where they would be too many to count', () => {
    const [finding] = needed(length('main', 9000, 9000, null), length('main', 8000, 8000, [1000]))
    expect(finding).toMatchObject({ measured: 9000 })
    expect(finding!.cure).toMatch(/^The allowed length is too short to be right/)
  })
})

describe('held rail', () => {
  const held = { held: true, heldStressHottestMpa: 88.4, heldForceHottestN: 1234.6, bucklingLengthMm: 612.9 }

  it('can buckle on every straight track', () => {
    const findings = found(held, [], 0, ['main', 'spur'])
    expect(
      findings.map(({ rule, severity, track, measured, unit }) => [rule, severity, track, measured, unit]),
    ).toEqual([
      ['held-rail-can-buckle', 'warn', 'main', 1234.6, 'N'],
      ['held-rail-can-buckle', 'warn', 'spur', 1234.6, 'N'],
    ])
    expect(findings[0]!.message).toContain('At 40 °C the compression in held rail is 88 MPa, 1235 N in each rail.')
    expect(findings[0]!.cure).toContain('at most 612 mm apart')
  })

  it('cannot where it is not held, or no force presses it', () => {
    expect(found({ ...held, held: false }, [], 0, ['main'])).toEqual([])
    expect(found({ ...held, bucklingLengthMm: null }, [], 0, ['main'])).toEqual([])
  })
})

it('a break that joins nothing is noted where it stands', () => {
  expect(breakAtFreeEnd('main', 1500.4, 'insulated joint')).toMatchObject({
    rule: 'break-joins-nothing',
    severity: 'note',
    track: 'main',
    element: null,
    message: expect.stringContaining('The insulated joint at 1500 mm is at an end'),
    measured: 1500.4,
    unit: 'mm',
  })
})
