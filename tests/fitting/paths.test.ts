import { describe, expect, it } from 'vitest'
import { type Beyond, type Path, type PathAsked, type Piece, pathsBetween } from '../../src/fitting/paths.ts'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import { placeElements } from '../../src/track/place.ts'
import type { Pose } from '../../src/track/types.ts'
import { randomFrom } from '../random.ts'
import { shortestBySearch } from './brute-force-paths.ts'

const STRAIGHT: Beyond = { curvature: 0, straightMm: 0, hasEasement: false }
const ask = (asked: Partial<PathAsked> = {}): PathAsked => ({
  minimumRadiusMm: 1000,
  easementMm: 0,
  reverseMm: 0,
  before: STRAIGHT,
  after: STRAIGHT,
  ...asked,
})
const pose = (xMm: number, yMm: number, headingDeg = 0): Pose => ({
  xMm,
  yMm,
  headingRad: (headingDeg * Math.PI) / 180,
})

const elementOf = (piece: Piece): ElementInput =>
  piece.kind === 'arc'
    ? { kind: 'arc', radius: piece.radiusMm, angle: (piece.angleRad * 180) / Math.PI, turn: piece.turn }
    : { kind: piece.kind, length: piece.lengthMm }

/** How far a path ends from where it should, headings as 1 m of track feels them. */
function missMm({ pieces }: Path, start: Pose, goal: Pose): number {
  const end = placeElements(start, pieces.map(elementOf), false).at(-1)!.end
  const turn = (end.headingRad - goal.headingRad) / (2 * Math.PI)
  const heading = (turn - Math.round(turn)) * 2 * Math.PI * 1000
  return Math.hypot(end.xMm - goal.xMm, end.yMm - goal.yMm, heading)
}

/** The course of curves alone: a widest curve has another radius. */
const isDubins = ({ word }: Path) => !word.startsWith('S')

function randomPair(random: () => number, spreadMm: number): [Pose, Pose] {
  const one = () => pose((random() - 0.5) * spreadMm, (random() - 0.5) * spreadMm, random() * 360 - 180)
  return [one(), one()]
}

describe('the six words', () => {
  it('are never longer than a search finds, on 2,000 random pairs near and far', () => {
    const random = randomFrom(20260101)
    const longer: string[] = []
    const words = new Set<string>()
    for (let index = 0; index < 2000; index++) {
      const [start, goal] = randomPair(random, index % 2 === 0 ? 3000 : 12_000)
      const best = pathsBetween(start, goal, ask()).find(isDubins)!
      words.add(best.word)
      const searched = shortestBySearch(start, goal, 1000)
      if (!(best.lengthMm <= searched + 1e-6)) longer.push(`${index}: ${best.word} ${best.lengthMm} > ${searched}`)
      if (!(best.lengthMm >= searched - 1e-3)) longer.push(`${index}: ${best.word} ${best.lengthMm} < ${searched}`)
    }
    expect(longer).toEqual([])
    expect([...words].sort()).toEqual(['LRL', 'LSL', 'LSR', 'RLR', 'RSL', 'RSR'])
  })

  it('end within 1e-9 mm of the goal, with easements and straights between reverse curves too', () => {
    const random = randomFrom(7)
    let compared = 0
    for (let index = 0; index < 1500; index++) {
      const [start, goal] = randomPair(random, 8000)
      const asked = ask({
        easementMm: index % 3 === 0 ? 0 : 200 + 400 * random(),
        reverseMm: index % 2 === 0 ? 0 : 700 * random(),
        before: {
          curvature: [0, 1e-3, -1e-3][index % 3]!,
          straightMm: 100 * (index % 4),
          hasEasement: index % 5 === 0,
        },
      })
      for (const path of pathsBetween(start, goal, asked)) {
        compared++
        expect(missMm(path, start, goal), JSON.stringify({ start, goal, asked, path })).toBeLessThan(1e-9)
        const radii = path.pieces.flatMap((piece) => (piece.kind === 'arc' ? [piece.radiusMm] : []))
        expect(Math.min(1e9, ...radii)).toBeGreaterThanOrEqual(1000)
      }
    }
    expect(compared).toBeGreaterThan(6000)
  })

  it('are mirrored for a mirrored pair, and reversed for the way back', () => {
    const random = randomFrom(8)
    const swapped = (word: string) => word.replaceAll(/[LR]/g, (letter) => (letter === 'L' ? 'R' : 'L'))
    const mirrored = ({ xMm, yMm, headingRad }: Pose): Pose => ({ xMm, yMm: -yMm, headingRad: -headingRad })
    const turnedRound = (each: Pose): Pose => ({ ...each, headingRad: each.headingRad + Math.PI })
    for (let index = 0; index < 500; index++) {
      const [start, goal] = randomPair(random, 8000)
      const asked = ask({ easementMm: index % 2 === 0 ? 0 : 300, reverseMm: 250 })
      const paths = pathsBetween(start, goal, asked)
      const mirror = pathsBetween(mirrored(start), mirrored(goal), asked)
      expect(mirror.map(({ word }) => swapped(word))).toEqual(paths.map(({ word }) => word))
      const home = pathsBetween(turnedRound(goal), turnedRound(start), asked)
      // A left turn is a right turn on the way back.
      expect(home.map(({ word }) => swapped([...word].reverse().join('')))).toEqual(paths.map(({ word }) => word))
      for (const [at, path] of paths.entries()) {
        expect(mirror[at]!.lengthMm).toBeCloseTo(path.lengthMm, 6)
        expect(home[at]!.lengthMm).toBeCloseTo(path.lengthMm, 6)
      }
    }
  })

  it('leave the least straight between curves to different sides', () => {
    const random = randomFrom(9)
    for (let index = 0; index < 500; index++) {
      const [start, goal] = randomPair(random, 6000)
      for (const { pieces } of pathsBetween(
        start,
        goal,
        ask({ reverseMm: 400, easementMm: index % 2 === 0 ? 0 : 150 }),
      )) {
        const arcs = pieces.flatMap((piece, at) => (piece.kind === 'arc' ? [{ ...piece, at }] : []))
        for (const [n, arc] of arcs.entries()) {
          const next = arcs[n + 1]
          if (!next || next.turn === arc.turn) continue
          const between = pieces.slice(arc.at + 1, next.at).filter(({ kind }) => kind === 'tangent')
          const mm = between.reduce((sum, piece) => sum + (piece.kind === 'tangent' ? piece.lengthMm : 0), 0)
          expect(mm).toBeGreaterThan(400 - 1e-6)
        }
      }
    }
  })
})

describe('ways that are known', () => {
  const lengthOf = (start: Pose, goal: Pose, asked = ask()) => pathsBetween(start, goal, asked)[0]?.lengthMm

  it('straight ahead (by hand)', () => {
    expect(pathsBetween(pose(0, 0), pose(1000, 0), ask())).toEqual([
      { word: 'S', pieces: [{ kind: 'tangent', lengthMm: 1000 }], lengthMm: 1000 },
    ])
  })

  it('to the other side of a circle and back: half turns (by hand)', () => {
    expect(lengthOf(pose(0, 0), pose(0, 2000, 180))).toBeCloseTo(1000 * Math.PI, 9)
    expect(lengthOf(pose(0, 0), pose(-3000, 2000, 180))).toBeCloseTo(1000 * Math.PI + 3000, 9)
    expect(lengthOf(pose(0, 0), pose(1000, 1000, 90))).toBeCloseTo(500 * Math.PI, 9)
  })

  it('(0, 0, 0) to (5, 0, 3 rad) at radius 1 is 8.2725 long (published: tests of the open-source package Dubins.jl)', () => {
    const goal = { xMm: 5000, yMm: 0, headingRad: 3 }
    expect(pathsBetween(pose(0, 0), goal, ask()).find(isDubins)!.lengthMm).toBeCloseTo(8272.5, 0)
  })

  it('back to where it starts, the other way round: three turns of 60°, 300° and 60° (by hand)', () => {
    const path = pathsBetween(pose(0, 0), pose(0, 0, 180), ask())[0]!
    expect(path.word).toMatch(/LRL|RLR/)
    expect(path.lengthMm).toBeCloseTo((1000 * 7 * Math.PI) / 3, 9)
  })

  it('to a place just behind, in about a full circle at most (by hand)', () => {
    const path = pathsBetween(pose(0, 0), pose(-1e-3, 0), ask())[0]!
    expect(path.lengthMm).toBeLessThan(2 * Math.PI * 1000 + 1)
    expect(missMm(path, pose(0, 0), pose(-1e-3, 0))).toBeLessThan(1e-9)
  })

  it('nothing between two places that are the same', () => {
    expect(pathsBetween(pose(10, 20, 30), pose(10, 20, 390), ask())).toEqual([])
  })

  it('opposite headings, side by side and nearer than two radii', () => {
    for (const [x, y] of [
      [0, 500],
      [0, 1999],
      [700, -300],
      [-2500, 0],
    ] as const)
      for (const path of pathsBetween(pose(0, 0), pose(x, y, 180), ask()))
        expect(missMm(path, pose(0, 0), pose(x, y, 180))).toBeLessThan(1e-9)
  })

  it('a corner of 90°, 4 m from both straights, is a curve of 4 m radius as wide as fits (closed form)', () => {
    const widest = pathsBetween(pose(0, 0), pose(4000, 4000, 90), ask()).find(({ word }) => word === 'SLS')!
    expect(widest.pieces).toHaveLength(1)
    expect(widest.lengthMm).toBeCloseTo(2000 * Math.PI, 6)
    const eased = pathsBetween(pose(0, 0), pose(4000, 4000, 90), ask({ easementMm: 600 }))
    const single = eased.find(({ word }) => word === 'SLS')!
    expect(single.pieces.map(({ kind }) => kind)).toEqual(['easement', 'arc', 'easement'])
    expect(missMm(single, pose(0, 0), pose(4000, 4000, 90))).toBeLessThan(1e-9)
  })

  it('a curve beyond the path to the other side is kept away by a straight', () => {
    const right: Beyond = { curvature: -1 / 1000, straightMm: 100, hasEasement: false }
    const left = pathsBetween(pose(0, 0), pose(3000, 3000, 90), ask({ reverseMm: 400, before: right }))
    for (const { pieces, word } of left)
      if (word.startsWith('L')) expect((pieces[0] as { lengthMm: number }).lengthMm).toBeGreaterThan(300 - 1e-9)
  })
})
