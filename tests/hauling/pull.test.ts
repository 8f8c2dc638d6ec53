import { describe, expect, it } from 'vitest'
import { hillOf, reversedHill } from '../../src/hauling/hill.ts'
import { type Block, pullAt, pullExtremes } from '../../src/hauling/pull.ts'
import { blocksOf, carsTaken, type HauledTrain, haulOn, slopesOf } from '../../src/hauling/train.ts'
import type { GradeLinePoint } from '../../src/plan/grade-line.ts'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import { gradesOn, profileOf } from '../../src/track/grade.ts'
import { placeElements } from '../../src/track/place.ts'
import { arc, easement, straight } from '../estimate/plans.ts'
import { randomFrom } from '../random.ts'

function trackOf(elements: readonly ElementInput[], points: readonly GradeLinePoint[], closed = false) {
  const start = { xMm: 0, yMm: 0, headingRad: 0 }
  const placed = placeElements(start, elements as never, closed)
  const lengthMm = placed.at(-1)!.toMm
  return { lengthMm, closed, placed, grades: gradesOn(profileOf(points), lengthMm) }
}

const block = (lengthMm: number, weightN: number, rolling = 0.02, curveMm = 15): Block => {
  return { lengthMm, weightN, rolling, curveMm }
}

describe('the pull of a train', () => {
  const hill = hillOf(
    trackOf(
      [straight(4000), arc(2000, 90), straight(4000)],
      [
        { at: 0, gradePct: 0 },
        { at: 3000, gradePct: 2 },
      ],
    ),
  )

  it('is rolling resistance on straight level track', () => {
    expect(pullAt(hill, [block(400, 50), block(1000, 100, 0.01)], 2500).pullN).toBeCloseTo(50 * 0.02 + 100 * 0.01, 12)
  })

  it('has the grade under each of its blocks', () => {
    // By hand: the engine is on 2 %, half of the cars behind it still on the level.
    const { pullN, grade } = pullAt(hill, [block(500, 50, 0), block(1000, 100, 0)], 4000)
    expect(pullN).toBeCloseTo(50 * 0.02 + 100 * 0.02 * 0.5, 12)
    expect(grade).toBeCloseTo(2 / 150, 12)
  })

  it('has the curve under each of its blocks', () => {
    // By hand: 300 mm of 1000 mm are on the curve of 2000 mm.
    const { pullN, curve } = pullAt(hill, [block(1000, 100, 0, 20)], 4300)
    expect(curve).toBeCloseTo((20 / 2000) * 0.3, 12)
    expect(pullN).toBeCloseTo(100 * ((20 / 2000) * 0.3 + 0.02), 10)
  })

  it('the other way is that of the same train on a falling grade', () => {
    const back = reversedHill(hill)
    expect(pullAt(back, [block(1000, 100, 0, 20)], hill.lengthMm - 4300).grade).toBeCloseTo(-0.02, 12)
    expect(pullAt(back, [block(1000, 100, 0, 20)], hill.lengthMm - 3300).curve).toBeCloseTo((20 / 2000) * 0.3, 12)
  })

  it('round a loop goes on from the end to the start', () => {
    const loop = hillOf(
      trackOf(
        [arc(1000, 360)],
        [
          { at: 0, gradePct: 1 },
          { at: 3000, gradePct: -1 },
        ],
        true,
      ),
    )
    const within = pullAt(loop, [block(800, 10)], 500)
    const round = pullAt(loop, [block(800, 10)], 500 + loop.lengthMm)
    expect(round.pullN).toBeCloseTo(within.pullN, 10)
    expect(within.curve).toBeCloseTo(0.015, 12)
  })
})

describe('the hardest and the easiest place', () => {
  const random = randomFrom(31)
  const pick = (least: number, most: number) => least + (most - least) * random()

  const tracks = Array.from({ length: 60 }, (_, index) => {
    const elements = Array.from({ length: 4 }, (): ElementInput[] => {
      const turn = random() < 0.5 ? 'left' : 'right'
      return [
        straight(pick(200, 1500)),
        easement(pick(100, 600)),
        arc(pick(600, 4000), pick(10, 80), turn),
        easement(pick(100, 600)),
      ]
    }).flat()
    const points: GradeLinePoint[] = Array.from({ length: 5 }, (_, at) => ({
      at: at * pick(1700, 1900),
      gradePct: pick(-3, 3),
      ...(at > 0 && at % 2 === 0 && { verticalCurve: pick(100, 800) }),
    }))
    const train = Array.from({ length: 1 + Math.floor(pick(0, 4)) }, () =>
      block(pick(200, 2500), pick(10, 90), pick(0, 0.03), pick(0, 40)),
    )
    return {
      track: trackOf(
        elements,
        points.sort((a, b) => a.at - b.at),
        index % 2 === 1,
      ),
      train,
    }
  })

  it('are those of a fine sweep of the whole track', () => {
    for (const { track, train } of tracks)
      for (const hill of [hillOf(track), reversedHill(hillOf(track))]) {
        const swept = Array.from({ length: 4001 }, (_, at) => pullAt(hill, train, (hill.lengthMm * at) / 4000).pullN)
        const { most, least } = pullExtremes(hill, train)
        const [high, low] = [Math.max(...swept), Math.min(...swept)]
        expect(most.pullN).toBeGreaterThanOrEqual(high - 1e-9)
        expect(least.pullN).toBeLessThanOrEqual(low + 1e-9)
        // Between two steps of the sweep the pull cannot change by more than this.
        expect(most.pullN).toBeLessThan(high + 0.05)
        expect(least.pullN).toBeGreaterThan(low - 0.05)
        expect(most.frontMm).toBeGreaterThanOrEqual(0)
        expect(most.frontMm).toBeLessThanOrEqual(hill.lengthMm)
      }
  })
})

describe('the cars an engine takes', () => {
  const car = block(600, 25, 0.02, 0)
  const train = (count: number): HauledTrain => ({
    engine: block(400, 60, 0.02, 0),
    behind: [{ count, car }],
    tractiveEffortN: 10,
    holdingN: 10,
  })
  const long = slopesOf(trackOf([straight(100_000)], [{ at: 0, gradePct: 2 }]))

  it('are by hand (T − W·(r + g)) / (w·(r + g)) on an even grade', () => {
    // (10 − 60·0.04) / (25·0.04) = 7.6
    expect(carsTaken(() => long, train(3), 10)).toBe(7)
    expect(carsTaken(() => long, train(20), 10)).toBe(7)
    expect(carsTaken(() => long, train(3), 10.4)).toBe(8)
  })

  it('are none where the engine does not get up by itself, and unknown without a car', () => {
    expect(carsTaken(() => long, train(3), 2)).toBe(0)
    expect(carsTaken(() => long, { ...train(1), behind: [] }, 10)).toBeNull()
  })

  it('are more where the hill is shorter than the train', () => {
    const short = slopesOf(
      trackOf(
        [straight(100_000)],
        [
          { at: 0, gradePct: 0 },
          { at: 50_000, gradePct: 2 },
          { at: 51_000, gradePct: 0 },
        ],
      ),
    )
    // By hand, the engine and one car on the 2 %: 0.02·(60 + 25n) + 0.02·(60 + 25) ≤ 10.
    expect(carsTaken(() => short, train(3), 10)).toBe(14)
  })

  it('count on with cars like the last', () => {
    const blocks = blocksOf(
      {
        ...train(2),
        behind: [
          { count: 2, car },
          { count: 1, car: block(900, 40) },
        ],
      },
      5,
    )
    expect(blocks.map(({ lengthMm }) => lengthMm)).toEqual([400, 1200, 2700])
  })

  it('push downhill as they pull uphill, but for their resistance', () => {
    const { climbing, descending } = haulOn(long, blocksOf(train(4)))
    expect(climbing.pullN).toBeCloseTo(160 * 0.04, 10)
    expect(descending.pullN).toBeCloseTo(160 * (0.02 - 0.02), 10)
    expect([climbing.on.direction, descending.on.direction]).toEqual(['forward', 'backward'])
  })
})
