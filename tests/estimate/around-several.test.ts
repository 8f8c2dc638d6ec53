import { describe, expect, it } from 'vitest'
import { preparePlan } from '../../src/estimate/plan.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { besideOfPlan } from '../../src/estimate/track/beside-of-plan.ts'
import { layTrack } from '../../src/estimate/track/laid-track.ts'
import { BRASS_250 } from './plans.ts'

type Sent = Record<string, unknown>

const COACH = { name: 'coach', length: 500, truckCentres: 340, width: 120 }
const circle = (x: number, y: number, radius: number) => ({ name: `${x} ${y}`, circle: { x, y, radius } })
const planOf = (obstacles: Sent[], end: Sent = { x: 16_000, y: 0, heading: 0 }, connect: Sent = {}): Sent => ({
  rail: BRASS_250,
  cars: [COACH],
  standards: { minimumTangentBetweenReverseCurves: 0 },
  obstacles,
  tracks: [{ name: 'main', end: { at: end }, elements: [{ kind: 'connect', minimumRadius: 1500, ...connect }] }],
})

/** Its length, and how deep cars reach into anything. */
function made(sent: Sent) {
  const read = readPlan(sent)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const { plan } = preparePlan(read.plan)
  const laid = plan.tracks.map((track) => layTrack(track, plan))
  const { touched } = besideOfPlan(laid, plan).obstacles
  return { lengthMm: laid[0]!.placed.at(-1)!.toMm, depthMm: Math.max(0, ...touched.map(({ depthMm }) => depthMm)) }
}

/**
 * The shortest string from one point to another over tangents and arcs of circles: Dijkstra over points on the circles,
 * every 2°, joined where the straight between them clears all circles. Independent of the code; a lower bound but for 0.1 %.
 */
function tautString(to: [number, number], discs: readonly [number, number, number][]): number {
  const points: [number, number][] = [[0, 0], to]
  for (const [x, y, r] of discs)
    for (let deg = 0; deg < 360; deg += 2)
      points.push([x + r * Math.cos((deg * Math.PI) / 180), y + r * Math.sin((deg * Math.PI) / 180)])
  const isClear = ([ax, ay]: readonly number[], [bx, by]: readonly number[]) =>
    discs.every(([x, y, r]) => {
      const [dx, dy] = [bx! - ax!, by! - ay!]
      const t = Math.min(1, Math.max(0, ((x - ax!) * dx + (y - ay!) * dy) / (dx * dx + dy * dy)))
      return Math.hypot(ax! + t * dx - x, ay! + t * dy - y) > r * 0.999
    })
  const best = points.map((_, index) => (index === 0 ? 0 : Number.POSITIVE_INFINITY))
  const done = new Set<number>()
  for (;;) {
    let here = -1
    for (const [index, mm] of best.entries()) if (!done.has(index) && (here < 0 || mm < best[here]!)) here = index
    if (here < 0 || here === 1) return best[1]!
    done.add(here)
    for (const [index, point] of points.entries()) {
      const mm = best[here]! + Math.hypot(point[0] - points[here]![0], point[1] - points[here]![1])
      if (!done.has(index) && mm < best[index]! && isClear(points[here]!, point)) best[index] = mm
    }
  }
}

const ROW: [number, number, number][] = [
  [4000, 200, 400],
  [8000, -500, 900],
  [12_000, 500, 700],
]

describe('several obstacles in a row', () => {
  it('are all passed, at no more than a twentieth more than the taut string round the room for the cars', () => {
    const { lengthMm, depthMm } = made(planOf(ROW.map(([x, y, r]) => circle(x, y, r))))
    expect(depthMm).toBe(0)
    const string = tautString(
      [16_000, 0],
      ROW.map(([x, y, r]) => [x, y, r + 60]),
    )
    expect(lengthMm).toBeGreaterThan(0.999 * string)
    expect(lengthMm).toBeLessThan(1.05 * string)
  })

  it('are passed as well mirrored and the other way', () => {
    const there = made(planOf(ROW.map(([x, y, r]) => circle(x, y, r))))
    const mirrored = made(planOf(ROW.map(([x, y, r]) => circle(x, -y, r))))
    const back = made(planOf(ROW.map(([x, y, r]) => circle(16_000 - x, -y, r))))
    expect(mirrored.depthMm).toBe(0)
    expect(mirrored.lengthMm).toBeCloseTo(there.lengthMm, 3)
    expect(back.depthMm).toBe(0)
    expect(Math.abs(back.lengthMm / there.lengthMm - 1)).toBeLessThan(0.03)
  })

  it('may be walls with corners, with easements beside the curves', () => {
    const wall = (x: number, y: number, dx: number, dy: number) => ({
      name: `wall ${x} ${y}`,
      polygon: [
        { x, y },
        { x: x + dx, y },
        { x: x + dx, y: y + dy },
        { x, y: y + dy },
      ],
    })
    const walls = [wall(4000, -2500, 100, 3200), wall(9000, -600, 1500, 4000), wall(13_500, -3000, 200, 3300)]
    expect(made(planOf(walls)).depthMm).toBe(0)
    expect(made(planOf(walls, { x: 18_000, y: 500, heading: 10 }, { easement: 300 })).depthMm).toBe(0)
  })

  it('of a grove are cleared wherever there is a way, and never half: 30 random groves', () => {
    let cleared = 0
    for (let round = 0; round < 30; round++) {
      let seed = 9_301 * (round + 7)
      const random = () => {
        seed = (seed * 16_807) % 2_147_483_647
        return seed / 2_147_483_647
      }
      const trees = Array.from({ length: 4 }, (_, n) =>
        circle(2800 + 3300 * n, 1600 * random() - 800, 200 + 500 * random()),
      )
      if (made(planOf(trees)).depthMm === 0) cleared++
    }
    expect(cleared).toBeGreaterThanOrEqual(29)
  })
})
