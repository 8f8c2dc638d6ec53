import { describe, expect, test } from 'vitest'
import type { AskedTemplate } from '../../src/paper/papers.ts'
import { papers } from '../../src/print/papers.ts'
import { spurPlan } from '../estimate/turnout-plans.ts'
import { POND_PLAN } from '../page/pond-plan.ts'
import { worked } from '../page/worked.ts'
import { circleThrough, type DrawnPath, lengthWithin, pathsOfPages, textOfPages } from './reading-pdf.ts'

/*
 * Templates as their files have them, by the coordinates in their content streams. The radii are those of the plan; a
 * circle is fitted to what is drawn.
 */

const ORIGIN = { plan: 'Demo', revision: 3, date: '2026-05-31' }

async function printed(plan: unknown, asked: Partial<AskedTemplate> & Pick<AskedTemplate, 'template'>) {
  const file = await papers.template(worked(plan), { paper: 'a4', ...asked }, ORIGIN)
  if (!file.ok) throw new Error(JSON.stringify(file.fault))
  return file.pdf
}

async function refused(plan: unknown, asked: Partial<AskedTemplate> & Pick<AskedTemplate, 'template'>) {
  const file = await papers.template(worked(plan), { paper: 'a4', ...asked }, ORIGIN)
  return file.ok ? null : file.fault
}

/** The lines of a page in the width that rails have, each with its corners. */
const railsOf = (page: readonly DrawnPath[]) =>
  page.filter(({ widthMm }) => Math.abs(widthMm - 0.3) < 1e-4).flatMap(({ lines }) => lines)

const oneCurve = (radius: number, angle: number) => ({
  rail: { section: '250', material: 'brass' },
  gauge: 45,
  tracks: [{ name: 'main', elements: [{ kind: 'arc', radius, angle, turn: 'left' }] }],
  supplies: { sticks: [{ length: '6 ft' }] },
})

describe('a curve in true size', () => {
  test.each(['a4', 'letter'] as const)('on %s: each rail is an arc of its radius within 0.05 mm', async (paper) => {
    const plan = oneCurve(1500, 60)
    const { rails } = worked(plan).estimate.tracks[0]!.elements[0]!
    const wanted = Object.values(rails).map(({ radiusMm }) => radiusMm!)
    let found = 0
    for (const page of pathsOfPages(await printed(plan, { template: 'curve', paper })))
      for (const line of railsOf(page)) {
        if (line.length < 8) continue
        const { radius } = circleThrough(line)
        expect(Math.min(...wanted.map((each) => Math.abs(each - radius)))).toBeLessThan(0.05)
        found++
      }
    expect(found).toBeGreaterThan(6)
  })

  test('nothing is missing between the pages: together they have the whole length of both rails', async () => {
    const plan = oneCurve(1500, 60)
    const { rails } = worked(plan).estimate.tracks[0]!.elements[0]!
    const pages = pathsOfPages(await printed(plan, { template: 'curve' }))
    let drawnMm = 0
    for (const page of pages) {
      // The page's own part is the dotted rectangle of its register marks.
      const own = page.find(({ lines, seen }) => seen && lines.length === 1 && lines[0]!.length === 4)!
      const [xs, ys] = [own.lines[0]!.map(({ x }) => x), own.lines[0]!.map(({ y }) => y)]
      const part = { left: Math.min(...xs), right: Math.max(...xs), bottom: Math.min(...ys), top: Math.max(...ys) }
      drawnMm += lengthWithin(railsOf(page), part)
    }
    expect(drawnMm).toBeCloseTo(rails.left.lengthMm + rails.right.lengthMm, 0)
    expect(Math.abs(drawnMm - rails.left.lengthMm - rails.right.lengthMm)).toBeLessThan(0.2)
  })

  test('no page is without rails, and each has its line of 100 mm', async () => {
    const pages = pathsOfPages(await printed(oneCurve(1500, 60), { template: 'curve' }))
    for (const page of pages) {
      const { seen } = page.find(({ widthMm }) => Math.abs(widthMm - 0.3) < 1e-4)!
      expect(lengthWithin(railsOf(page), seen!)).toBeGreaterThan(1)
      const control = page.find(({ widthMm }) => Math.abs(widthMm - 0.25) < 1e-4)!
      const [, bar] = control.lines
      expect(Math.hypot(bar![1]!.x - bar![0]!.x, bar![1]!.y - bar![0]!.y)).toBeCloseTo(100, 3)
    }
  })

  test('no longer than the longest stick', async () => {
    const text = (await textOfPages(await printed(oneCurve(3000, 120), { template: 'curve' }))).join(' ')
    expect(text).toContain('the first 1829 mm (6 ft) of 6283 mm (20 ft 7-3/8 in), as no piece is longer')
  })

  test('an easement too; a straight is refused with the curves there are', async () => {
    const asked = { template: 'curve', track: 'pond loop' } as const
    expect((await textOfPages(await printed(POND_PLAN, { ...asked, element: 1 })))[0]).toContain(
      'Easement 1.2 of pond loop',
    )
    expect(await refused(POND_PLAN, { ...asked, element: 0 })).toEqual({
      parameter: 'element',
      code: 'unknown-value',
      detail: 'element 0 of track "pond loop" is a straight',
      hint: 'use one of 1, 2, 3, 5, 7, 8, 9',
    })
    expect(await refused(POND_PLAN, { ...asked, element: 30 })).toMatchObject({ parameter: 'element' })
    expect(await refused(POND_PLAN, { template: 'curve', track: 'no' })).toMatchObject({ parameter: 'track' })
    expect(await refused(spurPlan(), { template: 'curve' })).toMatchObject({ parameter: 'template' })
  })
})

describe('a chord gauge in true size', () => {
  test('is an arc of the radius of the face it touches, over its chord', async () => {
    const { bends } = worked(POND_PLAN).estimate
    const bend = bends.find(({ rail }) => rail === 'inner')!
    const asked = { template: 'chord', track: bend.track, element: bend.element, rail: 'inner', chord: 300 } as const
    const pages = pathsOfPages(await printed(POND_PLAN, asked))
    const [arc] = railsOf(pages[0]!).sort((a, b) => b.length - a.length)
    expect(Math.abs(circleThrough(arc!).radius - bend.measuredRadiusMm)).toBeLessThan(0.05)
  })

  test('has the ordinates of the bench sheet', async () => {
    const { bends } = worked({ ...oneCurve(1500, 60), chords: [300] }).estimate
    const text = (await textOfPages(await printed(oneCurve(1500, 60), { template: 'chord', chord: 300 }))).join(' ')
    const { midMm, quarterMm } = bends[0]!.ordinates.find(({ chordMm }) => chordMm === 300)!
    expect(text).toContain(midMm.toFixed(2))
    expect(text).toContain(quarterMm.toFixed(2))
  })

  test('a chord longer than the diameter is refused', async () => {
    expect(await refused(oneCurve(600, 60), { template: 'chord', chord: 1300 })).toMatchObject({
      parameter: 'chord',
      code: 'out-of-range',
    })
  })
})

describe('a turnout in true size', () => {
  test('both legs from the points, the curved rails as arcs of No. 6: R = 2·45·6² (closed form)', async () => {
    const pages = pathsOfPages(await printed(spurPlan(), { template: 'turnout' }))
    const curved = pages.flatMap(railsOf).filter((line) => line.length > 8)
    expect(curved.length).toBeGreaterThan(1)
    // Within half of gauge and head width of the centre line's 3240 mm.
    const radii = curved.map((line) => circleThrough(line.slice(0, -1)).radius)
    for (const radius of radii) expect(Math.abs(Math.abs(radius - 3240) - 22.5)).toBeLessThan(3)
  })

  test('ties at the spacing of the track, square to the line through the points', async () => {
    const plan = { ...spurPlan(), supplies: { ties: { spacing: 50 } } }
    const pages = pathsOfPages(await printed(plan, { template: 'turnout' }))
    const ties = pages[1]!.filter(({ widthMm }) => Math.abs(widthMm - 0.2) < 1e-4).flatMap(({ lines }) => lines)
    const xs = ties.map((line) => line[0]!.x).sort((a, b) => a - b)
    for (const [n, x] of xs.slice(1).entries()) expect(x - xs[n]!).toBeCloseTo(50, 2)
    for (const line of ties) expect(line[1]!.x).toBeCloseTo(line[0]!.x, 3)
  })

  test('by its name; one that is not there is refused', async () => {
    expect((await textOfPages(await printed(spurPlan(), { template: 'turnout', turnout: 'W1' })))[0]).toContain('W1')
    expect(await refused(spurPlan(), { template: 'turnout', turnout: 'W2' })).toMatchObject({
      parameter: 'turnout',
      hint: 'there are "W1"',
    })
    expect(await refused(POND_PLAN, { template: 'turnout' })).toMatchObject({ parameter: 'template' })
  })
})

describe('the room of a car in true size', () => {
  const COACH = { name: 'coach', length: 700, truckCentres: 480, width: 130 }
  const WAGON = { name: 'wagon', length: 350, truckCentres: 220, width: 120 }
  const circle = {
    ...oneCurve(1200, 360),
    cars: [WAGON, COACH],
    tracks: [{ name: 'main', closed: true, elements: [{ kind: 'arc', radius: 1200, angle: 360, turn: 'left' }] }],
  }
  /** The lines in the width that only the outline of the room has. */
  const outlinesOf = (pages: readonly (readonly DrawnPath[])[]) =>
    pages.flatMap((page) => page.filter(({ widthMm }) => Math.abs(widthMm - 0.35) < 1e-4).flatMap(({ lines }) => lines))

  test.each([COACH, WAGON])('all round a circle both sides are circles: %o', async (car) => {
    // closed form: the pivots stand on the circle, so the middle of the car is a chord's rise inside it
    const middle = Math.sqrt(1200 ** 2 - (car.truckCentres / 2) ** 2)
    const wanted = [middle - car.width / 2, Math.hypot(middle + car.width / 2, car.length / 2)]
    const lines = outlinesOf(pathsOfPages(await printed(circle, { template: 'envelope', car: car.name })))
    const radii = lines.filter((line) => line.length > 8).map((line) => circleThrough(line).radius)
    expect(radii.length).toBeGreaterThan(2)
    for (const radius of radii) expect(Math.min(...wanted.map((each) => Math.abs(each - radius)))).toBeLessThan(0.05)
    for (const each of wanted) expect(radii.some((radius) => Math.abs(each - radius) < 0.05)).toBe(true)
  })

  test('is that of the longest car, begins before the curve, and has something on every page', async () => {
    const plan = {
      ...circle,
      tracks: [
        {
          name: 'main',
          elements: [
            { kind: 'tangent', length: 1500 },
            { kind: 'arc', radius: 1200, angle: 90, turn: 'right' },
          ],
        },
      ],
    }
    const pdf = await printed(plan, { template: 'envelope' })
    const texts = await textOfPages(pdf)
    expect(texts[0]).toContain('Room of coach on curve 2 of main')
    expect(texts.join(' ')).toContain('the curve begins')
    const pages = pathsOfPages(pdf)
    for (const page of pages) {
      const { seen } = page.find(({ widthMm }) => Math.abs(widthMm - 0.35) < 1e-4)!
      expect(lengthWithin(outlinesOf([page]), seen!)).toBeGreaterThan(1)
    }
    // Half a car before the curve to one and a half on it, on either side.
    const drawnMm = outlinesOf([pages[0]!]).reduce((sum, line) => sum + line.length, 0)
    expect(drawnMm).toBeGreaterThan(20)
    const middle = Math.sqrt(1200 ** 2 - 240 ** 2)
    expect(texts[0]).toContain(`${(1200 - middle + 65).toFixed(1)} mm to the inside`)
    expect(texts[0]).toContain(`${(Math.hypot(middle + 65, 350) - 1200).toFixed(1)} mm to the outside`)
  })

  test('is refused without a car, for one that is not there, and on a curve too tight for it', async () => {
    expect(await refused(oneCurve(1200, 90), { template: 'envelope' })).toMatchObject({
      parameter: 'template',
      detail: 'the plan has no cars',
    })
    expect(await refused(circle, { template: 'envelope', car: 'tender' })).toMatchObject({
      parameter: 'car',
      hint: 'there are "wagon", "coach"',
    })
    const long = { name: 'beam', length: 3000, truckCentres: 2500, width: 100 }
    expect(await refused({ ...circle, cars: [long] }, { template: 'envelope' })).toMatchObject({
      parameter: 'car',
      code: 'out-of-range',
    })
  })
})
