import fc from 'fast-check'
import { estimate } from '../../../src/estimate/estimate.ts'
import { readPlan } from '../../../src/estimate/read-plan.ts'
import type { AnsweredEstimate, SentPlan } from './checker.ts'

/** The answer to a plan as it goes over the wire. */
export function answered(plan: SentPlan): AnsweredEstimate {
  const read = readPlan(plan)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const result = estimate(read.plan)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return JSON.parse(JSON.stringify(result.estimate)) as AnsweredEstimate
}

export const SECTION = { height: 8.43, headWidth: 3.8, footWidth: 7.6, webThickness: 1.5 } as const

const turn = fc.constantFrom<'left' | 'right'>('left', 'right')

const element = fc.oneof(
  fc.record({ kind: fc.constant<'tangent'>('tangent'), length: fc.integer({ min: 300, max: 2800 }) }),
  fc.record({
    kind: fc.constant<'arc'>('arc'),
    radius: fc.integer({ min: 900, max: 4000 }),
    angle: fc.integer({ min: 10, max: 80 }),
    turn,
  }),
)

function lengthOf(part: { kind: 'tangent'; length: number } | { kind: 'arc'; radius: number; angle: number }): number {
  return part.kind === 'tangent' ? part.length : (part.radius * part.angle * Math.PI) / 180
}

const KINDS = ['turnout', 'insulated', 'bridge-end', 'expansion-joint'] as const

/** A track with breaks and stretches without joints at parts of its length. */
const track = fc
  .record({
    elements: fc.array(element, { minLength: 1, maxLength: 6 }),
    breaks: fc.uniqueArray(fc.integer({ min: 1, max: 11 }), { maxLength: 2 }),
    kind: fc.constantFrom(...KINDS),
    keepOut: fc.array(fc.record({ at: fc.integer({ min: 0, max: 9 }), tenths: fc.integer({ min: 1, max: 6 }) }), {
      maxLength: 2,
    }),
  })
  .map(({ elements, breaks, kind, keepOut }) => {
    const lengthMm = elements.reduce((sum, each) => sum + lengthOf(each), 0)
    return {
      elements,
      breaks: breaks.toSorted((a, b) => a - b).map((at) => ({ at: (at * lengthMm) / 12, kind })),
      keepOut: keepOut.map(({ at, tenths }) => {
        const from = (at * lengthMm) / 10
        return { from, to: Math.min(lengthMm, from + tenths * 100) }
      }),
    }
  })

const price = fc.integer({ min: 12, max: 120 }).map((quarters) => (quarters / 4).toFixed(2))

const stick = (length: string) =>
  fc.record({
    length: fc.constant(length),
    price,
    packSize: fc.constantFrom(1, 1, 1, 4),
    onHand: fc.constantFrom(0, 0, 1, 3),
    buyable: fc.constant(true),
  })

const joints = fc.oneof(
  fc.record({}),
  fc.record({ stagger: fc.constantFrom(100, 200, '1 ft'), betweenTies: fc.boolean() }),
  fc.record({ arrangement: fc.constant<'square'>('square'), betweenTies: fc.boolean() }),
  fc.record({ betweenTies: fc.constant(true) }),
)

/** Plans of a garden's size with whatever may be asked of joints, stock, packs and one or two lengths of stick. */
export const sentPlan: fc.Arbitrary<SentPlan> = fc
  .record({
    tracks: fc.array(track, { minLength: 1, maxLength: 2 }),
    restricted: fc.boolean(),
    joints,
    first: stick('5 ft'),
    second: fc.option(stick('6 ft'), { nil: undefined }),
    onlyHere: fc.option(
      fc.record({
        length: fc.constantFrom(700, 1000),
        onHand: fc.integer({ min: 1, max: 3 }),
        buyable: fc.constant(false),
      }),
      { nil: undefined },
    ),
    joiners: fc.record({
      packSize: fc.constantFrom(1, 1, 10),
      pricePerPack: price,
      onHand: fc.constantFrom(0, 2, 6),
    }),
    kerf: fc.constantFrom(0, 1, 1.5),
    minimumPiece: fc.constantFrom(100, 150, '6 in'),
  })
  .map(({ tracks, restricted, joints: asked, first, second, onlyHere, ...rest }) => ({
    rail: { section: SECTION, material: 'brass' },
    tracks: tracks.map(({ elements, breaks, keepOut }, n) => ({
      name: `track ${n}`,
      start: { x: 0, y: n * 100_000 },
      elements,
      ...(breaks.length > 0 && { breaks }),
      ...(restricted && keepOut.length > 0 && { keepOut }),
    })),
    joints: asked,
    supplies: {
      sticks: [first, second, onlyHere].filter((each) => each !== undefined),
      joiners: rest.joiners,
      kerf: rest.kerf,
      minimumPiece: rest.minimumPiece,
    },
  }))
