import { describe, expect, test } from 'vitest'
import { planDrawing } from '../../src/page/drawing/plan-drawing.ts'
import { planToDraw } from '../../src/page/drawing/plan-to-draw.ts'
import type { WorkedPlan } from '../../src/page/pages/worked-plan.ts'
import { jointStrips, unrolled } from '../../src/page/sheets/garden/joint-strips.ts'
import { cutList } from '../../src/page/sheets/saw/cut-list.ts'
import { laidPieces, usedPieces } from '../../src/page/sheets/saw/laid-pieces.ts'
import { pieceMarks } from '../../src/page/sheets/saw/piece-marks.ts'
import { layingOrder, readyMadeCosts, readyMadeCuts } from '../../src/page/sheets/saw/ready-made.ts'
import { shoppingList } from '../../src/page/sheets/shop/shopping-list.ts'
import { example } from '../api/asking.ts'
import { bendCards, everySheet, sheetOf } from './all-sheets.ts'
import { nestingFault, tagsOf, textOf } from './markup.ts'
import { worked } from './worked.ts'

const FOOT = 304.8
const oval = worked(example('oval-of-ready-made-track'))

/** What three sheets say of ready-made track, once its markup is known to be sound. */
function sectionOf({ estimate }: WorkedPlan): string {
  const readyMade = estimate.readyMade!
  const parts = [
    readyMadeCosts(estimate, readyMade),
    readyMadeCuts(estimate, readyMade, 'metric'),
    layingOrder(estimate, readyMade, 'metric'),
  ]
  const markup = parts.map((part) => part?.toString() ?? '').join('\n')
  expect(nestingFault(markup)).toBeNull()
  for (const word of ['NaN', 'undefined', 'null', 'Infinity']) expect(textOf(markup)).not.toContain(word)
  return inOneLine(markup)
}

/** Text without the spaces that stand where a tag ends. */
function inOneLine(markup: string): string {
  return textOf(markup)
    .replace(/ (?=[,:])/g, '')
    .trim()
}

const rail = { section: '250', material: 'brass' }
const straight = (length: number) => ({ kind: 'tangent', length })
const curve = { kind: 'arc', radius: 1500, angle: 60, turn: 'right' }
const sticks = [{ length: 1800, price: '20.00' }]

/** Two tracks; the first has a break in a straight, in which no piece of ready-made track goes on. */
const two = worked({
  rail,
  tracks: [
    {
      name: 'first <b>',
      breaks: [{ at: 1250, kind: 'insulated' }],
      elements: [straight(2500), curve, straight(1000)],
    },
    { name: 'second', elements: [curve, { ...curve, radius: 2000 }, straight(1500)] },
  ],
  supplies: {
    sticks,
    readyMade: 'always',
    panels: [
      { length: 1000, ties: 20, name: '<i>old stock</i>' },
      { radius: 1500, angle: 40 },
    ],
  },
})

/** Everything is of ready-made pieces, and nobody has said how hard the rail is. */
const whole = worked({
  rail,
  tracks: [{ name: 'main', elements: [straight(2000), curve] }],
  supplies: { sticks, readyMade: 'always', panels: [{ length: 1000 }, { radius: 1500, angle: 30, ties: 8 }] },
})

describe('the section on ready-made track', () => {
  const text = sectionOf(oval)

  test('says what it costs beside loose rail alone', () => {
    // By hand, see the example in tests/api/estimates.test.ts; 514.10 − 335.90.
    for (const said of ['Cost as planned 335.90 USD', 'Cost with loose rail only 514.10 USD', 'Saving 178.20 USD'])
      expect(text).toContain(said)
  })

  test('lists what to take and to cut, alike ones together', () => {
    const straightTrack = 'Straight track, 1524 mm (5 ft), with 34 ties'
    const curved = 'Curved track, 12 ft in diameter (R 1828.8 mm), 30°, with 21 ties'
    // By hand: 5 ft less twice a foot and twice the kerf of 1 mm are left over.
    for (const row of [
      `2 × ${straightTrack} on hand P1, P2: whole none`,
      `1 × ${straightTrack} to buy P3: cut to 304.8 mm P12: cut to 304.8 mm 912.4 mm`,
      `2 × ${straightTrack} to buy P10, P11: whole none`,
      `4 × ${curved} on hand P4, P5, P6, P7: whole none`,
      `2 × ${curved} to buy P8, P9: whole none`,
    ])
      expect(text).toContain(row)
  })

  test('lists the pieces as they are laid one behind the other, and loose rail where it comes', () => {
    const rows = [...text.matchAll(/P\d+ (\d+\.\d{3}) m (\d+\.\d{3}) m (\d)/g)].map(([, from, to, element]) => [
      Number(from),
      Number(to),
      Number(element),
    ])
    // By hand: pieces of 5 ft and of 30° of 6 ft radius.
    const arc = Math.PI
    const endsFt = [0, 5, 10, 11, ...[1, 2, 3, 4, 5, 6].map((n) => 11 + n * arc)]
    const turned = endsFt.at(-1)!
    const ends = [...endsFt, turned + 5, turned + 10, turned + 11].map((ft) => Number(((ft * FOOT) / 1000).toFixed(3)))
    expect(rows).toEqual(ends.slice(1).map((to, n) => [ends[n], to, n < 3 ? 1 : n < 9 ? 2 : 3]))
    expect(text).toContain('– 12.451 m 18.515 m 4 to 6 loose rail, from the cut list')
  })

  test('says which elements stay loose rail, those with one reason together', () => {
    expect(text).toContain('Elements 4 and 6: loose rail is cheaper.')
    expect(text).toContain('Element 5: no piece has a radius of 1524 mm; the nearest is 1828.8 mm.')
  })

  test('of several tracks, with names and marks of their own', () => {
    const said = sectionOf(two)
    expect(said).toContain('<i>old stock</i>')
    for (const row of ['first <b> Mark', '2-P1 0.000 m 1.047 m 2.1, right', 'Element 2.2: no piece has a radius'])
      expect(said).toContain(row)
    // By hand: 60° are a piece of 40° and 20° of another, π/9 × 1500 mm.
    expect(said).toContain(`cut to 20°, ${((Math.PI / 9) * 1500).toFixed(1)} mm`)
    expect(said).toContain('have no price, so the cost is not known')
  })

  test('says where the plan asks for none, and where none is taken', () => {
    const plan = example('oval-of-ready-made-track') as { supplies: object }
    expect(sectionOf(worked({ ...plan, supplies: { ...plan.supplies, readyMade: 'never' } }))).toBe(
      'The plan lists ready-made pieces but does not use them: all track is made of loose rail.',
    )
    const dear = { ...plan, supplies: { sticks, panels: [{ length: '5 ft', price: '999.00' }] } }
    const said = sectionOf(worked(dear))
    expect(said).toContain('None in this plan:')
    expect(said).toContain('Elements 1 and 3: loose rail is cheaper.')
    expect(said).not.toContain('Order of laying')
  })

  test('tells what stays open where whole pieces do not quite fill', () => {
    const short = worked({
      rail,
      tracks: [{ name: 'main', elements: [straight(2000.8)] }],
      supplies: { sticks, readyMade: 'always', panels: [{ length: 1000 }] },
    })
    expect(sectionOf(short)).toContain('Leave these gaps, spread over the joints: 0.8 mm in element 1.')
    expect(text).not.toContain('Leave these gaps')
  })
})

test.each([
  ['the oval', oval],
  ['two tracks', two],
  ['ready-made track alone', whole],
])('%s: every piece that is laid is cut from one that is taken, and fits into it', (_, { estimate }) => {
  const laid = laidPieces(estimate)
  const taken = usedPieces(estimate)
  expect(laid.length).toBeGreaterThan(0)
  expect(new Set(laid.map(({ mark }) => mark)).size).toBe(laid.length)
  expect(taken.flatMap((each) => each.laid.map(({ mark }) => mark)).toSorted()).toEqual(
    laid.map(({ mark }) => mark).toSorted(),
  )
  for (const [n, each] of taken.entries()) {
    const { lengthMm, kerfMm } = estimate.readyMade!.panels[n]!
    const lengthsMm = each.laid.reduce((sum, piece) => sum + piece.lengthMm, 0)
    expect(lengthsMm + kerfMm + each.offcutMm).toBeCloseTo(lengthMm, 6)
    for (const { panel } of each.laid) expect(panel).toBe(each.panel)
  }
})

describe('the drawing', () => {
  const svg = planDrawing(planToDraw(oval.plan, oval.estimate), [], 'metric')!.toString()
  const tags = tagsOf(svg)
  const classed = (name: string) => tags.filter(({ attributes }) => attributes.get('class') === name)

  test('has an edge for each stretch of ready-made track, under its bed and wider', () => {
    const [edge, ...more] = classed('ready-made')
    expect(more).toHaveLength(2)
    const bed = classed('bed')[0]!
    expect(tags.indexOf(edge!)).toBeLessThan(tags.indexOf(bed))
    expect(Number(edge!.attributes.get('stroke-width'))).toBeGreaterThan(Number(bed.attributes.get('stroke-width')))
    expect(nestingFault(svg, true)).toBeNull()
  })

  test('has a ring at either end of each piece, to scale', () => {
    const rings = classed('piece-end').map(({ attributes }) => Number(attributes.get('cx')))
    // By hand: 3, 6 and 3 pieces have 4, 7 and 4 ends; the first straight runs to the right, 5, 5 and 1 ft.
    expect(rings).toHaveLength(15)
    const [a, b, c, d] = rings as [number, number, number, number]
    expect((b - a) / (d - a)).toBeCloseTo(5 / 11, 3)
    expect((c - a) / (d - a)).toBeCloseTo(10 / 11, 3)
  })

  test('says in words how much there is of it, and its key names it; neither does without', () => {
    // By hand: 22 ft and half a circle of 6 ft radius.
    expect(textOf(svg)).toContain(`${(((22 + 6 * Math.PI) * FOOT) / 1000).toFixed(2)} m of it ready-made track`)
    expect(textOf(sheetOf(oval, 'line'))).toContain('ready-made track and where two pieces meet')
    const none = sheetOf(worked(example('quarter-loop')), 'line')
    expect(none).not.toContain('ready-made')
  })
})

describe('the track unrolled', () => {
  test.each([
    ['the oval', oval, 0],
    ['the first of two tracks', two, 0],
    ['the second of two tracks', two, 1],
  ] as const)(
    '%s: ready-made pieces lie where they are laid, on both rails, and pieces of the cut list between',
    (_, plan, index) => {
      const track = unrolled(plan, index, pieceMarks(plan.estimate))
      const laid = laidPieces(plan.estimate).filter((piece) => piece.track === index)
      for (const side of ['left', 'right'] as const) {
        const { pieces } = track.rails[side]
        expect(pieces.every(({ mark }) => mark !== undefined)).toBe(true)
        for (const { mark, fromMm, toMm } of laid) {
          const [drawn, ...others] = pieces.filter((piece) => piece.mark === mark)
          expect(others).toEqual([])
          expect(drawn!.fromMm).toBeCloseTo(fromMm, 3)
          expect(drawn!.toMm).toBeCloseTo(toMm, 3)
        }
        const cut = plan.estimate.cutting.sticks
          .flatMap((stick) => stick.pieces)
          .filter((piece) => piece.track === track.name && piece.rail === side)
        expect(pieces).toHaveLength(laid.length + cut.length)
      }
    },
  )

  test('shows it by strokes from rail to rail, named in the key', () => {
    const { strips, key } = jointStrips(oval, 'metric')
    expect(strips[0]!.toString()).toContain('fill="url(#made)"')
    expect(textOf(strips[0]!.toString())).toContain('ready-made track from 0.00 m to 1.52 m')
    expect(textOf(key.toString())).toContain('ready-made track')
  })
})

describe('the bench', () => {
  const cards = bendCards(oval.estimate, 'metric').toString()
  const cardOf = (title: string) => cards.split('<section class="bend">').find((card) => card.includes(title))!

  test('a ready-made curve comes bent: ordinates to check with, and nothing to bend', () => {
    const bent = textOf(cardOf('Radius 1829 mm'))
    expect(bent).toContain('already bent element 2')
    expect(bent).toContain('do not bend them')
    for (const word of ['Bend to', 'by machine', 'by hand', 'spring in', 'pinch']) expect(bent).not.toContain(word)
    // By hand: the sagitta of a chord of 500 mm at the face of the outer rail, R + gauge/2.
    const faceMm = 6 * FOOT + 22.5
    expect(bent).toContain(`${(faceMm - Math.sqrt(faceMm ** 2 - 250 ** 2)).toFixed(2)} mm`)
  })

  test('loose curves are bent as ever', () => {
    for (const title of ['Radius 1524 mm', 'Radius 2134 mm']) {
      expect(textOf(cardOf(title))).toContain('Bend to, under load')
      expect(textOf(cardOf(title))).not.toContain('already bent')
    }
  })

  test('where all is ready-made, nothing is bent or cut, and no test bend is asked for', () => {
    const text = textOf(bendCards(whole.estimate, 'metric').toString())
    expect(text).toContain('All curves are made of ready-made pieces, which are already bent. Nothing to bend.')
    expect(text).not.toContain('test bend')
    expect(inOneLine(cutList(whole, 'metric').toString())).toBe(
      'No loose rail is needed, so there are no sticks to cut.',
    )
    const markup = everySheet(whole, 'both')
    expect(markup).not.toMatch(/NaN|Infinity|undefined/)
    expect(nestingFault(markup)).toBeNull()
  })
})

test('the shopping list tells what comes with the pieces, with a minus sign', () => {
  expect(textOf(shoppingList(oval.estimate.bill, 'both').toString())).toContain(
    '−278: herb bed, included with ready-made pieces',
  )
})
