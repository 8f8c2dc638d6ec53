import { describe, expect, it } from 'vitest'
import type { PlanFinding } from '../../src/checking/finding.ts'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { type Patch, patched } from '../../src/fitting/json-patch.ts'
import { cases } from '../cases.ts'
import { randomLoop, withSlip } from '../fitting/random-loops.ts'
import { randomFrom } from '../random.ts'
import { BRASS_250 } from './plans.ts'

/* Plans as they are sent: lengths as numbers of millimetres or texts with their unit. */

const straight = (length: number | string) => ({ kind: 'tangent', length })
const arc = (radius: number | string, angle: number, turn = 'left') => ({ kind: 'arc', radius, angle, turn })
const curve = (diameter: number | string, angle: number, turn = 'left') => ({ kind: 'arc', diameter, angle, turn })

function sent(elements: readonly unknown[], track: object = {}, plan: object = {}): object {
  return { rail: BRASS_250, tracks: [{ name: 'main', ...track, elements }], ...plan }
}

function findingsOf(plan: unknown): PlanFinding[] {
  const read = readPlan(plan)
  const result = read.ok ? estimate(read.plan, { sent: plan }) : read
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return 'estimate' in result ? result.estimate.findings : []
}

const remedyOf = (plan: unknown, rule: string, which = 0) =>
  findingsOf(plan).filter((finding) => finding.rule === rule)[which]!.remedy

const replace = (path: string, value: unknown) => ({ op: 'replace', path: `/tracks/0/elements/${path}`, value })

describe('a patch (RFC 6902)', () => {
  const value = { a: [1, 2, 3], 'b/c': { '~': 'x' } }

  it.each([
    ['replace', '/a/1', 9, { ...value, a: [1, 9, 3] }],
    ['add', '/a/1', 9, { ...value, a: [1, 9, 2, 3] }],
    ['add', '/a/-', 9, { ...value, a: [1, 2, 3, 9] }],
    ['remove', '/a/0', undefined, { ...value, a: [2, 3] }],
    ['replace', '/b~1c/~0', 'y', { ...value, 'b/c': { '~': 'y' } }],
    ['add', '/d', 1, { ...value, d: 1 }],
    ['remove', '/b~1c', undefined, { a: [1, 2, 3] }],
  ] as const)('%s %s', (op, path, given, expected) => {
    expect(patched(value, [{ op, path, value: given }] as Patch)).toEqual(expected)
    expect(value.a).toEqual([1, 2, 3])
  })

  it('that leads nowhere gives null', () => {
    for (const path of ['/x', '/a/3', '/a/01', '/a/b', '/a/0/c', ''])
      expect(patched(value, [{ op: 'replace', path, value: 1 }])).toBeNull()
    expect(patched(value, [{ op: 'remove', path: '/a/7' }])).toBeNull()
    expect(patched(value, [{ op: 'add', path: '/constructor/x', value: 1 }])).toBeNull()
  })
})

describe('remedies (by hand)', () => {
  it('a wrong turn is put right first where the loop has another slip as well', () => {
    // A kidney of 40 × 22 ft: 200° + 40° + 200° to the left are 80° over a turn.
    const kidney = (turn: string) => [
      straight('18 ft'),
      curve('22 ft', 200),
      straight('2 ft'),
      curve('20 ft', 40, turn),
      straight('2 ft'),
      curve('22 ft', 200),
    ]
    const wrong = findingsOf(sent(kidney('left'), { closed: true })).filter(({ rule }) => rule === 'closure')
    expect(wrong.map(({ unit }) => unit)).toEqual(['mm', '°'])
    for (const { cure } of wrong) expect(cure).toContain('Turn element 4 to the right')
    expect(wrong[1]).toMatchObject({ measured: expect.closeTo(80, 6), remedy: [replace('3/turn', 'right')] })
    const [left] = findingsOf(sent(kidney('right'), { closed: true }))
    expect(left).toMatchObject({ rule: 'closure', unit: 'mm', remedy: [replace('0/length', '18 ft 1-31/64 in')] })
  })

  it('a loop short of one degree is closed by that degree', () => {
    const plan = sent([straight(3000), arc(1500, 179), straight(3000), arc(1500, 180)], { closed: true })
    expect(remedyOf(plan, 'closure')).toEqual([replace('1/angle', 180)])
  })

  it('in feet and inches as they were written, and the diameter where that was given', () => {
    const oval = sent([straight('10 ft'), curve('14 ft', 180), straight('10 ft 3 in'), curve('14 ft', 180)], {
      closed: true,
    })
    const closure = findingsOf(oval).find(({ rule }) => rule === 'closure')!
    expect(closure.remedy).toEqual([replace('2/length', '10 ft')])
    expect(closure.otherRemedies).toEqual([[replace('0/length', '10 ft 3 in')]])
    const tight = sent([straight('6 ft'), curve('14 ft', 40)], {}, { standards: { minimumRadius: '7 ft 6 in' } })
    expect(remedyOf(tight, 'minimum-radius')).toEqual([replace('1/diameter', '15 ft')])
  })

  it('as a degree over the same chord, rounded to the larger radius', () => {
    const byDegree = { kind: 'arc', degree: 30, chord: '1 m', angle: 40, turn: 'left' }
    const tight = sent([straight('6 ft'), byDegree], {}, { standards: { minimumRadius: 2000 } })
    // Closed form: 2·asin(500/2000) = 28.955°.
    expect(remedyOf(tight, 'minimum-radius')).toEqual([replace('1/degree', 28.9)])
  })

  it('a rounded radius is never under the limit', () => {
    const standards = { minimumRadius: 2133.7 }
    expect(remedyOf(sent([arc(2000, 40)], {}, { standards }), 'minimum-radius')).toEqual([replace('0/radius', 2134)])
    // 2133.7 mm is 84.004 in: the next eighth.
    expect(remedyOf(sent([arc('80 in', 40)], {}, { standards }), 'minimum-radius')).toEqual([
      replace('0/radius', '84-1/8 in'),
    ])
    expect(remedyOf(sent([arc('1.9 m', 40)], {}, { standards }), 'minimum-radius')).toEqual([
      replace('0/radius', '2.134 m'),
    ])
  })

  it('on a loop both ends are widened, because one alone would open it', () => {
    const oval = [straight(3000), arc(500, 180), straight(3000), arc(500, 180)]
    expect(remedyOf(sent(oval, { closed: true }, { standards: { minimumRadius: 1500 } }), 'minimum-radius')).toEqual([
      replace('1/radius', 1500),
      replace('3/radius', 1500),
    ])
  })

  it('a straight between reverse curves is made long enough, or put in', () => {
    const standards = { longestCar: 700, minimumRadius: 600 }
    const short = sent([arc(3000, 30), straight('0.3 m'), arc(3000, 30, 'right')], {}, { standards })
    expect(remedyOf(short, 'reverse-curve')).toEqual([replace('1/length', '0.7 m')])
    const none = sent([arc(3000, 30), arc(3000, 30, 'right')], {}, { standards })
    expect(remedyOf(none, 'reverse-curve')).toEqual([
      { op: 'add', path: '/tracks/0/elements/1', value: { kind: 'tangent', length: 700 } },
    ])
  })

  it('an easement takes the place of a jump, and the arc gives up its angle', () => {
    // L/2R = 600/4000 rad = 8.59°
    const plan = sent([straight(2000), arc(2000, 40)], {}, { standards: { longestCar: 600 } })
    expect(remedyOf(plan, 'curvature-jump')).toEqual([
      replace('1/angle', 31.41),
      { op: 'add', path: '/tracks/0/elements/1', value: { kind: 'easement', length: 600 } },
    ])
  })

  it('a grade is brought to the limit, in the unit of its point', () => {
    const gradeLine = [
      { at: 0, elevation: 0 },
      { at: 2000, elevation: '2 in' },
    ]
    // 2 % of 2000 mm is 40 mm: 1-9/16 in, and the eighth below is 1-1/2.
    expect(remedyOf(sent([straight(3000)], { gradeLine }), 'maximum-grade')).toEqual([
      { op: 'replace', path: '/tracks/0/gradeLine/1/elevation', value: '1-1/2 in' },
    ])
  })

  it('a chord that is too long is left out', () => {
    const plan = sent([arc(1500, 15)])
    expect(remedyOf(plan, 'chord-too-long')).toEqual([{ op: 'add', path: '/chords', value: [300] }])
    expect(remedyOf({ ...plan, chords: ['12 in', 500] }, 'chord-too-long')).toEqual([
      { op: 'remove', path: '/chords/1' },
    ])
  })

  it('there is none where nothing can be done to the plan as it stands', () => {
    expect(remedyOf(sent([straight(1000)]), 'not-checked')).toBeNull()
    expect(remedyOf(sent([straight(500), arc(1200, 178)], { closed: true }), 'closure')).toBeNull()
  })
})

describe('figures in doubt', () => {
  it('a diameter under 2.4 m: the radius may have been meant; asked once for each diameter', () => {
    const plan = sent([curve(1500, 30), straight(500), curve(1500, 30), curve(2400, 30)])
    const found = findingsOf(plan).filter(({ rule }) => rule === 'diameter-or-radius')
    expect(found).toMatchObject([{ severity: 'note', element: 0, measured: 750, limit: 1200 }])
    expect(found[0]!.remedy).toEqual([
      { op: 'remove', path: '/tracks/0/elements/0/diameter' },
      { op: 'add', path: '/tracks/0/elements/0/radius', value: 1500 },
      { op: 'remove', path: '/tracks/0/elements/2/diameter' },
      { op: 'add', path: '/tracks/0/elements/2/radius', value: 1500 },
    ])
    expect(findingsOf(sent([arc(750, 30)])).filter(({ rule }) => rule === 'diameter-or-radius')).toEqual([])
  })

  it('a bare 6 among metres is probably feet', () => {
    const doubted = (...lengths: (number | string)[]) =>
      findingsOf(sent(lengths.map(straight))).filter(({ rule }) => rule === 'unit-in-doubt')
    expect(doubted(6, '8 ft')).toMatchObject([{ severity: 'note', element: 0, remedy: [replace('0/length', '6 ft')] }])
    expect(doubted(6, '2 m')[0]!.remedy).toEqual([replace('0/length', '6 m')])
    expect(doubted('6 mm', '8 ft')).toEqual([])
    expect(doubted(50, '8 ft')).toEqual([])
    expect(doubted(6, 100)).toEqual([])
  })

  it('8 ft 13 in is 9 ft 1 in, and that is said', () => {
    const found = findingsOf(sent([straight('8 ft 13 in'), straight('8 ft 11-7/8 in')]))
    expect(found.filter(({ rule }) => rule === 'inches-over-a-foot')).toMatchObject([
      { element: 0, remedy: [replace('0/length', '9 ft 1 in')] },
    ])
  })

  it('400° between two straights on the level is probably 40°; a helix that climbs is none', () => {
    const elements = [straight(1000), arc(1500, 400), straight(1000)]
    const doubted = (plan: object) => findingsOf(plan).filter(({ rule }) => rule === 'more-than-a-turn')
    expect(doubted(sent(elements))).toMatchObject([{ element: 1, remedy: [replace('1/angle', 40)] }])
    const gradeLine = [
      { at: 0, elevation: 0 },
      { at: 11000, elevation: 200 },
    ]
    expect(doubted(sent(elements, { gradeLine }))).toEqual([])
    expect(doubted(sent([arc(1500, 400)]))).toEqual([])
  })

  it('they are found in what was sent: without it there are none, and no remedies', () => {
    const read = readPlan(sent([straight(6), straight('8 ft'), arc(500, 40)]))
    const result = read.ok ? estimate(read.plan) : read
    const findings = 'estimate' in result && result.ok ? result.estimate.findings : []
    expect(findings.map(({ rule }) => rule)).toContain('minimum-radius')
    expect(findings.map(({ rule }) => rule)).not.toContain('unit-in-doubt')
    expect(findings.every(({ remedy, otherRemedies }) => remedy === null && otherRemedies.length === 0)).toBe(true)
  })
})

describe('every remedy offered for a random plan', () => {
  const RANK = { stop: 2, warn: 1, note: 0 }

  /** How many findings are at least as grave, by rule. */
  const counts = (findings: readonly PlanFinding[], least: number) => {
    const counted = new Map<string, number>()
    for (const { rule, severity } of findings)
      if (RANK[severity] >= least) counted.set(rule, (counted.get(rule) ?? 0) + 1)
    return counted
  }

  it('can be carried out: its finding is gone, and no rule of a higher severity has more', () => {
    const random = randomFrom(99)
    let tried = 0
    for (let each = 0; each < cases(48); each++) {
      const kind = (['angle', 'turn', 'length'] as const)[each % 3]!
      const { elements } = withSlip(randomLoop(random), kind, random)
      const standards = {
        longestCar: 300 + Math.floor(random() * 500),
        minimumRadius: 1000 + Math.floor(random() * 900),
      }
      const plan = sent(elements, { closed: each % 4 > 0 }, { standards })
      const before = findingsOf(plan)
      for (const finding of before)
        for (const remedy of [...(finding.remedy ? [finding.remedy] : []), ...finding.otherRemedies.slice(0, 1)]) {
          tried++
          const after = findingsOf(patched(plan, remedy))
          const rank = RANK[finding.severity]
          const [then, now] = [counts(before, rank), counts(after, rank)]
          expect(now.get(finding.rule) ?? 0).toBeLessThan(then.get(finding.rule)!)
          const graver = [counts(before, rank + 1), counts(after, rank + 1)] as const
          for (const [rule, count] of graver[1]) expect(count).toBeLessThanOrEqual(graver[0].get(rule) ?? 0)
        }
    }
    expect(tried).toBeGreaterThan(cases(48))
  }, 300_000)

  it('has no figure longer than a person would write', () => {
    const random = randomFrom(5)
    for (let each = 0; each < cases(12); each++) {
      const { elements } = withSlip(randomLoop(random), 'length', random)
      for (const { remedy } of findingsOf(sent(elements, { closed: true })))
        for (const { value } of remedy ?? [])
          if (typeof value === 'number') expect(String(value).length).toBeLessThanOrEqual(9)
    }
  })
})
