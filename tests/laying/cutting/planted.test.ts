import { describe, expect, it } from 'vitest'
import { type AnsweredEstimate, breachesOfEstimate, type CuttingRule, type SentPlan } from './checker.ts'
import { answered, SECTION } from './sent-plans.ts'

const straight = { kind: 'tangent', length: 4000 } as const

function planOf(track: Partial<SentPlan['tracks'][number]>, more: Partial<SentPlan> = {}): SentPlan {
  return {
    rail: { section: SECTION, ...{ material: 'brass' } },
    tracks: [{ name: 'main', elements: [straight], ...track }],
    supplies: {
      sticks: [
        { length: 1524, price: '14.50', onHand: 1 },
        { length: 800, onHand: 1, buyable: false },
      ],
      joiners: { pricePerPack: '9.00', packSize: 10 },
    },
    ...more,
  }
}

type Writable<T> = T extends object ? { -readonly [K in keyof T]: Writable<T[K]> } : T

interface Planted {
  readonly rule: CuttingRule
  readonly plan: SentPlan
  readonly spoil: (answer: Writable<AnsweredEstimate>) => void
}

/** Moves the first joint of one rail: what one piece gains the next one loses, and the offcuts with them. */
function moveJoint(answer: Writable<AnsweredEstimate>, rail: 'left' | 'right', toMm: number): void {
  const sticks = answer.cutting.sticks.filter(({ pieces }) => pieces.some((piece) => piece.rail === rail))
  const pieces = sticks.flatMap((stick) => stick.pieces.filter((piece) => piece.rail === rail))
  pieces.sort((a, b) => a.fromMm - b.fromMm)
  const [first, second] = pieces
  const byMm = toMm - second!.fromMm
  const joint = answer.joints.find((each) => each.rail === rail && Math.abs(each.atMm - second!.fromMm) < 1e-6)!
  first!.lengthMm += byMm
  second!.fromMm += byMm
  second!.lengthMm -= byMm
  joint.atMm += byMm
  joint.stationMm += byMm
  for (const stick of sticks) {
    const piecesMm = stick.pieces.reduce((sum, piece) => sum + piece.lengthMm, 0)
    const betweenMm = stick.pieces.length - 1
    const restMm = stick.lengthMm - piecesMm - betweenMm
    stick.kerfMm = betweenMm + Math.min(1, Math.max(0, restMm))
    stick.offcutMm = stick.lengthMm - piecesMm - stick.kerfMm
  }
}

/** Two rails of two pieces each, from sticks that leave much of themselves. */
function twoPieces(track: Partial<SentPlan['tracks'][number]>, joints: SentPlan['joints'] = {}): SentPlan {
  const supplies = { sticks: [{ length: 1524, price: '14.50' }], joiners: { pricePerPack: '0.90' } }
  return planOf({ elements: [{ kind: 'tangent', length: 2000 }], ...track }, { joints, supplies })
}

const PLANTED: readonly Planted[] = [
  {
    rule: 'stick-adds-up',
    plan: planOf({}),
    spoil: ({ cutting }) => {
      cutting.sticks[0]!.offcutMm += 0.01
    },
  },
  {
    rule: 'kerf',
    plan: planOf({}),
    spoil: ({ cutting }) => {
      const cut = cutting.sticks.find(({ offcutMm }) => offcutMm > 1)!
      cut.kerfMm -= 0.5
      cut.offcutMm += 0.5
    },
  },
  {
    rule: 'rail-covered-once',
    plan: planOf({}),
    spoil: ({ cutting }) => {
      cutting.sticks[0]!.pieces[0]!.rail = cutting.sticks[0]!.pieces[0]!.rail === 'left' ? 'right' : 'left'
    },
  },
  {
    rule: 'minimum-piece',
    plan: twoPieces({}),
    spoil: (answer) => moveJoint(answer, 'left', 149),
  },
  {
    rule: 'joint-at-break',
    plan: twoPieces({ breaks: [{ at: 1000, kind: 'insulated' }] }),
    spoil: (answer) => moveJoint(answer, 'right', 1003),
  },
  {
    rule: 'keep-out',
    plan: twoPieces({ keepOut: [{ from: 900, to: 1100 }] }),
    spoil: (answer) => moveJoint(answer, 'left', 1000),
  },
  {
    rule: 'stagger',
    plan: twoPieces({}, { stagger: 300 }),
    spoil: (answer) => moveJoint(answer, 'left', firstJoint(answer, 'right') - 299),
  },
  {
    rule: 'square',
    plan: twoPieces({}, { arrangement: 'square' }),
    spoil: (answer) => moveJoint(answer, 'left', firstJoint(answer, 'right') - 1),
  },
  {
    rule: 'between-ties',
    plan: twoPieces({}, { betweenTies: true }),
    spoil: (answer) => moveJoint(answer, 'left', firstJoint(answer, 'left') + 22.5),
  },
  {
    rule: 'stock',
    plan: planOf({}),
    spoil: ({ cutting }) => {
      cutting.sticks.find(({ fromStock }) => !fromStock)!.fromStock = true
    },
  },
  {
    rule: 'cost',
    plan: planOf({}),
    spoil: ({ cutting }) => {
      cutting.cost = (Number(cutting.cost) - 0.01).toFixed(2)
      cutting.costLowerBound = cutting.cost
    },
  },
  {
    rule: 'joints-counted',
    plan: planOf({}),
    spoil: ({ joints }) => {
      joints.pop()
    },
  },
  {
    rule: 'bound',
    plan: planOf({}),
    spoil: ({ cutting }) => {
      cutting.costLowerBound = (Number(cutting.cost) + 0.01).toFixed(2)
    },
  },
]

function firstJoint({ joints }: Writable<AnsweredEstimate>, rail: 'left' | 'right'): number {
  return Math.min(...joints.filter((joint) => joint.rail === rail).map(({ atMm }) => atMm))
}

describe('the checker of cut plans', () => {
  it.each(PLANTED)('sees a bad plan: $rule', ({ rule, plan, spoil }) => {
    const answer = answered(plan)
    expect(breachesOfEstimate(plan, answer)).toEqual([])
    spoil(answer as Writable<AnsweredEstimate>)
    const found = breachesOfEstimate(plan, answer)
    expect([...new Set(found.map((breach) => breach.rule))]).toContain(rule)
  })

  it('takes a finding for what it owns up to, and for nothing else', () => {
    const plan = twoPieces({ keepOut: [{ from: 900, to: 1100 }] })
    const answer = answered(plan) as Writable<AnsweredEstimate>
    moveJoint(answer, 'left', 1000)
    const keepsOut = () => breachesOfEstimate(plan, answer).every(({ rule }) => rule !== 'keep-out')
    answer.findings.push({ rule: 'joint-on-tie', track: 'main' })
    expect(keepsOut()).toBe(false)
    answer.findings.push({ rule: 'joint-in-keep-out', track: 'main' })
    expect(keepsOut()).toBe(true)
  })

  it('has a bad plan for every rule', () => {
    expect(new Set(PLANTED.map(({ rule }) => rule)).size).toBe(PLANTED.length)
  })
})
