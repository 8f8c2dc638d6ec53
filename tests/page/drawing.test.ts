import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Finding } from '../../src/checking/finding.ts'
import type { PlanToDraw, TrackToDraw } from '../../src/page/drawing/drawn-plan.ts'
import { OccupiedSpace, placeLabel } from '../../src/page/drawing/label-places.ts'
import { planDrawing } from '../../src/page/drawing/plan-drawing.ts'
import { profileDrawing } from '../../src/page/drawing/profile.ts'
import { roundImperial, roundMetric } from '../../src/page/drawing/scale-bar.ts'
import type { ElementInput, GradePoint } from '../../src/plan/rows/track.ts'
import { placeElements } from '../../src/track/place.ts'
import { arc, easement, straight } from '../estimate/plans.ts'
import { gradesAlong } from '../track/grade-line.ts'
import { nestingFault, type Tag, tagsOf, textOf } from './markup.ts'

const GAUGE_MM = 45
const HEAD_MM = 2.8

function track(elements: ElementInput[], more: Partial<TrackToDraw> = {}, headingDeg = 0): TrackToDraw {
  const start = { xMm: 0, yMm: 0, headingRad: (headingDeg * Math.PI) / 180 }
  const closed = more.closed ?? false
  const placed = placeElements(start, elements, closed)
  return { name: 'main', joinsExisting: { start: false, end: false }, tieSpacingMm: 45, ...more, closed, placed }
}

function drawing(tracks: TrackToDraw[], findings: Finding[] = []): string {
  const plan: PlanToDraw = { title: 'A <plan>', gaugeMm: GAUGE_MM, headWidthMm: HEAD_MM, tracks }
  return planDrawing(plan, findings, 'both')!.toString()
}

/** Corners of a path that is made of `M` and `L` alone, in drawing units. */
function corners(tag: Tag | undefined): [number, number][] {
  const numbers =
    tag?.attributes
      .get('d')
      ?.match(/-?\d+(?:\.\d+)?/g)
      ?.map(Number) ?? []
  return Array.from({ length: numbers.length / 2 }, (_, n) => [numbers[2 * n]!, numbers[2 * n + 1]!])
}

function rails(svg: string): Tag[] {
  return tagsOf(svg).filter(({ name, attributes }) => name === 'path' && attributes.get('class')?.startsWith('rail'))
}

function scaleBars(svg: string): { mm: number; width: number }[] {
  const tags = tagsOf(svg)
  return tags.flatMap(({ attributes }, index) => {
    const mm = attributes.get('data-mm')
    return mm === undefined ? [] : [{ mm: Number(mm), width: Number(tags[index + 1]!.attributes.get('width')) }]
  })
}

const helix = [arc(1500, 600, 'right')]
const PLANS: [string, TrackToDraw[]][] = [
  ['one straight', [track([straight(3000)])]],
  ['one straight up the sheet', [track([straight(3000)], {}, 90)]],
  ['one curve', [track([arc(2000, 30)])]],
  ['600 degrees', [track(helix)]],
  ['a thousand turns', [track([arc(900, 360_000)])]],
  ['a closed loop', [track([straight(2000), arc(1200, 180), straight(2000), arc(1200, 180)], { closed: true })]],
  ['a tiny one', [track([straight(0.01)])]],
  ['a huge one', [track([straight(1e9), arc(1e8, 90)])]],
  ['ends at old track', [track([straight(900), arc(900, 20)], { joinsExisting: { start: true, end: true } })]],
  [
    'eased both ways',
    [track([straight(500), easement(600), arc(1800, 40, 'left'), easement(900), arc(2400, 25, 'right')])],
  ],
  ['two tracks far apart', [track([straight(900)]), { ...track([arc(700, 45)]), name: '<b>' }]],
]

describe.each(PLANS)('the drawing of %s', (_, tracks) => {
  const svg = drawing(tracks)

  test('is well-formed, and every number in it is one', () => {
    expect(nestingFault(svg, true)).toBeNull()
    expect(svg).not.toMatch(/NaN|Infinity|undefined|null/)
  })

  test('keeps rails, joints and labels inside the sheet', () => {
    const [, , width, height] = tagsOf(svg)[0]!.attributes.get('viewBox')!.split(' ').map(Number)
    const inside = (x: number, y: number) => x >= 0 && x <= width! && y >= 0 && y <= height!
    for (const rail of rails(svg)) for (const [x, y] of corners(rail)) expect(inside(x, y)).toBe(true)
    for (const { name, kind, attributes } of tagsOf(svg))
      if (name === 'text' && kind === 'open')
        expect(inside(Number(attributes.get('x')), Number(attributes.get('y')))).toBe(true)
  })
})

test('without a track there is nothing to draw', () => {
  expect(planDrawing({ title: null, gaugeMm: 45, headWidthMm: 2.8, tracks: [] }, [], 'both')).toBeNull()
})

describe('to scale', () => {
  test.each([300, 4321, 10_000, 77_777, 1e6])('a straight of %d mm is as long as the scale bars say', (lengthMm) => {
    const svg = drawing([track([straight(lengthMm)])])
    const ends = corners(rails(svg)[0])
    const perMm = (ends.at(-1)![0] - ends[0]![0]) / lengthMm
    const bars = scaleBars(svg)
    expect(bars).toHaveLength(2)
    for (const { mm, width } of bars) expect(Math.abs(width - mm * perMm)).toBeLessThan(0.02)
  })

  test('the rails stand as far apart as gauge and head make it, at the same scale in both directions', () => {
    const length = 2500
    for (const heading of [0, 90, 217]) {
      const svg = drawing([track([straight(length)], {}, heading)])
      const [left, right] = rails(svg).map(corners)
      const along = Math.hypot(left!.at(-1)![0] - left![0]![0], left!.at(-1)![1] - left![0]![1])
      const apart = Math.hypot(left![0]![0] - right![0]![0], left![0]![1] - right![0]![1])
      expect(apart / along).toBeCloseTo((GAUGE_MM + HEAD_MM) / length, 4)
    }
  })

  test('y is up the sheet: a left turn from heading 0 ends higher, a right turn lower', () => {
    const rise = (turn: 'left' | 'right') => {
      const line = corners(rails(drawing([track([arc(2000, 80, turn)])]))[0])
      return line[0]![1] - line.at(-1)![1]
    }
    expect(rise('left')).toBeGreaterThan(100)
    expect(rise('right')).toBeLessThan(-100)
  })

  test('where the rails would run into one another there is one line, and it says so', () => {
    const svg = drawing([track([straight(400_000)])])
    expect(rails(svg)).toHaveLength(1)
    expect(textOf(svg)).toContain('At this scale, both rails are drawn as one line')
  })

  test('a curve is drawn within 0.2 units of its true line', () => {
    const svg = drawing([track([arc(2000, 350)])])
    const [line] = rails(svg).map(corners)
    // Three points of the drawn line give the circle's centre and radius.
    const [a, b, c] = [line![0]!, line![Math.floor(line!.length / 3)]!, line![Math.floor((2 * line!.length) / 3)]!]
    const { x, y, r } = circleThrough(a, b, c)
    for (let n = 1; n < line!.length; n++) {
      const middle = [(line![n]![0] + line![n - 1]![0]) / 2, (line![n]![1] + line![n - 1]![1]) / 2]
      expect(Math.abs(Math.hypot(middle[0]! - x, middle[1]! - y) - r)).toBeLessThan(0.2)
    }
  })
})

function circleThrough(a: number[], b: number[], c: number[]): { x: number; y: number; r: number } {
  const [ax, ay, bx, by, cx, cy] = [a[0]!, a[1]!, b[0]!, b[1]!, c[0]!, c[1]!]
  const d = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
  const [sa, sb, sc] = [ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy]
  const x = (sa * (by - cy) + sb * (cy - ay) + sc * (ay - by)) / d
  const y = (sa * (cx - bx) + sb * (ax - cx) + sc * (bx - ax)) / d
  return { x, y, r: Math.hypot(ax - x, ay - y) }
}

describe('what is written on it', () => {
  const svg = drawing([track([straight(3000), arc(1524, 90), straight(2000)])])

  test('elements by number, curves with their radius', () => {
    const numbers = tagsOf(svg).filter(({ attributes }) => attributes.get('class') === 'number')
    expect(numbers.map(({ text }) => text).toSorted()).toEqual(['1', '2', '3'])
    expect(textOf(svg)).toContain('R 1524 mm (5 ft)')
  })

  test('names are text, whatever is in them', () => {
    const odd = drawing([track([straight(900)]), { ...track([arc(700, 45)]), name: '<script>x</script>' }])
    expect(nestingFault(odd, true)).toBeNull()
    expect(textOf(odd)).toContain('Start of <script>x</script>')
    expect(tagsOf(odd).some(({ name }) => name === 'script')).toBe(false)
  })

  test('findings by letter, each severity with a shape of its own and the element in its line style', () => {
    const finding = (severity: Finding['severity'], element: number): Finding => ({
      rule: 'x',
      severity,
      track: 'main',
      element,
      message: '',
      measured: null,
      limit: null,
      unit: null,
      cure: '',
    })
    const found = drawing(
      [track([straight(3000), arc(1524, 90), straight(2000)])],
      [finding('stop', 0), finding('warn', 1), finding('note', 2)],
    )
    const signs = found.match(/<g class="sign \w+"[^>]*>.*?<\/g>/g)!
    expect(signs.map((sign) => [sign.match(/sign (\w+)/)![1], sign.includes('<circle'), textOf(sign).trim()])).toEqual([
      ['stop', false, 'A'],
      ['warn', false, 'B'],
      ['note', true, 'C'],
    ])
    for (const severity of ['stop', 'warn', 'note']) expect(found).toContain(`class="found ${severity}"`)
  })
})

test('two thousand elements are drawn in a moment, and in a few hundred kilobytes', () => {
  const elements = Array.from({ length: 2000 }, (_, n) =>
    n % 3 === 1 ? arc(1500 + n, 25, n % 2 ? 'left' : 'right') : straight(700 + n),
  )
  const began = performance.now()
  const svg = drawing([track(elements)])
  expect(performance.now() - began).toBeLessThan(5000)
  expect(svg.length).toBeLessThan(600_000)
  expect(nestingFault(svg, true)).toBeNull()
})

describe('round lengths of a scale bar', () => {
  test.each([
    [1, 1, '1 mm'],
    [999, 500, '500 mm'],
    [1000, 1000, '1 m'],
    [4999, 2000, '2 m'],
    [5000, 5000, '5 m'],
    [0.034, 0.02, '0.02 mm'],
  ])('at most %d mm: %d', (most, mm, name) => expect(roundMetric(most)).toEqual({ mm, name }))

  test.each([
    [304.8, 304.8, '1 ft'],
    [304.7, 6 * 25.4, '6 in'],
    [2000, 5 * 304.8, '5 ft'],
    [76.2, 76.2, '3 in'],
    [10, 25.4 / 4, '1/4 in'],
  ])('at most %d mm in feet and inches: %d', (most, mm, name) => {
    expect(roundImperial(most)).toEqual({ mm: expect.closeTo(mm, 9), name })
  })

  test('never longer than asked, never much shorter', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: 1e9, noNaN: true }), (most) => {
        const { mm } = roundMetric(most)
        expect(mm).toBeLessThanOrEqual(most * (1 + 1e-9))
        expect(mm).toBeGreaterThan(most / 2.51)
      }),
    )
  })
})

describe('places of labels', () => {
  test('never overlap, never leave the sheet, never cover what is occupied', () => {
    const unit = fc.double({ min: 0, max: 2 * Math.PI, noNaN: true })
    const wish = fc.record({
      x: fc.integer({ min: 0, max: 400 }),
      y: fc.integer({ min: 0, max: 300 }),
      way: unit,
      width: fc.integer({ min: 8, max: 120 }),
    })
    fc.assert(
      fc.property(fc.array(wish, { maxLength: 40 }), (wishes) => {
        const occupied = new OccupiedSpace(400, 300)
        const track = { x: 0, y: 140, width: 400, height: 20 }
        occupied.occupy(track)
        const boxes = wishes.flatMap(({ x, y, way, width }) => {
          const aside = { x: Math.cos(way), y: Math.sin(way) }
          return placeLabel(occupied, { width, height: 18 }, [{ spot: { x, y }, aside }], [4, 14])?.box ?? []
        })
        for (const [index, a] of boxes.entries()) {
          expect(a.x >= 0 && a.y >= 0 && a.x + a.width <= 400 && a.y + a.height <= 300).toBe(true)
          for (const b of [track, ...boxes.slice(0, index)])
            expect(a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height).toBe(
              false,
            )
        }
      }),
    )
  })

  test('stand off their spot by the distance asked for', () => {
    const occupied = new OccupiedSpace(400, 300)
    const place = placeLabel(
      occupied,
      { width: 100, height: 20 },
      [{ spot: { x: 200, y: 150 }, aside: { x: 0, y: -1 } }],
      [10],
    )
    expect(place?.box.y).toBeCloseTo(150 - 10 - 20, 0)
    expect(place?.box.x).toBeCloseTo(150, 6)
  })
})

describe('the track from the side', () => {
  const points = [
    { at: 0, elevation: 100 },
    { at: 2000, elevation: 100 },
    { at: 4000, elevation: 60 },
  ]
  const tracked = (lengthMm: number, gradeLine: readonly GradePoint[], name = 'a') => ({
    name,
    lengthMm,
    startElevationMm: gradeLine[0]?.elevation ?? 0,
    grades: gradesAlong(gradeLine, lengthMm),
  })

  test('is not drawn while it is level', () => {
    expect(profileDrawing(tracked(5000, points.slice(0, 2)), 'p', 'both')).toBeNull()
    expect(profileDrawing(tracked(1500, points), 'p', 'both')).toBeNull()
    expect(profileDrawing(tracked(1500, []), 'p', 'both')).toBeNull()
  })

  test('shows each grade with its sign, and the heights of both ends', () => {
    const svg = profileDrawing(tracked(5000, points, '<a>'), 'p', 'metric')!.toString()
    expect(nestingFault(svg, true)).toBeNull()
    // By hand: 40 mm down over 2 m.
    expect(textOf(svg)).toContain('↘ 2 %')
    expect(textOf(svg)).toContain('100 mm')
    expect(textOf(svg)).toContain('60 mm')
  })

  test('shows a vertical curve as one, without a grade of its own', () => {
    const curved = tracked(6000, [
      { at: 0, gradePct: 2 },
      { at: 3000, gradePct: -2, verticalCurve: 2000 },
    ])
    const svg = profileDrawing(curved, 'p', 'metric')!.toString()
    const text = textOf(svg)
    expect([text.includes('↗ 2 %'), text.includes('↘ 2 %')]).toEqual([true, true])
    expect(svg.match(/class="grade"/g)).toHaveLength(2)
    // By hand: the two straights and twelve lines between them.
    const rail = /class="rail" d="([^"]+)"/.exec(svg)![1]!
    expect(rail.match(/\d+(?:\.\d+)?[ ,]\d+(?:\.\d+)?/g)).toHaveLength(15)
  })
})
