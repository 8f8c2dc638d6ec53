import { describe, expect, it } from 'vitest'
import { patched } from '../../src/fitting/json-patch.ts'
import { frogAngleRad } from '../../src/track/turnout/frog.ts'
import { asSent, loopPlan, SIX_LEFT, SIX_RIGHT, spurPlan } from '../estimate/turnout-plans.ts'
import { worked } from '../estimate/worked.ts'

const F = frogAngleRad(6, 'half-cot')
const COACH = { name: 'coach', length: 500, truckCentres: 350, width: 120, couplerLength: 20 }
const ENGINE = { name: 'engine', length: 400, truckCentres: 200, width: 110 }
const cars = [COACH, ENGINE]
const train = (name: string, count: number) => ({ name, engine: 'engine', cars: [{ car: 'coach', count }] })
const tangent = (length: number) => ({ kind: 'tangent', length })

const found = (plan: object, rule: string) => worked(plan).findings.filter((finding) => finding.rule === rule)
const on = (plan: object, track: string) => worked(plan).standing!.filter((each) => each.track === track)

describe('standing room', () => {
  it('is not answered for a plan without cars or a spacing of tracks', () => {
    expect(Object.keys(worked(loopPlan()))).not.toContain('standing')
    expect(Object.keys(worked(loopPlan()))).not.toContain('foulingPoints')
  })

  it('of a spur from a No. 6: w / tan(F/2) from where its legs would cross, on both legs (closed form)', () => {
    // A curve of R tangent to the straight at the points, turning F, meets it as a straight from R·tan(F/2) on would.
    const plan = { ...spurPlan(), standards: { trackSpacing: 150 } }
    const [points, spur] = worked(plan).foulingPoints!
    const beyond = 75 / Math.tan(F / 2)
    const crossingMm = 3240 * Math.tan(F / 2)
    expect(points).toMatchObject({ name: 'W1', track: 'main', atMm: expect.closeTo(1000 + crossingMm + beyond, 0) })
    const { divergingEnd } = worked(plan).tracks[0]!.elements[1]!.turnout!
    const outMm = Math.hypot(divergingEnd.xMm - 1000 - crossingMm, divergingEnd.yMm)
    expect(spur).toMatchObject({ track: 'spur', atMm: expect.closeTo(beyond - outMm, 0) })
    const [before, after] = on(plan, 'main')
    expect(before).toMatchObject({ fromMm: 0, toMm: 1000, clearMm: 1000, cars: null, trains: [], pairs: [] })
    expect(after!.fromMm).toBe(points!.atMm)
  })

  it('of cars is no less than their width needs, and more where the leg curves', () => {
    const width = { ...loopPlan(), standards: { trackSpacing: 120 } }
    const [ofWidth] = on(width, 'siding')
    const [ofCars] = on({ ...loopPlan(), cars }, 'siding')
    expect(ofCars!.clearMm).toBeLessThan(ofWidth!.clearMm)
    expect(ofCars!.clearMm).toBeGreaterThan(ofWidth!.clearMm - 400)
  })

  it('counts the longest cars over their couplers, and the trains that fit, alone and in pairs', () => {
    const trains = [train('two', 2), train('four', 4), train('one', 1)]
    const [siding] = on({ ...loopPlan(), cars, trains }, 'siding')
    const lengths = { one: 400 + 540, two: 400 + 2 * 540, four: 400 + 4 * 540 }
    expect(siding!.cars).toBe(Math.floor(siding!.clearMm / 540))
    const fits = (mm: number) => mm <= siding!.clearMm
    expect(siding!.trains).toEqual(['two', 'four', 'one'].filter((name) => fits(lengths[name as 'one'])))
    expect(fits(lengths.one + lengths.two)).toBe(true)
    expect(siding!.pairs).toContainEqual({ first: 'two', second: 'one' })
  })

  it('is the same mirrored, and from the other end of the siding', () => {
    const plan = { ...loopPlan(), cars }
    const clear = (of: object) => on(of, 'siding').map(({ clearMm }) => clearMm)
    const [main, siding] = plan.tracks
    const mirror = { 'six-left': 'six-right', 'six-right': 'six-left', left: 'right', right: 'left' }
    const flipped = (elements: readonly object[]) =>
      elements.map((each) => {
        const { type, turn } = each as { type?: keyof typeof mirror; turn?: keyof typeof mirror }
        return { ...each, ...(type && { type: mirror[type] }), ...(turn && { turn: mirror[turn] }) }
      })
    const mirrored = {
      ...plan,
      tracks: [
        { ...main, elements: flipped(main!.elements) },
        { ...siding, elements: flipped(siding!.elements) },
      ],
    }
    expect(clear(mirrored)[0]).toBeCloseTo(clear(plan)[0]!, 6)
    const back = {
      ...plan,
      tracks: [
        main,
        {
          ...siding,
          start: { from: { turnout: 'W2', leg: 'diverging' } },
          end: { to: { turnout: 'W1', leg: 'diverging' } },
          elements: flipped(siding!.elements).reverse(),
        },
      ],
    }
    expect(clear(back)[0]).toBeCloseTo(clear(plan)[0]!, 1)
  })

  it('goes over the start of a closed track, and skips lifted track', () => {
    const arc = { kind: 'arc', radius: 3000, angle: 180, turn: 'left' }
    const turnout = { kind: 'turnout', name: 'W1', type: 'six-right', enters: 'points' }
    const length = 720
    const plan = {
      ...asSent(),
      turnoutTypes: [{ ...SIX_RIGHT, length }],
      cars,
      tracks: [
        { name: 'oval', closed: true, elements: [tangent(1000), turnout, tangent(3000), arc, tangent(4720), arc] },
        { name: 'spur', start: { from: { turnout: 'W1', leg: 'diverging' } }, elements: [tangent(1500)] },
        { name: 'old', state: 'lifted', start: { y: -3000 }, elements: [tangent(900)] },
      ],
    }
    const oval = on(plan, 'oval')
    expect(oval).toHaveLength(1)
    expect(oval[0]!.toMm).toBeCloseTo(1000, 6)
    expect(oval[0]!.fromMm).toBeGreaterThan(1720)
    const { lengthMm } = worked(plan).tracks[0]!
    expect(oval[0]!.clearMm).toBeCloseTo(lengthMm - oval[0]!.fromMm + 1000, 6)
    expect(on(plan, 'old')).toEqual([])
  })

  it('is divided by a crossing: w / tan(A/2) off its middle on all four arms (closed form)', () => {
    const crossing = { kind: 'crossing', name: 'X1', angle: 60 }
    const lengthMm = 45 / Math.tan(Math.PI / 6) + 90
    const plan = {
      ...asSent(),
      standards: { trackSpacing: 140 },
      tracks: [
        { name: 'a', start: { x: -2000 }, elements: [tangent(2000 - lengthMm / 2), crossing, tangent(1500)] },
        {
          name: 'b',
          start: { x: -1000 * Math.cos(Math.PI / 3), y: -1000 * Math.sin(Math.PI / 3), heading: 60 },
          elements: [tangent(2500)],
        },
      ],
    }
    const offMm = 70 / Math.tan(Math.PI / 6)
    const [a1, a2] = on(plan, 'a')
    expect([a1!.toMm, a2!.fromMm].map((mm) => mm - 2000)).toEqual([expect.closeTo(-offMm, 0), expect.closeTo(offMm, 0)])
    const [b1, b2] = on(plan, 'b')
    expect([b1!.toMm, b2!.fromMm].map((mm) => mm - 1000)).toEqual([expect.closeTo(-offMm, 0), expect.closeTo(offMm, 0)])
    expect(worked(plan).foulingPoints).toHaveLength(4)
  })
})

describe('findings about standing room', () => {
  const trains = [train('six', 6)]

  it('a siding too short for the train is found once, and its remedy makes both tracks longer', () => {
    const plan = { ...loopPlan(), cars, trains }
    const [finding, ...more] = found(plan, 'fouling')
    expect(more).toEqual([])
    expect(finding).toMatchObject({
      severity: 'warn',
      track: 'siding',
      element: null,
      limit: 400 + 6 * 540,
      unit: 'mm',
    })
    expect(finding!.measured).toBe(on(plan, 'siding')[0]!.clearMm)
    const longer = patched(plan, finding!.remedy!) as object
    expect(found(longer, 'fouling')).toEqual([])
    expect(found(longer, 'leg-not-met')).toEqual([])
    expect(on(longer, 'siding')[0]!.trains).toEqual(['six'])
  })

  it('at its length a train fits; of two trains the one that does not is only a note', () => {
    const [siding] = on({ ...loopPlan(), cars }, 'siding')
    const exact = { ...ENGINE, name: 'exact', length: siding!.clearMm, truckCentres: 300 }
    // The cars that decide on the fouling points stay what they were: the long one is no wider and is not listed first.
    const one = { ...loopPlan(), standards: { trackSpacing: 150 }, cars, trains: [train('two', 2), train('six', 6)] }
    expect(found(one, 'fouling')).toMatchObject([{ severity: 'note', limit: 400 + 6 * 540 }])
    const spaced = { ...loopPlan(), standards: { trackSpacing: 150 } }
    const clearMm = on(spaced, 'siding')[0]!.clearMm
    const fitting = (length: number) => ({
      ...spaced,
      cars: [{ ...exact, length }],
      trains: [{ name: 'exact', engine: 'exact' }],
    })
    expect(found(fitting(clearMm), 'fouling')).toEqual([])
    expect(found(fitting(clearMm + 1), 'fouling')).toHaveLength(1)
  })

  it('a spur on which nothing stands clear is found once, and made longer', () => {
    const plan = spurPlan()
    const short = { ...plan, cars, tracks: [plan.tracks[0], { ...plan.tracks[1], elements: [tangent(400)] }] }
    const [finding, ...more] = found(short, 'fouling')
    expect(more).toEqual([])
    expect(finding).toMatchObject({ severity: 'warn', track: 'spur', limit: 540 })
    expect(found(patched(short, finding!.remedy!) as object, 'fouling')).toEqual([])
  })

  it('a crossover is no siding', () => {
    const turnout = (name: string, enters: string) => ({ kind: 'turnout', name, type: 'six-left', enters })
    const spacing = 240
    const plan = {
      ...asSent(),
      turnoutTypes: [SIX_LEFT],
      cars,
      tracks: [
        { name: 'one', elements: [tangent(1000), turnout('W1', 'points'), tangent(2000)] },
        { name: 'two', start: { y: spacing }, elements: [tangent(2000), turnout('W2', 'through'), tangent(1000)] },
        {
          name: 'over',
          start: { from: { turnout: 'W1', leg: 'diverging' } },
          end: { to: { turnout: 'W2', leg: 'diverging' } },
          elements: [tangent((spacing - 180) / Math.sin(F))],
        },
      ],
    }
    expect(found(plan, 'fouling')).toEqual([])
    expect(on(plan, 'over').every(({ clearMm }) => clearMm < 540)).toBe(true)
  })

  it('no room to run round beyond the points is a note at each turnout that lacks it', () => {
    const base = loopPlan()
    const [main, siding] = base.tracks
    const shorter = (firstMm: number) => ({
      ...base,
      cars,
      trains: [train('two', 2)],
      tracks: [{ ...main, elements: [tangent(firstMm), ...main!.elements.slice(1)] }, siding],
    })
    expect(found(shorter(400), 'runaround')).toEqual([])
    expect(found(shorter(399), 'runaround')).toMatchObject([
      { severity: 'note', track: 'main', element: 1, measured: 399, limit: 400 },
    ])
    // The straight is made longer, and its start goes back by as much: all else stays where it is.
    const cured = patched(shorter(399), found(shorter(399), 'runaround')[0]!.remedy!) as object
    expect(found(cured, 'runaround')).toEqual([])
    expect(found(cured, 'leg-not-met')).toEqual([])
    const points = (of: object) => worked(of).tracks[0]!.elements[1]!.turnout!.points
    expect(points(cured).xMm).toBeCloseTo(points(shorter(399)).xMm, 6)
  })

  it('a lead that ends in a curve or at the end of its track gets a straight there', () => {
    const trains = [train('two', 2)]
    const spur = spurPlan().tracks[1]!
    const main = (elements: readonly object[]) => ({
      ...spurPlan(),
      cars,
      trains,
      tracks: [{ name: 'main', elements }, spur],
    })
    const turnout = (enters: string) => ({ kind: 'turnout', name: 'W1', type: 'six-left', enters })
    const arc = { kind: 'arc', radius: 4000, angle: 10, turn: 'right' }
    for (const [elements, added] of [
      [[tangent(2000), turnout('through'), tangent(500)], 2],
      [[tangent(2000), turnout('through'), arc], 3],
      [[arc, turnout('points'), tangent(2000)], 0],
    ] as const) {
      const plan = main(elements)
      const [finding] = found(plan, 'switchback')
      expect(finding!.remedy!.some(({ path }) => path.startsWith(`/tracks/0/elements/${added}`))).toBe(true)
      const cured = patched(plan, finding!.remedy!) as object
      expect(found(cured, 'switchback')).toEqual([])
      const { xMm, yMm } = worked(plan).tracks[1]!.end
      expect(worked(cured).tracks[1]!.end).toMatchObject({ xMm: expect.closeTo(xMm, 5), yMm: expect.closeTo(yMm, 5) })
    }
  })

  it('a switchback lead shorter than every train is a note; not where the track goes on', () => {
    const plan = { ...spurPlan(), cars, trains: [train('two', 2), train('four', 4)] }
    expect(found(plan, 'switchback')).toMatchObject([
      { severity: 'note', track: 'main', element: 1, measured: 1000, limit: 400 + 2 * 540 },
    ])
    const cured = patched(plan, found(plan, 'switchback')[0]!.remedy!) as object
    expect(found(cured, 'switchback')).toEqual([])
    expect(worked(cured).tracks[1]!.end.xMm).toBeCloseTo(worked(plan).tracks[1]!.end.xMm, 6)
    const [main, spur] = plan.tracks
    const on = { ...plan, tracks: [{ ...main, joinsExisting: { start: true } }, spur] }
    expect(found(on, 'switchback')).toEqual([])
    expect(found({ ...plan, trains: [] }, 'switchback')).toEqual([])
  })
})
