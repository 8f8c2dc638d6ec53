import { describe, expect, it } from 'vitest'
import { asSent } from './turnout-plans.ts'
import { worked } from './worked.ts'

const COACH = { name: 'coach', length: 700, truckCentres: 500, width: 130, height: 200 }
const LOWER = { name: 'low', elements: [{ kind: 'tangent', length: 20000 }] }
/** Crosses the lower track at x = 10 m after 5 m of its own, under an angle. */
const upper = (elevation: number, headingDeg = 90, length = 10000) => ({
  name: 'high',
  start: {
    x: 10000 - 5000 * Math.cos((headingDeg * Math.PI) / 180),
    y: -5000 * Math.sin((headingDeg * Math.PI) / 180),
    heading: headingDeg,
    elevation,
  },
  elements: [{ kind: 'tangent', length }],
})
const sent = (tracks: object[], more: object = {}) => ({ ...asSent(), cars: [COACH], tracks, ...more })
const found = (plan: object) => worked(plan).findings.filter(({ rule }) => rule === 'over-crossing')
// Code 250 rail is 6.35 mm high.
const BRIDGE_MM = 6.35 + 60

describe('over-crossings', () => {
  it('need the highest car and 20 mm under the bridge; at the limit nothing is told', () => {
    expect(found(sent([LOWER, upper(220 + BRIDGE_MM)]))).toEqual([])
    expect(found(sent([LOWER, upper(200 + BRIDGE_MM)]))).toMatchObject([
      {
        severity: 'stop',
        track: 'high',
        measured: expect.closeTo(200, 6),
        limit: 220,
        message: expect.stringContaining(
          'high passes over low at 5000 mm from its start, 10000 mm from that of the lower',
        ),
        // 20 mm at 2 % are 1000 mm each way.
        cure: expect.stringMatching(/^Raise high there by 20 mm: at 2 %, that changes its height from 1000 mm before/),
      },
    ])
  })

  it('a track that is too short for the ramp is not the one to move', () => {
    const [{ cure } = { cure: '' }] = found(sent([LOWER, upper(200 + BRIDGE_MM, 90, 5500)]))
    expect(cure).toMatch(/^Lower low there by 20 mm: at 2 %, that changes its height from 1000 mm/)
    expect(cure).not.toContain('aise high')
  })

  it('of tracks that climb already, the ramp is as long as the grade leaves: by hand', () => {
    // It climbs at 1 % all the way: 20 mm are gained at 2 % − 1 % before the crossing, and lost at 3 % beyond it.
    const climbing = {
      ...upper(0),
      start: { ...upper(0).start },
      gradeLine: [
        { at: 0, elevation: 150 + BRIDGE_MM },
        { at: 10000, elevation: 250 + BRIDGE_MM },
      ],
    }
    const { elevation: _, ...start } = climbing.start
    const [{ cure } = { cure: '' }] = found(sent([LOWER, { ...climbing, start }]))
    expect(cure).toContain('from 2000 mm before the crossing to 667 mm beyond it')
  })

  it('without a height anywhere 250 mm is a guess, and so a warning; a plan may say what is needed', () => {
    const cars = [{ ...COACH, height: undefined }]
    expect(found(sent([LOWER, upper(249 + BRIDGE_MM)], { cars }))).toMatchObject([{ severity: 'warn', limit: 250 }])
    const standards = { clearance: 180, deckThickness: 20 }
    expect(found(sent([LOWER, upper(180 + 6.35 + 20)], { standards }))).toEqual([])
    expect(found(sent([LOWER, upper(179 + 6.35 + 20)], { standards }))).toMatchObject([
      { severity: 'stop', limit: 180 },
    ])
  })

  it('are answered with their place, angle, clear span and abutments: closed forms on straights', () => {
    for (const deg of [90, 30, 150]) {
      const { overCrossings } = worked(sent([LOWER, upper(400, deg)]))
      const halfMm = 65 / Math.sin((deg * Math.PI) / 180)
      expect(overCrossings).toMatchObject([
        {
          ...{ over: 'high', under: 'low' },
          ...{ overAtMm: expect.closeTo(5000, 6), underAtMm: expect.closeTo(10000, 6) },
          ...{
            xMm: expect.closeTo(10000, 6),
            yMm: expect.closeTo(0, 6),
            angleDeg: expect.closeTo(Math.min(deg, 180 - deg), 6),
          },
          ...{ clearMm: expect.closeTo(400 - BRIDGE_MM, 6), neededMm: 220, squareSpanMm: expect.closeTo(130, 6) },
          ...{ abutmentFromMm: expect.closeTo(5000 - halfMm, 1), abutmentToMm: expect.closeTo(5000 + halfMm, 1) },
        },
      ])
    }
  })

  it('a plan without any says nothing of them, and one that has no cars gives no span', () => {
    expect('overCrossings' in worked(sent([LOWER]))).toBe(false)
    const [crossing] = worked(sent([LOWER, upper(400)], { cars: [] })).overCrossings!
    expect(crossing).toMatchObject({ squareSpanMm: null, abutmentFromMm: null, abutmentToMm: null, neededMm: 250 })
  })

  it('are on the bill, each as long as its clear span along the upper track: by hand', () => {
    const bridges = (plan: object) => worked(plan).bill.lines.filter(({ item }) => item === 'bridge')
    const supplies = { bridges: { pricePerM: '80.00' } }
    // 130 mm square at 30° are 260 mm along the upper track; 0.26 m at 80.00 are 20.80.
    expect(bridges(sent([LOWER, upper(400, 30)], { supplies }))).toMatchObject([
      {
        description: 'Bridge over low, span 130 mm square, 260 mm along the track',
        ...{ lengthMm: expect.closeTo(260, 1), unit: 'each', required: 1, toBuy: 1 },
        ...{ unitPrice: '20.80', amount: '20.80', massKg: null },
        reasons: [{ text: '5000 mm from its start, with 60 mm of ties and deck, at 30°', track: 'high', quantity: 1 }],
      },
    ])
    expect(bridges(sent([LOWER, upper(400)]))).toMatchObject([{ unitPrice: null, amount: null }])
    expect(bridges(sent([LOWER, upper(400)], { supplies, cars: [] }))).toMatchObject([
      { lengthMm: null, unitPrice: null, description: expect.stringContaining('span not known') },
    ])
    expect(bridges(sent([LOWER]))).toEqual([])
  })

  it('with a bridge that is there already nothing is bought; under an old track a new one needs one', () => {
    const bridges = (...states: string[]) =>
      worked(sent([LOWER, upper(400)].map((track, index) => ({ ...track, state: states[index] })))).bill.lines.filter(
        ({ item }) => item === 'bridge',
      ).length
    expect([bridges('existing', 'existing'), bridges('new', 'existing'), bridges('existing', 'new')]).toEqual([0, 1, 1])
  })

  it('what is assumed of the bridge is listed where there is one', () => {
    const about = (plan: object) =>
      worked(plan).assumptions.flatMap(({ field, value }) =>
        /clearance|deck/.test(field) ? [`${field} ${value}`] : [],
      )
    expect(about(sent([LOWER]))).toEqual([])
    expect(about(sent([LOWER, upper(400)]))).toEqual(['/standards/clearance 220 mm', '/standards/deckThickness 60 mm'])
  })
})
