import { expect, test } from 'vitest'
import { preparePlan } from '../../src/estimate/plan.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { toRadians } from '../../src/measure/angle.ts'
import { placedElements, planToDraw } from '../../src/page/drawing/plan-to-draw.ts'
import { profiledTrack, profileOfAnswer } from '../../src/page/drawing/profile.ts'
import { elevationOn } from '../../src/track/grade.ts'
import { placeElements, poseOn } from '../../src/track/place.ts'
import { POND_PLAN } from './pond-plan.ts'
import { worked } from './worked.ts'

const rail = { section: '250', material: 'brass', temper: 'half-hard' }
const easement = { kind: 'easement', length: 400 }
const arc = (turn: string, angle = 40, radius = 2000) => ({ kind: 'arc', turn, angle, radius })

/** Easements on every kind of neighbour, both turns, over a full turn, turned and shifted on the sheet, a closed loop. */
const PLANS: Record<string, object> = {
  'a loop and a climb': POND_PLAN,
  'easements at both ends of an open track': {
    rail,
    tracks: [{ name: 'a', elements: [easement, arc('right'), easement] }],
  },
  'easements that reverse': {
    rail,
    tracks: [
      { name: 'a', elements: [arc('left'), easement, arc('right', 30, 1500), easement, arc('right', 30, 3000)] },
    ],
  },
  'over a full turn, mirrored': {
    rail,
    tracks: [
      { name: 'a', elements: [arc('left', 405), { kind: 'tangent', length: 10 }] },
      { name: 'b', start: { x: -500, y: 70, heading: 350 }, elements: [arc('right', 730)] },
    ],
  },
  'a loop that begins with an easement': {
    rail,
    tracks: [
      {
        name: 'a',
        closed: true,
        elements: [
          easement,
          { kind: 'tangent', length: 500 },
          easement,
          arc('left', 160),
          easement,
          { kind: 'tangent', length: 500 },
          easement,
          arc('left', 160),
        ],
      },
    ],
  },
}

test.each(Object.entries(PLANS))('%s is drawn where the estimate placed it', (_, raw) => {
  const { estimate } = worked(raw)
  const read = readPlan(raw)
  if (!read.ok) throw new Error('the plan has faults')
  for (const [index, track] of preparePlan(read.plan).plan.tracks.entries()) {
    const { x: xMm, y: yMm, heading } = track.start
    const wanted = placeElements({ xMm, yMm, headingRad: toRadians(heading) }, track.elements, track.closed)
    const drawn = placedElements(estimate.tracks[index]!, track.closed)
    expect(drawn).toHaveLength(wanted.length)
    for (const [n, element] of wanted.entries())
      for (const part of [0, 0.3, 0.5, 1]) {
        const mm = element.fromMm + element.lengthMm * part
        const [want, got] = [poseOn(element, mm), poseOn(drawn[n]!, mm)]
        expect(got.xMm).toBeCloseTo(want.xMm, 6)
        expect(got.yMm).toBeCloseTo(want.yMm, 6)
        expect(Math.cos(got.headingRad - want.headingRad)).toBeCloseTo(1, 12)
        expect(drawn[n]!.turnedRad).toBeCloseTo(element.turnedRad, 9)
      }
  }
})

test('the rails are drawn as far apart as the head is wide, whether the section is listed or measured', () => {
  const widths = [
    rail.section,
    { height: 6.35, headWidth: 3, footWidth: 6, webThickness: 1.2 },
    {
      rectangles: [
        { width: 6, height: 1 },
        { width: 1.2, height: 4 },
        { width: 2.5, height: 1.4 },
      ],
    },
  ].map((section) => {
    const { plan, estimate } = worked({ rail: { ...rail, section }, tracks: [{ name: 'a', elements: [arc('left')] }] })
    return planToDraw(plan, estimate).headWidthMm
  })
  // Code 250: 0.112 in.
  expect(widths[0]).toBeCloseTo(0.112 * 25.4, 9)
  expect(widths.slice(1)).toEqual([3, 2.5])
})

test('the profile follows the grades: 36 in level, then 4 in up to 18 ft, then level', () => {
  const track = worked(POND_PLAN).estimate.tracks[1]!
  expect(
    profiledTrack(track)
      .grades.map(({ toMm }) => toMm)
      .slice(0, 2),
  ).toEqual([914.4, 5486.4])
  const profile = profileOfAnswer(track)
  for (const [atMm, mm] of [
    [0, 0],
    [914.4, 0],
    [5486.4, 101.6],
    [track.lengthMm, 101.6],
  ] as const)
    expect(elevationOn(profile, atMm)).toBeCloseTo(mm, 9)
})
