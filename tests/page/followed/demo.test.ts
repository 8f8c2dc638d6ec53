import { describe, expect, test } from 'vitest'
import { DEMO_PLAN } from '../../../src/page/pages/demo-plan.ts'
import { sheetOf } from '../all-sheets.ts'
import { worked } from '../worked.ts'
import { expectAsDrawn } from './as-drawn.ts'
import { elevationBy } from './drawn-grade.ts'
import { type DrawnPlace, DrawnRail } from './drawn-rail.ts'
import { frogOfTurnout, legOfTurnout } from './drawn-turnout.ts'
import { follow } from './follow.ts'
import { readPegs, readTurnouts } from './read-turnouts.ts'

type Pose = Pick<DrawnPlace, 'x' | 'y' | 'heading'>

/** Tracks are joined where they miss each other by no more. */
const JOINED_MM = 2
const done = worked(DEMO_PLAN)
const { tracks, turnoutTypes } = done.plan
const trackNamed = (name: string) => tracks.find((track) => track.name === name)!

/** A place beside the start of a track or turnout, where that lies. */
function placed(start: Pose, { x, y, heading }: Pose): Pose {
  const [cos, sin] = [Math.cos(start.heading), Math.sin(start.heading)]
  return { x: start.x + x * cos - y * sin, y: start.y + x * sin + y * cos, heading: start.heading + heading }
}

/** Where the turnouts of the line lie, drawn from its start at the end of the old line. */
function turnoutsOfLine() {
  const track = trackNamed('orchard line')
  const start = { x: 1524, y: 0, heading: 0 }
  const centre = new DrawnRail(track, 'left', 0, turnoutTypes)
  return centre.turnouts.map(({ name, fromMm, toMm }) => {
    const element = track.elements.find((each) => each.kind === 'turnout' && each.name === name)!
    if (element.kind !== 'turnout') throw new Error('no turnout')
    const kind = turnoutTypes!.find(({ id }) => id === element.type)!
    const isFacing = element.enters === 'points'
    const at = placed(start, centre.beside(isFacing ? fromMm : toMm))
    const points = isFacing ? at : { ...at, heading: at.heading + Math.PI }
    const leg = (of: 'through' | 'diverging') => {
      const line = new DrawnRail({ name: 'leg', elements: legOfTurnout(kind, of) }, 'left', 0)
      return placed(points, line.at(line.lengthMm))
    }
    return {
      name,
      points,
      frog: placed(points, frogOfTurnout(kind)),
      diverging: leg('diverging'),
      through: leg('through'),
    }
  })
}

const LINE = turnoutsOfLine()
const legEnd = (name: string, leg: 'through' | 'diverging') => LINE.find((each) => each.name === name)![leg]
const STARTS: Readonly<Record<string, Pose>> = {
  'orchard line': { x: 1524, y: 0, heading: 0 },
  siding: legEnd('W2', 'diverging'),
  'press spur': legEnd('W1', 'diverging'),
  'orchard loop': legEnd('W4', 'diverging'),
}

const turnedRad = (a: number, b: number) => Math.abs(Math.atan2(Math.sin(a - b), Math.cos(a - b)))
const apartMm = (a: { x: number; y: number }, b: { x: number; y: number }) => Math.hypot(a.x - b.x, a.y - b.y)
/** Headings are printed to a hundredth of a degree. */
const PRINTED_RAD = (0.0051 * Math.PI) / 180

describe.each([
  // Half of what is printed, for the place and for the station.
  ['metric', 0.5, 0.051],
  ['feet', 25.4 / 32, 25.4 / 32],
] as const)('the demo plan followed from its sheets in %s', (units, halfMm, halfHeightMm) => {
  const garden = sheetOf(done, 'garden', units)

  test('every rail, joint and turnout comes to lie as it is drawn', () => {
    const followed = follow(done, units)
    expect(followed.filter(({ mark }) => mark.startsWith('W'))).toHaveLength(8)
    expectAsDrawn(followed)
  })

  test('turnouts are to be laid where they are drawn', () => {
    const read = readTurnouts(garden)
    expect([...read.keys()]).toEqual(LINE.map(({ name }) => name))
    for (const { name, points, frog, diverging } of LINE) {
      const printed = read.get(name)!
      for (const [at, drawn] of [
        [printed.points, points],
        [printed.divergingEnd, diverging],
      ] as const) {
        expect(apartMm(at, drawn)).toBeLessThan(Math.SQRT2 * halfMm + 0.01)
        expect(turnedRad(at.headingRad, drawn.heading)).toBeLessThan(PRINTED_RAD)
      }
      expect(apartMm(printed.frog, frog)).toBeLessThan(Math.SQRT2 * halfMm + 0.01)
    }
  })

  test('pegs stand on the centre lines, at their heights', () => {
    const pegs = readPegs(garden)
    expect([...pegs.keys()]).toEqual(Object.keys(STARTS))
    for (const [name, ofTrack] of pegs) {
      const track = trackNamed(name)
      const centre = new DrawnRail(track, 'left', 0, turnoutTypes)
      const elevationAt = elevationBy(track.gradeLine ?? [])
      for (const { stationMm, heightMm, ...peg } of ofTrack) {
        const drawn = placed(STARTS[name]!, centre.beside(stationMm))
        expect(apartMm(peg, drawn)).toBeLessThan((1 + Math.SQRT2) * halfMm + 0.01)
        // On the tightest curve half of a printed length turns it by this.
        expect(turnedRad(peg.headingRad, drawn.heading)).toBeLessThan(PRINTED_RAD + halfMm / 1066.8)
        if (heightMm !== null)
          expect(Math.abs(heightMm - elevationAt(stationMm))).toBeLessThan(halfHeightMm + 0.02 * halfMm)
      }
    }
  })

  test('siding and loop end at the legs they are to meet', () => {
    for (const [name, end] of [
      ['siding', legEnd('W3', 'diverging')],
      ['orchard loop', legEnd('W4', 'through')],
    ] as const) {
      const centre = new DrawnRail(trackNamed(name), 'left', 0)
      const drawn = placed(STARTS[name]!, centre.at(centre.lengthMm))
      expect(apartMm(drawn, end)).toBeLessThan(JOINED_MM)
      const printed = readPegs(garden).get(name)!.at(-1)!
      expect(apartMm(printed, end)).toBeLessThan(JOINED_MM + Math.SQRT2 * halfMm)
    }
  })
})
