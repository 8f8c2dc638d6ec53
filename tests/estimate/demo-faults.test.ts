import { describe, expect, it } from 'vitest'
import type { PlanFinding } from '../../src/checking/finding.ts'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { type Patch, patched } from '../../src/fitting/json-patch.ts'
import { DEMO_PLAN } from '../../src/page/pages/demo-plan.ts'

/* Faults put into the demo plan by hand: each is found once, where it is, and its remedy clears it. */

const [, LINE, SIDING, , LOOP] = DEMO_PLAN.tracks.map((_, index) => `/tracks/${index}`)

function estimateOf(plan: unknown) {
  const read = readPlan(plan)
  const result = read.ok ? estimate(read.plan, { sent: plan }) : read
  if (!result.ok || !('estimate' in result)) throw new Error(JSON.stringify(result))
  return result.estimate
}

const findingsOf = (plan: unknown): PlanFinding[] => [...estimateOf(plan).findings]

const grave = (plan: unknown) => findingsOf(plan).filter(({ severity }) => severity !== 'note')
const replace = (path: string, value: string | number): Patch => [{ op: 'replace', path, value }]

/** The plan with the fault, its only grave finding, and what is left once its remedy is applied. */
function faulty(...fault: Patch[]) {
  const plan = patched(DEMO_PLAN, fault.flat())
  const found = grave(plan)
  expect(found).toHaveLength(1)
  const { remedy } = found[0]!
  expect(remedy).not.toBeNull()
  expect(grave(patched(plan, remedy!))).toEqual([])
  return { ...found[0]!, remedy: remedy! }
}

describe('the demo plan', () => {
  it('can be built as it is: nothing found is worse than a note', () => {
    expect(findingsOf(DEMO_PLAN).map(({ severity }) => severity)).toEqual(['note', 'note', 'note'])
  })

  it('with a turnout of the wrong hand: the siding does not meet its leg, and the other hand does', () => {
    const { rule, track, severity, remedy } = faulty(replace(`${LINE}/elements/3/type`, 'six-right'))
    expect([rule, track, severity]).toEqual(['leg-not-met', 'siding', 'stop'])
    expect(remedy).toEqual(replace(`${LINE}/elements/3/type`, 'six-left'))
  })

  it('where no kind of the other hand is listed, a kind that has one use is turned over', () => {
    // A length of its own keeps it from being the same as one of the others.
    const sized = { id: 'own', hand: 'right', number: 6, length: 806.25, price: '70.00' }
    const { remedy } = faulty(
      [{ op: 'add', path: '/turnoutTypes/-', value: sized }],
      replace(`${LINE}/elements/3/type`, 'own'),
    )
    expect(remedy).toEqual(replace('/turnoutTypes/3/hand', 'left'))
  })

  it('and one that others use gets a kind beside it', () => {
    const others = [{ op: 'remove' as const, path: '/turnoutTypes/0' }]
    const { remedy } = faulty(others, replace(`${LINE}/elements/3/type`, 'six-right'))
    expect(remedy).toEqual([
      { op: 'add', path: '/turnoutTypes/-', value: { id: 'six-right, left', hand: 'left', number: 6, price: '68.00' } },
      { op: 'replace', path: `${LINE}/elements/3/type`, value: 'six-right, left' },
    ])
  })

  it('with a straight too long: the siding does not meet its leg', () => {
    const { rule, track, remedy } = faulty(replace(`${SIDING}/elements/2/length`, '3 ft 4 in'))
    expect([rule, track]).toEqual(['leg-not-met', 'siding'])
    for (const { path } of remedy) expect(path).toMatch(/^\/tracks\/2\/elements\/\d\/length$/)
  })

  it('without insulators: the reverse loop makes a short circuit', () => {
    const { rule, severity, remedy } = faulty([{ op: 'remove', path: `${LOOP}/breaks` }])
    expect([rule, severity]).toEqual(['polarity-loop', 'stop'])
    expect(remedy.filter(({ path }) => path.includes('/breaks/'))).toHaveLength(2)
  })

  it('with an insulator at one end only', () => {
    const { rule, measured } = faulty([{ op: 'remove', path: `${LOOP}/breaks/1` }])
    expect([rule, measured]).toEqual(['polarity-loop', 1])
  })

  it('with a train that the siding does not hold', () => {
    const { rule, track, remedy } = faulty(replace('/trains/0/cars/0/count', 7))
    expect([rule, track]).toEqual(['fouling', 'siding'])
    expect(remedy.map(({ path }) => path)).toEqual([`${SIDING}/elements/2/length`, `${LINE}/elements/4/length`])
  })

  it('with an S from a curve through the turnout behind it', () => {
    // Without cars it is the straight between the curves that counts.
    const { rule, track, element, remedy } = faulty(
      [
        { op: 'remove', path: '/trains' },
        { op: 'remove', path: '/cars' },
      ],
      replace(`${LINE}/elements/7/length`, '3 in'),
    )
    expect([rule, track, element]).toEqual(['reverse-curve', 'orchard line', 8])
    expect(remedy).toEqual(replace(`${LINE}/elements/7/length`, '12 in'))
  })

  it('with a rock that reaches too near: another radius for the curve, or the straights beside it', () => {
    const { rule, track, element, measured, remedy } = faulty(
      replace('/obstacles/1/polygon/3/x', '30 ft'),
      replace('/obstacles/1/polygon/3/y', '1 ft 11-3/4 in'),
    )
    expect([rule, track, element]).toEqual(['obstacle', 'orchard line', 6])
    expect(measured).toBeGreaterThan(0)
    for (const { path } of remedy) expect(path).toMatch(/^\/tracks\/1\//)
  })

  it('with the mill line too high: the new line is led over it on ramps, the old one stays', () => {
    const { rule, track, element, remedy, cure } = faulty(replace('/tracks/5/start/elevation', '-9-1/2 in'))
    expect([rule, track, element]).toEqual(['over-crossing', 'orchard line', 6])
    expect(cure).toMatch(/^Raise orchard line there by /)
    for (const { path } of remedy) expect(path).toMatch(/^\/tracks\/1\/gradeLine/)
  })

  it('with a second siding too near beside the straight: the new one is moved away', () => {
    const track = {
      name: 'loading track',
      start: { x: '12 ft', y: '-4 in' },
      elements: [{ kind: 'tangent', length: '3 ft' }],
    }
    const { rule, remedy } = faulty([{ op: 'add', path: '/tracks/-', value: track }])
    expect(rule).toBe('track-spacing')
    expect(remedy).toEqual([{ op: 'replace', path: '/tracks/6/start/y', value: expect.stringMatching(/ in$/) }])
  })

  it('with a crossover of curved frogs back to back from the line to the siding: an S, found once', () => {
    // Room for it: 3 ft more of both straights.
    const long = [
      { op: 'remove' as const, path: '/obstacles' },
      ...replace(`${LINE}/elements/4/length`, '12 ft 2 in'),
      ...replace(`${SIDING}/elements/2/length`, '6 ft'),
    ]
    const { tracks } = estimateOf(patched(DEMO_PLAN, long))
    const straight = tracks[2]!.elements[2]!
    const { xMm, yMm: spacingMm } = straight.start
    const [radius, between] = [1219.2, 20]
    // 2R(1 − cos A) + t·sin A is the spacing: A = 2·atan(u), u the smaller root of (4R − s)u² + 2t·u − s = 0.
    const u =
      (-between + Math.hypot(between, Math.sqrt((4 * radius - spacingMm) * spacingMm))) / (4 * radius - spacingMm)
    const angle = 2 * Math.atan(u)
    const legMm = radius * Math.sin(angle)
    const aheadMm = xMm - tracks[1]!.elements[4]!.start.xMm
    const apartMm = 2 * legMm + between * Math.cos(angle)
    const curved = { id: 'curved', hand: 'left', form: 'curved-frog', radius, angle: (angle * 180) / Math.PI }
    const tangent = (length: number) => ({ kind: 'tangent', length })
    const turnout = (name: string, enters: string) => ({ kind: 'turnout', name, type: 'curved', enters })
    const plan = patched(DEMO_PLAN, [
      ...long,
      { op: 'add', path: '/turnoutTypes/-', value: { ...curved, price: '60.00', length: legMm } },
      ...replace(`${LINE}/elements/4/length`, aheadMm),
      { op: 'add', path: `${LINE}/elements/5`, value: turnout('X1', 'points') },
      { op: 'add', path: `${LINE}/elements/6`, value: tangent(tracks[1]!.elements[4]!.lengthMm - aheadMm - legMm) },
      ...replace(`${SIDING}/elements/2/length`, apartMm - legMm),
      { op: 'add', path: `${SIDING}/elements/3`, value: turnout('X2', 'through') },
      { op: 'add', path: `${SIDING}/elements/4`, value: tangent(straight.lengthMm - apartMm) },
      {
        op: 'add',
        path: '/tracks/-',
        value: {
          name: 'crossover',
          start: { from: { turnout: 'X1', leg: 'diverging' } },
          end: { to: { turnout: 'X2', leg: 'diverging' } },
          elements: [tangent(between)],
        },
      },
    ])
    // The turnouts leave short pieces of rail, and less room on the siding.
    const found = grave(plan).filter(({ rule }) => !['piece-too-short', 'fouling'].includes(rule))
    expect(found.map(({ rule, severity }) => [rule, severity])).toEqual([['reverse-curve', 'warn']])
    expect(found[0]!.message).toMatch(/from X[12] to X[12], with only 20 mm/)
  })
})
