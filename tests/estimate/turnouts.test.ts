import { describe, expect, it } from 'vitest'
import type { Estimate } from '../../src/estimate/answer.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { applied, asSent, CROSSOVER_STRAIGHT_MM, loopPlan, SIX_LEFT, SIX_RIGHT, spurPlan } from './turnout-plans.ts'
import { worked } from './worked.ts'

const rulesOf = ({ findings }: Estimate, ...left: string[]) =>
  findings.filter(({ rule }) => !left.includes(rule)).map(({ rule, track, severity }) => `${rule} ${track} ${severity}`)

const turnoutsOf = ({ tracks }: Estimate) =>
  tracks.flatMap(({ elements }) => elements.flatMap(({ turnout }) => turnout ?? []))

describe('a turnout in a track', () => {
  it('is answered with its geometry and the places of its ends (No. 6 from the points, by hand)', () => {
    const made = worked(spurPlan())
    const [w1] = turnoutsOf(made)
    expect(w1).toMatchObject({ name: 'W1', type: 'six-left', hand: 'left', enters: 'points', leaves: 'through' })
    expect(w1!.leadMm).toBeCloseTo(540, 9)
    expect(w1!.closureRadiusMm).toBeCloseTo(3240, 8)
    expect(w1!.points).toMatchObject({ xMm: 1000, yMm: 0, headingDeg: 180 })
    // Closed form: the arc ends at R·sin F, R(1 − cos F), then straight at F until it is 90 mm off.
    const f = 2 * Math.atan(1 / 12)
    const x = 1000 + 3240 * Math.sin(f) + (90 - 3240 * (1 - Math.cos(f))) / Math.tan(f)
    expect(w1!.divergingEnd.xMm).toBeCloseTo(x, 9)
    expect(w1!.divergingEnd.yMm).toBeCloseTo(90, 9)
    expect(w1!.divergingEnd.headingDeg).toBeCloseTo((f * 180) / Math.PI, 10)
    expect(w1!.frog.xMm).toBeCloseTo(1540, 9)
    expect(w1!.frog.yMm).toBeCloseTo(22.5, 9)
  })

  it('a track that leaves it starts at its leg, in place, heading and height', () => {
    const plan = spurPlan()
    const made = worked({
      ...plan,
      tracks: [
        {
          ...plan.tracks[0]!,
          gradeLine: [
            { at: 0, elevation: 100 },
            { at: 2000, elevation: 120 },
          ],
        },
        plan.tracks[1]!,
      ],
    })
    const [w1] = turnoutsOf(made)
    const { start } = made.tracks[1]!
    expect(start.xMm).toBeCloseTo(w1!.divergingEnd.xMm, 9)
    expect(start.yMm).toBeCloseTo(w1!.divergingEnd.yMm, 9)
    expect(start.headingDeg).toBeCloseTo(w1!.divergingEnd.headingDeg, 9)
    // The legs rise together: 100 mm, and 1 % of the way to the end of the turnout.
    expect(start.elevationMm).toBeCloseTo(100 + 0.01 * made.tracks[0]!.elements[1]!.toMm, 9)
  })

  it('keeps its rails off the cut list, and its joiners, ties and price on the bill', () => {
    const made = worked(spurPlan())
    const through = made.tracks[0]!.elements[1]!
    for (const { pieces } of made.cutting.sticks)
      for (const { track, fromMm, lengthMm } of pieces)
        if (track === 'main')
          expect(fromMm >= through.toMm - 1e-6 || fromMm + lengthMm <= through.fromMm + 1e-6).toBe(true)
    const line = made.bill.lines.find(({ item }) => item === 'turnout')!
    expect(line).toMatchObject({
      required: 1,
      onHand: 1,
      toBuy: 0,
      unitPrice: '62.00',
      description: 'Turnout six-left, left hand, No. 6',
    })
    const joiners = made.bill.lines.find(({ item }) => item === 'joiner')!
    // Two rails at each of the three ends of the turnout: those of the track it lies on, and of the spur.
    const atEnds = made.joints.filter(
      ({ stationMm, track }) =>
        track === 'main' && (stationMm === through.fromMm || Math.abs(stationMm - through.toMm) < 1e-6),
    )
    expect(atEnds).toHaveLength(4)
    expect(joiners.reasons).toContainEqual({ text: 'where it joins a turnout', track: 'spur', quantity: 2 })
    const ties = made.bill.lines.find(({ item }) => item === 'tie')!
    const included = ties.reasons.find(({ text }) => text === 'included with turnouts')!
    expect(-included.quantity).toBe(Math.ceil(through.toMm / 45) - Math.ceil(through.fromMm / 45))
  })

  it('built by hand it takes long ties instead of those of plain track, with twice the fasteners', () => {
    const bill = (type: object) => worked(spurPlan(type)).bill.lines
    const of = (item: string) => bill({ buyable: false, onHand: 0 }).find((line) => line.item === item)
    const list = worked(spurPlan()).tracks[0]!.elements[1]!.turnout!.ties
    // Of the tie list, what is longer than 1.82 gauges, 81.9 mm.
    const long = list.filter(({ lengthMm }) => lengthMm > 82.9).length
    expect(long).toBeGreaterThan(5)
    expect(of('long-tie')).toMatchObject({ required: long, toBuy: long })
    expect(of('fastener')!.required).toBe(4 * of('tie')!.required + 8 * long)
    expect(bill({}).some(({ item }) => item === 'long-tie')).toBe(false)
  })

  it('a nominal No. 6 is tighter than it looks: its closure is checked', () => {
    const heel = { heelSpread: 6.5, heelAngle: 2.5, pointLength: 150, toeLength: 60 }
    const standards = { minimumRadius: 3000, longestCar: 400 }
    const tight = worked({ ...spurPlan(heel), standards })
    const [finding] = tight.findings.filter(({ rule }) => rule === 'minimum-radius')
    expect(finding).toMatchObject({ track: 'main', element: 1, severity: 'stop', limit: 3000 })
    expect(finding!.measured).toBeCloseTo(2202.3, 0)
    expect(rulesOf(worked({ ...spurPlan(), standards }))).not.toContain('minimum-radius main stop')
  })
})

describe('the same places however a turnout is written', () => {
  const ends = (plan: unknown) =>
    turnoutsOf(worked(plan)).map(({ points, throughEnd, divergingEnd, frog }) => [
      points,
      throughEnd,
      divergingEnd,
      frog,
    ])
  const numbers = (places: unknown) =>
    JSON.stringify(places, (_, value) => (typeof value === 'number' ? Math.round(value * 1e8) / 1e8 + 0 : value))

  it('run through from the frog, by either leg', () => {
    const forward = worked(spurPlan())
    const [w1] = turnoutsOf(forward)
    for (const leg of ['through', 'diverging'] as const) {
      const at = leg === 'through' ? w1!.throughEnd : w1!.divergingEnd
      const back = {
        ...asSent(),
        turnoutTypes: [SIX_LEFT],
        tracks: [
          {
            name: 'main',
            start: { x: at.xMm, y: at.yMm, heading: (at.headingDeg + 180) % 360 },
            elements: [{ kind: 'turnout', name: 'W1', type: 'six-left', enters: leg }],
          },
        ],
      }
      expect(numbers(ends(back))).toBe(numbers(ends(spurPlan())))
      const { end } = worked(back).tracks[0]!
      expect(end.xMm).toBeCloseTo(1000, 8)
      expect(end.yMm).toBeCloseTo(0, 8)
      expect(end.headingDeg).toBeCloseTo(180, 8)
    }
  })

  it('mirrored', () => {
    const right = spurPlan({ ...SIX_RIGHT, id: 'six-left' })
    const [a] = turnoutsOf(worked(spurPlan()))
    const [b] = turnoutsOf(worked(right))
    expect(b!.divergingEnd.xMm).toBeCloseTo(a!.divergingEnd.xMm, 9)
    expect(b!.divergingEnd.yMm).toBeCloseTo(-a!.divergingEnd.yMm, 9)
    expect(b!.divergingEnd.headingDeg).toBeCloseTo(360 - a!.divergingEnd.headingDeg, 9)
  })

  it('at the start of a track that continues from another', () => {
    const plan = spurPlan()
    const [first, ...rest] = plan.tracks[0]!.elements
    const split = {
      ...plan,
      tracks: [
        { name: 'approach', elements: [first] },
        { name: 'main', start: { after: 'approach' }, elements: rest },
        plan.tracks[1]!,
      ],
    }
    expect(numbers(ends(split))).toBe(numbers(ends(plan)))
    expect(worked(split).tracks[2]!.end.xMm).toBeCloseTo(worked(plan).tracks[1]!.end.xMm, 8)
  })

  it('along the diverging leg the rails differ by (gauge + head)·F', () => {
    const made = worked(spurPlan({}, { leaves: 'diverging' }))
    const { rails, angleDeg } = made.tracks[0]!.elements[1]!
    const head = 0.112 * 25.4
    expect(rails.right.lengthMm - rails.left.lengthMm).toBeCloseTo((45 + head) * 2 * Math.atan(1 / 12), 9)
    expect(angleDeg).toBeCloseTo((2 * Math.atan(1 / 12) * 180) / Math.PI, 9)
  })
})

describe('a track that comes to a leg', () => {
  it('meets it: a passing loop of two turnouts closes', () => {
    const made = worked(loopPlan())
    expect(rulesOf(made, 'not-checked', 'chord-too-long')).toEqual([])
    expect(made.tracks[1]!.closure!.gapMm).toBeLessThan(1e-6)
    expect(made.tracks[1]!.closure!.headingDeg).toBeCloseTo(0, 9)
  })

  it('or misses it, which is found once and cured', () => {
    const plan = loopPlan()
    const siding = plan.tracks[1]!
    const short = {
      ...plan,
      tracks: [
        plan.tracks[0]!,
        {
          ...siding,
          elements: siding.elements.map((each) =>
            each.kind === 'tangent' && each.length! > 1000 ? { ...each, length: each.length! - 40 } : each,
          ),
        },
      ],
    }
    const made = worked(short)
    expect(rulesOf(made, 'not-checked', 'chord-too-long')).toEqual(['leg-not-met siding stop'])
    const [finding] = made.findings.filter(({ rule }) => rule === 'leg-not-met')
    expect(finding!.message).toContain('the diverging leg of W2')
    expect(finding!.measured).toBeCloseTo(40, 6)
    expect(finding!.remedy).not.toBeNull()
    expect(rulesOf(worked(applied(short, finding!.remedy!)), 'not-checked', 'chord-too-long')).toEqual([])
  })

  it('too high, which is cured at the last point of its grade line', () => {
    const plan = loopPlan()
    const high = {
      ...plan,
      tracks: [
        plan.tracks[0]!,
        {
          ...plan.tracks[1]!,
          gradeLine: [
            { at: 500, elevation: 0 },
            { at: 1500, elevation: 12 },
          ],
        },
      ],
    }
    const made = worked(high)
    expect(made.tracks[1]!.closure!.elevationMm).toBeCloseTo(12, 9)
    const [finding] = made.findings.filter(({ rule }) => rule === 'leg-not-met')
    expect(finding).toMatchObject({ severity: 'stop', track: 'siding', unit: 'mm' })
    expect(rulesOf(worked(applied(high, finding!.remedy!)))).not.toContain('leg-not-met siding stop')
  })
})

describe('what a plan says wrongly of turnouts', () => {
  const faultsOf = (plan: unknown) => {
    const read = readPlan(plan)
    return read.ok ? [] : read.faults.map(({ path, code }) => `/${path.join('/')} ${code}`)
  }

  it('is refused in its place', () => {
    const plan = spurPlan()
    const [main, spur] = plan.tracks
    const withTurnout = (given: object) => ({
      ...plan,
      tracks: [
        { ...main!, elements: main!.elements.map((each) => (each.kind === 'turnout' ? { ...each, ...given } : each)) },
        spur!,
      ],
    })
    expect(faultsOf(withTurnout({ type: 'six-lefft' }))).toEqual(['/tracks/0/elements/1/type unknown-value'])
    expect(faultsOf(withTurnout({ enters: 'through', leaves: 'diverging' }))).toContain(
      '/tracks/0/elements/1/leaves contradictory',
    )
    expect(faultsOf({ ...plan, turnoutTypes: [SIX_LEFT, SIX_LEFT] })).toEqual(['/turnoutTypes/1/id duplicate-name'])
    expect(faultsOf({ ...plan, turnoutTypes: [{ ...SIX_LEFT, angle: 9 }] })).toEqual([
      '/turnoutTypes/0/number contradictory',
    ])
    expect(faultsOf({ ...plan, turnoutTypes: [{ ...SIX_LEFT, toeLength: 300 }] })).toEqual([
      '/turnoutTypes/0/toeLength contradictory',
    ])
    expect(
      faultsOf({ ...plan, tracks: [main!, { ...spur!, start: { from: { turnout: 'W9', leg: 'diverging' } } }] }),
    ).toEqual(['/tracks/1/start/from/turnout unknown-value'])
    expect(
      faultsOf({ ...plan, tracks: [main!, { ...spur!, start: { from: { turnout: 'W1', leg: 'through' } } }] }),
    ).toEqual(['/tracks/1/start/from/leg contradictory'])
    expect(faultsOf({ ...plan, tracks: [main!, { ...spur!, start: { ...spur!.start, x: 3 } }] })).toEqual([
      '/tracks/1/start/from contradictory',
    ])
    expect(faultsOf({ ...plan, tracks: [main!, { ...spur!, closed: true }] })).toEqual([
      '/tracks/1/start/from contradictory',
    ])
    const twice = {
      ...main!,
      elements: [...main!.elements, { kind: 'turnout', name: 'W1', type: 'six-left', enters: 'points' }],
    }
    expect(faultsOf({ ...plan, tracks: [twice, spur!] })).toEqual(['/tracks/0/elements/3/name duplicate-name'])
  })

  it('in a circle of tracks that give each other their places', () => {
    const turnout = (name: string) => ({ kind: 'turnout', name, type: 'six-left', enters: 'points' })
    const from = (name: string) => ({ from: { turnout: name, leg: 'diverging' } })
    const plan = {
      ...asSent(),
      turnoutTypes: [SIX_LEFT],
      tracks: [
        { name: 'a', start: from('W2'), elements: [turnout('W1')] },
        { name: 'b', start: from('W1'), elements: [turnout('W2')] },
      ],
    }
    expect(faultsOf(plan)).toEqual([
      '/tracks/0/start/from/turnout contradictory',
      '/tracks/1/start/from/turnout contradictory',
    ])
  })
})

describe('a crossing', () => {
  const plan = {
    ...asSent(),
    tracks: [
      {
        name: 'main',
        start: { x: -1000, y: 0 },
        elements: [
          { kind: 'tangent', length: 1000 - 62.5 },
          { kind: 'crossing', name: 'X1', angle: 90 },
          { kind: 'tangent', length: 800 },
        ],
      },
      { name: 'other', start: { x: 0, y: -500, heading: 90 }, elements: [{ kind: 'tangent', length: 1000 }] },
    ],
  }

  it('lets another track over on the level', () => {
    const made = worked(plan)
    expect(rulesOf(made, 'not-checked', 'chord-too-long')).toEqual([])
    // g·cot 45° + 2g, half of it before the middle.
    expect(made.tracks[0]!.elements[1]).toMatchObject({
      kind: 'crossing',
      lengthMm: expect.closeTo(135, 9),
      crossing: { name: 'X1', angleDeg: 90 },
    })
  })

  it('has one name and angle on both tracks', () => {
    const twice = (angle: number) => ({
      ...plan,
      tracks: [plan.tracks[0]!, { ...plan.tracks[1]!, elements: [{ kind: 'crossing', name: 'X1', angle }] }],
    })
    expect(readPlan(twice(90)).ok).toBe(true)
    const wrong = readPlan(twice(60))
    expect(!wrong.ok && wrong.faults.map(({ path }) => path.join('/'))).toEqual(['tracks/1/elements/0/angle'])
  })
})

it('a crossover of two No. 6 is as long as the field books say', () => {
  expect(CROSSOVER_STRAIGHT_MM).toBeCloseTo(366.25, 2)
})
