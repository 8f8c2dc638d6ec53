import { describe, expect, it } from 'vitest'
import { patched } from '../../src/fitting/json-patch.ts'
import { cases } from '../cases.ts'
import { randomFrom } from '../random.ts'
import { findingsOf, isGone, remediesCarriedOut } from './carried-out.ts'
import { asSent } from './turnout-plans.ts'
import { worked } from './worked.ts'

/* Tracks moved away from what stands beside them: each remedy is carried out. */

const COACH = { name: 'coach', length: 700, truckCentres: 500, width: 130 }
const straight = (length: number) => ({ kind: 'tangent', length })
const arc = (radius: number, angle: number, turn = 'left') => ({ kind: 'arc', radius, angle, turn })
const STANDARDS = { minimumRadius: 1000, minimumTangentBetweenReverseCurves: 100 }
const sent = (tracks: object[], more: object = {}) => ({
  ...asSent(),
  cars: [COACH],
  standards: STANDARDS,
  tracks,
  ...more,
})
const post = (x: number, y: number, radius = 2.5) => ({ name: 'post', circle: { x, y, radius } })

describe('circles with one centre, too close to each other', () => {
  const circle = (name: string, radius: number, turn: string, given: object) => ({
    name,
    closed: true,
    start: turn === 'left' ? { x: 0, y: -radius } : { x: 0, y: radius },
    elements: [
      { kind: 'arc', ...given, angle: 150, turn },
      { kind: 'arc', ...given, angle: 210, turn },
    ],
  })

  const byDiameter = { diameter: '3240 mm' }
  const byDegree = { degree: (360 / Math.PI) * Math.asin(300 / 1620), chord: 600 }
  it.each([
    ['left', 'diameter', byDiameter],
    ['right', 'diameter', byDiameter],
    ['left', 'degree', byDegree],
  ])('the outer one becomes wider about the same centre, turning %s, given by its %s', (turn, _, given) => {
    const plan = sent([circle('inner', 1500, turn, { radius: 1500 }), circle('outer', 1620, turn, given)])
    const { measured, limit } = findingsOf(plan).find(({ rule }) => rule === 'track-spacing')!
    const wider = remediesCarriedOut(plan, 'track-spacing').find((remedy) => remedy[0]!.path.startsWith('/tracks/1'))!
    const { tracks } = worked(patched(plan, wider))
    const radius = tracks[1]!.elements[0]!.radiusMm!
    expect(tracks[1]!.elements[1]!.radiusMm).toBe(radius)
    expect(radius - 1620).toBeGreaterThanOrEqual(limit! - measured!)
    expect(radius - 1620).toBeLessThan(limit! - measured! + 12)
    // The centre stays at the origin (by hand).
    const { start } = tracks[1]!.elements[0]!
    expect(start.xMm).toBeCloseTo(0, 6)
    expect(start.yMm).toBeCloseTo(turn === 'left' ? -radius : radius, 6)
    expect(tracks[1]!.closure!.gapMm).toBeLessThan(1e-6)
  })

  it('the inner one becomes tighter where the outer one is there already, but not below the minimum radius', () => {
    const outer = { ...circle('outer', 1620, 'left', { radius: 1620 }), state: 'existing' }
    const [tighter] = remediesCarriedOut(
      sent([circle('inner', 1500, 'left', { radius: 1500 }), outer]),
      'track-spacing',
    )
    expect(tighter![0]).toMatchObject({ path: '/tracks/0/elements/0/radius' })
    expect(Number(tighter![0]!.value)).toBeLessThan(1500)
    const least = { standards: { ...STANDARDS, minimumRadius: 1500 } }
    const none = findingsOf(sent([circle('inner', 1500, 'left', { radius: 1500 }), outer], least))
    expect(none.find(({ rule }) => rule === 'track-spacing')!.remedy).toBeNull()
  })
})

describe('a post beside the line', () => {
  it('on a single straight: all of it is moved, or it is swung round; by hand 7.5 + 0.5 mm', () => {
    const plan = sent([{ name: 'main', elements: [straight(6000)] }], { obstacles: [post(3000, 60)] })
    const remedies = remediesCarriedOut(plan, 'obstacle')
    expect(remedies[0]).toEqual([
      { op: 'add', path: '/tracks/0/start', value: {} },
      { op: 'add', path: '/tracks/0/start/y', value: -8 },
    ])
    const swung = remedies.find((remedy) => remedy.length > 2)!
    const { tracks } = worked(patched(plan, swung))
    expect(tracks[0]!.elements.map(({ kind, turn }) => turn ?? kind)).toEqual([
      ...['tangent', 'right', 'tangent', 'left', 'tangent', 'left', 'tangent', 'right', 'tangent'],
    ])
    // It goes on where it did.
    expect(tracks[0]!.end).toMatchObject({ headingDeg: 0, xMm: expect.closeTo(6000, 0), yMm: expect.closeTo(0, 1) })
  })

  it('beside a curve between straights: another radius, and the ends stay', () => {
    const tracks = [
      {
        name: 'main',
        start: { x: 0, y: 0 },
        end: { at: { x: 3000 + 2000, y: 2000 + 3000, heading: 90 } },
        elements: [straight(3000), arc(2000, 90), straight(3000)],
      },
    ]
    // Outside the middle of the curve, whose centre is at (3000, 2000).
    const out = (2000 + 78) * Math.SQRT1_2
    const plan = sent(tracks, { obstacles: [post(3000 + out, 2000 - out)] })
    const [remedy] = remediesCarriedOut(plan, 'obstacle')
    expect(remedy!.map(({ path }) => path)).toEqual([
      '/tracks/0/elements/1/radius',
      '/tracks/0/elements/0/length',
      '/tracks/0/elements/2/length',
    ])
    // A larger radius leaves the corner by (R′ − R)(√2 − 1).
    const before = findingsOf(plan).find(({ rule }) => rule === 'obstacle')!
    const larger = Number(remedy![0]!.value) - 2000
    expect(larger).toBeGreaterThan((before.measured! + 0.5) / (Math.SQRT2 - 1) - 0.1)
  })

  it('beside a curve of a loop with easements', () => {
    const half = [
      { kind: 'easement', length: 400 },
      arc(2000, 180 - (400 / 2000) * (180 / Math.PI)),
      { kind: 'easement', length: 400 },
    ]
    const elements = [straight(3000), ...half, straight(3000), ...half]
    const plan = sent([{ name: 'round', closed: true, elements }], { obstacles: [post(1500, -66)] })
    expect(findingsOf(plan).filter(({ rule }) => rule === 'closure')).toEqual([])
    expect(remediesCarriedOut(plan, 'obstacle').length).toBeGreaterThan(0)
  })

  it('a tree in the middle of a track that is held at both ends is gone round', () => {
    const tracks = [
      {
        name: 'main',
        start: { x: 0, y: 0 },
        end: { at: { x: 12_000, y: 0, heading: 0 } },
        elements: [straight(12_000)],
      },
    ]
    const plan = sent(tracks, { obstacles: [post(6000, 20, 100)] })
    const [remedy] = remediesCarriedOut(plan, 'obstacle')
    expect(isGone(plan, remedy!, 'obstacle')).toBe(true)
    expect(isGone(plan, remedy!, 'closure')).toBe(true)
  })

  it('what lies between two straights is moved by both', () => {
    const bay = [straight(2000), arc(1500, 90), straight(800), arc(1500, 90), straight(2000)]
    const tracks = [{ name: 'main', end: { at: { x: 0, y: 3800, heading: 180 } }, elements: bay }]
    const plan = sent(tracks, { obstacles: [post(3500 + 60, 1900)] })
    const remedies = remediesCarriedOut(plan, 'obstacle')
    const { measured } = findingsOf(plan).find(({ rule }) => rule === 'obstacle')!
    const value = Number((2000 - Math.ceil((measured! + 0.5) * 100) / 100).toFixed(2))
    expect(remedies[0]).toEqual([
      { op: 'replace', path: '/tracks/0/elements/0/length', value },
      { op: 'replace', path: '/tracks/0/elements/4/length', value },
    ])
  })

  it('existing track is not moved', () => {
    const tracks = [{ name: 'main', state: 'existing', elements: [straight(6000)] }]
    expect(remediesCarriedOut(sent(tracks, { obstacles: [post(3000, 60)] }), 'obstacle')).toEqual([])
  })
})

describe('tracks too close beside each other', () => {
  const beside = (y: number, more: object = {}) => ({
    name: `y${y}`,
    start: { x: 0, y },
    elements: [straight(6000)],
    ...more,
  })

  it('either is moved away', () => {
    const remedies = remediesCarriedOut(sent([beside(0), beside(120)]), 'track-spacing')
    expect(remedies.slice(0, 2)).toEqual([
      [{ op: 'replace', path: '/tracks/0/start/y', value: -10.5 }],
      [{ op: 'replace', path: '/tracks/1/start/y', value: 130.5 }],
    ])
  })

  it('one that is there already stays', () => {
    const remedies = remediesCarriedOut(sent([beside(0, { state: 'existing' }), beside(120)]), 'track-spacing')
    expect(remedies.map((remedy) => remedy[0]!.path.slice(0, 9))).toEqual(remedies.map(() => '/tracks/1'))
    expect(remedies.length).toBeGreaterThan(0)
  })

  it('whichever way they run', () => {
    const back = { name: 'back', start: { x: 6000, y: 120, heading: 180 }, elements: [straight(6000)] }
    expect(remediesCarriedOut(sent([beside(0), back]), 'track-spacing')[1]).toEqual([
      { op: 'replace', path: '/tracks/1/start/y', value: 130.5 },
    ])
  })

  it('words say which, how far and to which side', () => {
    const [{ cure } = { cure: '' }] = findingsOf(sent([beside(0), beside(120)])).filter(
      ({ rule }) => rule === 'track-spacing',
    )
    expect(cure).toBe(
      'Move y0 there 10 mm to the right, or y120 10 mm to the left, or, if trains never pass there, say that both are interlaced.',
    )
  })
})

it('every remedy offered for random posts beside random lines can be carried out', () => {
  const random = randomFrom(83)
  const between = (least: number, most: number) => least + random() * (most - least)
  let [found, cured] = [0, 0]
  for (let each = 0; each < cases(30); each++) {
    const turn = () => (random() < 0.5 ? 'left' : 'right')
    const elements = [
      straight(Math.round(between(1500, 5000))),
      arc(Math.round(between(1200, 3000)), Math.round(between(20, 120)), turn()),
      straight(Math.round(between(1500, 5000))),
      arc(Math.round(between(1200, 3000)), Math.round(between(20, 120)), turn()),
      straight(Math.round(between(1500, 5000))),
    ]
    const clear = sent([{ name: 'main', elements }])
    const [track] = worked(clear).tracks
    const { xMm, yMm, headingDeg } = track!.elements[Math.floor(between(0, 5))]!.start
    const [along, aside] = [between(-200, 1500), between(-90, 90)]
    const rad = (headingDeg * Math.PI) / 180
    const place = post(
      xMm + along * Math.cos(rad) - aside * Math.sin(rad),
      yMm + along * Math.sin(rad) + aside * Math.cos(rad),
    )
    const plan = { ...clear, obstacles: [place] }
    const touched = findingsOf(plan).some(({ rule }) => rule === 'obstacle')
    if (!touched) continue
    found++
    cured += Math.min(1, remediesCarriedOut(plan, 'obstacle').length)
  }
  expect(found).toBeGreaterThan(cases(30) / 3)
  expect(cured).toBeGreaterThan(0.9 * found)
}, 300_000)
