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
