import { describe, expect, test } from 'vitest'
import { preparePlan } from '../../../src/estimate/plan.ts'
import type { WorkedPlan } from '../../../src/page/pages/worked-plan.ts'
import { spurPlan } from '../../estimate/turnout-plans.ts'
import { sheetOf } from '../all-sheets.ts'
import { worked } from '../worked.ts'
import { type Card, readBenchSheet, readSawSheet } from './read-sheets.ts'
import { type ReadKink, type ReadRail, readKinks, readPlaces, readRails } from './read-turnouts.ts'
import { SimulatedBench } from './simulated-bench.ts'

interface Pose {
  readonly x: number
  readonly y: number
  readonly heading: number
}

/** The places in the garden are printed to a millimetre or a sixteenth of an inch, and rails may be a millimetre off. */
const WITHIN_MM = 2

/** A rail laid from where it begins: sawn, bent in one place, and bent between its marks. */
function laid(
  start: Pose,
  sawnMm: number,
  card: Card | undefined,
  kink: ReadKink | undefined,
  bench: SimulatedBench,
): Pose {
  let [x, y, heading] = [start.x, start.y, start.heading]
  const stepMm = 0.1
  const steps = Math.round(sawnMm / stepMm)
  for (let step = 0; step < steps; step++) {
    const u = (step + 0.5) * (sawnMm / steps)
    if (kink && kink.atMm >= u - stepMm / 2 && kink.atMm < u + stepMm / 2) heading += kink.turnRad
    const turned = curvatureAt(u, sawnMm, card, bench) * (sawnMm / steps)
    x += (sawnMm / steps) * Math.cos(heading + turned / 2)
    y += (sawnMm / steps) * Math.sin(heading + turned / 2)
    heading += turned
  }
  return { x, y, heading }
}

function curvatureAt(mm: number, sawnMm: number, card: Card | undefined, bench: SimulatedBench): number {
  for (const bend of card?.bends ?? []) {
    if (!('marksMm' in bend)) throw new Error('an easement in a turnout')
    const [fromMm, toMm] = bend.marksMm ?? [0, sawnMm]
    if (mm < fromMm || mm >= toMm) continue
    const sign = bend.turn === 'left' ? 1 : -1
    // Sprung in, the ties hold it to the radius.
    return sign * (bend.setting.by === 'spring-in' ? 1 / bend.radiusMm : bench.bent(bend.setting))
  }
  return 0
}

/** Builds a turnout from what the sheets say, and answers by how much each rail misses where the garden sheet wants its end. */
function follow(done: WorkedPlan, units: 'metric' | 'feet') {
  const { plan } = preparePlan(done.plan)
  const bench = new SimulatedBench(plan.section.properties, plan.metal.nominal, plan.bender.roller)
  const [sawSheet, benchSheet, gardenSheet] = (['saw', 'bench', 'garden'] as const).map((name) =>
    sheetOf(done, name, units),
  )
  const sawn = readSawSheet(sawSheet!)
  const { cards, straight } = readBenchSheet(benchSheet!)
  const rails = readRails(sawSheet!, 'W1')
  const kinks = readKinks(benchSheet!)
  const places = readPlaces(gardenSheet!)
  const offsetMm = (plan.gauge + plan.section.headWidthMm) / 2
  const railAt = ({ x, y, headingRad }: { x: number; y: number; headingRad: number }, side: string): Pose => {
    const left = side === 'left' ? offsetMm : -offsetMm
    return { x: x - left * Math.sin(headingRad), y: y + left * Math.cos(headingRad), heading: headingRad }
  }
  const build = (rail: ReadRail, start: Pose): Pose => {
    const { sawToMm, stickMm } = sawn.get(rail.mark)!
    const card = cards.get(rail.mark)
    const kink = kinks.get(rail.mark)
    if (!card && !kink) expect(straight.has(rail.mark)).toBe(true)
    return laid(start, sawToMm ?? stickMm, card, kink, bench)
  }
  const find = (leg: string, what: string) => rails.find((rail) => rail.leg === leg && rail.rail === what)!
  const missMm = (a: { x: number; y: number }, b: { x: number; y: number }) => Math.hypot(a.x - b.x, a.y - b.y)

  const stock = find('diverging', 'stock rail')
  const divergingStock = build(stock, railAt(places.points, stock.side))
  const point = find('diverging', 'point rail')
  const { divergingEnd, frog } = places
  const frogSide = stock.side === 'left' ? 'right' : 'left'
  // Half the head beyond the gauge line, square to the leg.
  const fromFrog = {
    x: frog.x + (frogSide === 'left' ? -1 : 1) * (plan.section.headWidthMm / 2) * Math.sin(divergingEnd.headingRad),
    y: frog.y + (frogSide === 'left' ? 1 : -1) * (plan.section.headWidthMm / 2) * Math.cos(divergingEnd.headingRad),
    heading: divergingEnd.headingRad,
  }
  const closure = find('diverging', 'closure rail')
  const away = stock.side === 'left' ? 1 : -1
  const [heel, toe] = [places.closure[0]!, places.closure.at(-1)!]
  const gaugeLine = ({ alongMm, offsetMm: off }: typeof heel) => ({
    x: places.points.x + alongMm,
    y: places.points.y + away * (off - plan.gauge / 2),
  })
  const heelRad = away * Math.abs(kinks.get(stock.mark)?.turnRad ?? 0)
  const half = -away * (plan.section.headWidthMm / 2)
  const outOf = ({ x, y }: { x: number; y: number }, rad: number) => ({
    x: x - half * Math.sin(rad),
    y: y + half * Math.cos(rad),
  })
  const closureEnd = build(closure, { ...outOf(gaugeLine(heel), heelRad), heading: heelRad })
  return {
    stockMissMm: missMm(divergingStock, railAt(divergingEnd, stock.side)),
    pointMissMm: missMm(build(point, fromFrog), railAt(divergingEnd, point.side)),
    closureMissMm: missMm(closureEnd, outOf(gaugeLine(toe), closureEnd.heading)),
    turnedRad: closureEnd.heading,
    frogRad: divergingEnd.headingRad,
    marks: rails.map(({ mark }) => mark),
    sawn,
  }
}

const KIND = { buyable: false, onHand: 0, heelSpread: 6.5, heelAngle: 2.5, pointLength: 150, toeLength: 60 }

describe('a turnout built by hand from what the sheets say', () => {
  test.each([
    ['No. 6, sprung in', { ...KIND, number: 6 }, {}],
    ['No. 6 of the other hand', { ...KIND, number: 6, hand: 'right' }, {}],
    ['No. 4, bent by hand', { ...KIND, number: 4 }, { limits: { setShare: 0, tieForceN: 1 } }],
  ] as const)('%s, ends where the plan says', (_, kind, bender) => {
    for (const units of ['metric', 'feet'] as const) {
      const { stockMissMm, pointMissMm, closureMissMm, turnedRad, frogRad, marks, sawn } = follow(
        worked({ ...spurPlan(kind), bender }),
        units,
      )
      expect(marks).toHaveLength(12)
      for (const mark of marks) expect(sawn.has(mark)).toBe(true)
      expect(stockMissMm).toBeLessThan(WITHIN_MM)
      expect(pointMissMm).toBeLessThan(WITHIN_MM)
      expect(closureMissMm).toBeLessThan(WITHIN_MM)
      // Reduced: the heading of a right-hand one is printed as 350 degrees.
      expect(Math.cos(turnedRad - frogRad)).toBeCloseTo(1, 4)
    }
  })

  test('and a wrong length would be noticed', () => {
    const done = worked(spurPlan({ ...KIND, number: 6 }))
    const wrong = structuredClone(done)
    for (const { pieces } of wrong.estimate.cutting.sticks)
      for (const piece of pieces as { turnout?: { rail: number }; lengthMm: number; sawLengthMm: number }[])
        if (piece.turnout?.rail === 6) {
          piece.lengthMm += 4
          piece.sawLengthMm += 4
        }
    expect(follow(wrong, 'metric').stockMissMm).toBeGreaterThan(WITHIN_MM)
  })
})
