import { describe, expect, test } from 'vitest'
import type { Estimate } from '../../src/estimate/answer.ts'
import { elementsTable } from '../../src/page/sheets/line/elements-table.ts'
import { findingList } from '../../src/page/sheets/line/findings.ts'
import { summary } from '../../src/page/sheets/line/summary.ts'
import { assumptionList, fieldName } from '../../src/page/sheets/record/assumptions.ts'
import { cutList } from '../../src/page/sheets/saw/cut-list.ts'
import { groupIdenticalSticks } from '../../src/page/sheets/saw/identical-sticks.ts'
import { pieceMarks } from '../../src/page/sheets/saw/piece-marks.ts'
import { stickBar } from '../../src/page/sheets/saw/stick-bar.ts'
import { shoppingList } from '../../src/page/sheets/shop/shopping-list.ts'
import {
  benchLength,
  depthLength,
  formatDegrees,
  gardenLength,
  lengthText,
  ordinateLength,
} from '../../src/page/show-length.ts'
import { spoken } from '../../src/page/words.ts'
import { example } from '../api/asking.ts'
import { bendCards, linksIn } from './all-sheets.ts'
import { nestingFault, tagsOf, textOf } from './markup.ts'
import { POND_PLAN } from './pond-plan.ts'
import { worked } from './worked.ts'

function estimateOf(plan: unknown): Estimate {
  return worked(plan).estimate
}

const demo = estimateOf(POND_PLAN)
const small = {
  rail: { section: '250', material: 'brass' },
  tracks: [
    {
      name: '<i>yard</i>',
      elements: [
        { kind: 'tangent', length: 1000, label: '<script>1</script>' },
        { kind: 'arc', radius: 2000, angle: 30, turn: 'right' },
        { kind: 'arc', radius: 2000, angle: 40, turn: 'left' },
        { kind: 'arc', radius: 2000, angle: 2, turn: 'left' },
      ],
    },
  ],
}

describe('a loop and a climb', () => {
  test('can be built but for its grade, a warning with a cure, and its rail is cut at the least cost', () => {
    expect(demo.findings.filter(({ severity }) => severity === 'stop')).toEqual([])
    expect(demo.findings.filter(({ severity }) => severity === 'warn').map(({ rule }) => rule)).toEqual([
      'maximum-grade',
    ])
    expect(demo.tracks[0]!.closure!.gapMm).toBeLessThan(1)
    expect(demo.bill.unpricedLines).toBe(0)
    // No other way to divide these rails was ever found cheaper; the bound says that there is none.
    expect(demo.cutting).toMatchObject({ cost: '465.90', costLowerBound: '465.90', provenOptimal: true })
  })
})

describe('the plan in short', () => {
  test('length, sticks to buy, findings, total', () => {
    const text = textOf(summary(demo, linksIn('metric')).toString())
    const metres = demo.tracks.reduce((sum, { lengthMm }) => sum + lengthMm, 0) / 1000
    const sticks = demo.bill.lines
      .filter(({ item }) => item === 'rail-stick')
      .reduce((sum, { toBuy }) => sum + toBuy, 0)
    for (const fact of [
      `${metres.toFixed(3)} m`,
      `${sticks} sticks`,
      '3 findings',
      '1 warning, 2 notes',
      `${demo.bill.total} USD`,
    ])
      expect(text).toContain(fact)
  })

  test('ready-made pieces are counted by themselves, not as sticks', () => {
    const text = textOf(summary(estimateOf(example('oval-of-ready-made-track')), linksIn('metric')).toString())
    // By hand, see the example in tests/api/estimates.test.ts: 5 straight and 6 curved pieces, 5 of the 11 to be bought.
    expect(text).toContain('7 sticks to buy, 7 used in total, and 11 ready-made pieces')
    const loose = textOf(summary(estimateOf(small), linksIn('metric')).toString())
    expect(loose).toMatch(/\d+ sticks to buy, \d+ used in total/)
    expect(loose).not.toContain('ready-made')
  })

  test('without prices it says how many lines have none', () => {
    expect(textOf(summary(estimateOf(small), linksIn('both')).toString())).toContain('without a price')
  })
})

describe('findings', () => {
  test('by letter and element, with the cure', () => {
    const text = textOf(
      findingList(demo.findings, { estimate: demo, fitted: { places: [], patch: [] } }, 'both').toString(),
    )
    expect(text).toContain('A. Warning element 2.2 (easement), terrace line')
    expect(text).toContain('Spread the height difference of 101.6 mm')
  })
})

describe('the cut list', () => {
  const marks = pieceMarks(demo)
  const pieces = demo.cutting.sticks.flatMap((stick) => stick.pieces)

  test('marks every piece, each differently, in order along its rail', () => {
    expect(marks.size).toBe(pieces.length)
    expect(new Set(marks.values()).size).toBe(pieces.length)
    const left = pieces
      .filter(({ track, rail }) => track === 'terrace line' && rail === 'left')
      .toSorted((a, b) => a.fromMm - b.fromMm)
    expect(left.map((piece) => marks.get(piece))).toEqual(left.map((_, index) => `2-L${index + 1}`))
    const single = estimateOf(small)
    expect([...pieceMarks(single).values()].toSorted()[0]).toBe('L1')
  })

  test('shows each stick once, alone or among those alike', () => {
    const groups = groupIdenticalSticks(demo.cutting.sticks)
    expect(groups.flatMap(({ numbers }) => numbers).toSorted((a, b) => a - b)).toEqual(
      demo.cutting.sticks.map((_, index) => index + 1),
    )
    for (const { sticks } of groups)
      for (const stick of sticks) {
        expect(stick.lengthMm).toBe(sticks[0]!.lengthMm)
        expect(stick.pieces.map(({ lengthMm }) => lengthMm.toFixed(1))).toEqual(
          sticks[0]!.pieces.map(({ lengthMm }) => lengthMm.toFixed(1)),
        )
      }
    expect(groups.length).toBeLessThan(demo.cutting.sticks.length)
  })

  test('draws pieces and offcut to scale, one behind the other, inside the stick', () => {
    const longestMm = Math.max(...demo.cutting.sticks.map(({ lengthMm }) => lengthMm))
    for (const stick of demo.cutting.sticks) {
      const bar = tagsOf(stickBar(stick, longestMm).toString())
      const boxes = (name: string) =>
        bar
          .filter(({ attributes }) => attributes.get('class') === name)
          .map(({ attributes }) => ({ x: Number(attributes.get('x')), width: Number(attributes.get('width')) }))
      const unit = 900 / longestMm
      const drawn = boxes('piece')
      expect(drawn).toHaveLength(stick.pieces.length)
      for (const [index, { width }] of drawn.entries())
        expect(width).toBeCloseTo(stick.pieces[index]!.lengthMm * unit, 1)
      for (const [index, { x }] of drawn.entries())
        if (index > 0) expect(x).toBeGreaterThanOrEqual(drawn[index - 1]!.x + drawn[index - 1]!.width - 0.01)
      const [offcut] = boxes('offcut')
      expect(offcut?.width ?? 0).toBeCloseTo(stick.offcutMm * unit, 1)
      const end = offcut ? offcut.x + offcut.width : drawn.at(-1)!.x + drawn.at(-1)!.width
      expect(end).toBeLessThanOrEqual(stick.lengthMm * unit + 0.02)
      for (const bent of boxes('bent')) expect(bent.x + bent.width).toBeLessThanOrEqual(900.02)
    }
  })

  test('tells whole sticks in one line for each length, and each cut stick on a card', () => {
    const markup = cutList(worked(POND_PLAN), 'metric').toString()
    expect(nestingFault(markup)).toBeNull()
    const isWhole = ({ pieces, offcutMm, lengthMm, trimMm }: Estimate['cutting']['sticks'][number]) =>
      pieces.length === 1 && offcutMm === 0 && pieces[0]!.lengthMm + trimMm > lengthMm - 1e-6
    const whole = demo.cutting.sticks.filter(isWhole)
    const list = markup.slice(markup.indexOf('class="whole"'), markup.indexOf('</ul>'))
    for (const stick of demo.cutting.sticks)
      expect(textOf(`<p>${list}</p>`.replace('<p>class="whole">', '<p>')).includes(marks.get(stick.pieces[0]!)!)).toBe(
        whole.includes(stick),
      )
    expect(textOf(cutList(worked(small), 'metric').toString())).not.toContain('cut off after bending')
  })

  test('says what to saw each piece to, where to mark the stick, and whether to keep the offcut', () => {
    // By hand: 2500 − 2000 − 1 of saw cut.
    const sticks = [{ length: 2500, onHand: 2, buyable: false }]
    const straight = (length: number, name: string) => ({ name, elements: [{ kind: 'tangent', length }] })
    const text = textOf(
      cutList(
        worked({
          rail: small.rail,
          tracks: [straight(2000, 'a')],
          supplies: { sticks, minimumPiece: 400, kerf: 1 },
        }),
        'metric',
      ).toString(),
    )
    expect(text).toMatch(/Piece Saw to Mark on the stick L1 , R1 2000 mm 2000 mm Keep the offcut: 2 × 499 mm/)
    const short = cutList(
      worked({ rail: small.rail, tracks: [straight(1200, 'a')], supplies: { sticks: [{ length: 2500 }], kerf: 2 } }),
      'metric',
    )
    // Both rails from one stick: cuts at 1200 and 1200 + 2 + 1200.
    expect(textOf(short.toString())).toMatch(
      /L1 1200 mm 1200 mm R1 1200 mm 2402 mm|R1 1200 mm 1200 mm L1 1200 mm 2402 mm/,
    )
    expect(textOf(short.toString())).toContain('Offcut: 96 mm, too short to keep')
  })

  test('tells what is sawn off bent pieces, and leaves room for it in the bars', () => {
    const rollers = { span: 120, outerRollerRadius: 12, bearsOn: 'foot', mode: 'rolled', ends: 'trim' }
    const trimmed = worked({ ...small, bender: { ...rollers, limits: { setShare: 0, tieForceN: 1 } } })
    const text = textOf(cutList(trimmed, 'metric').toString())
    expect(text).toContain('“Saw to” includes what is cut off after bending')
    const { cutting } = trimmed.estimate
    const longestMm = Math.max(...cutting.sticks.map(({ lengthMm }) => lengthMm))
    expect(cutting.sticks.some(({ trimMm }) => trimMm > 0)).toBe(true)
    for (const stick of cutting.sticks) {
      const boxes = tagsOf(stickBar(stick, longestMm).toString())
        .filter(({ attributes }) => ['piece', 'trim', 'offcut'].includes(attributes.get('class') ?? ''))
        .map(({ attributes }) => ({
          kind: attributes.get('class'),
          from: Number(attributes.get('x')),
          to: Number(attributes.get('x')) + Number(attributes.get('width')),
        }))
      const of = (kind: string) => boxes.filter((box) => box.kind === kind)
      const wide = (kind: string) => of(kind).reduce((sum, { from, to }) => sum + to - from, 0)
      const trimmedMm = stick.pieces.reduce((sum, piece) => sum + (piece.trimMm > 0 ? piece.sawLengthMm : 0), 0)
      expect(wide('trim')).toBeCloseTo((trimmedMm * 900) / longestMm, 1)
      // The trim stands before its piece, behind it, or both.
      const bent = stick.pieces.flatMap((piece, n) => (piece.trimMm > 0 ? [{ piece, box: of('piece')[n]! }] : []))
      for (const [n, { piece, box }] of bent.entries()) {
        expect([0, 60]).toContain(piece.trimStartMm)
        expect([0, 60]).toContain(piece.trimEndMm)
        expect(((box.from - of('trim')[n]!.from) * longestMm) / 900).toBeCloseTo(piece.trimStartMm, 0)
        expect(((of('trim')[n]!.to - box.to) * longestMm) / 900).toBeCloseTo(piece.trimEndMm, 0)
      }
      const end = Math.max(...[...of('piece'), ...of('trim')].map(({ to }) => to))
      expect(end).toBeLessThanOrEqual((of('offcut')[0]?.from ?? (stick.lengthMm * 900) / longestMm) + 0.02)
    }
    const assembled = worked({ ...small, bender: { work: 'assembled', fixedEnd: 'end' } })
    for (const stick of assembled.estimate.cutting.sticks) {
      const boxes = tagsOf(stickBar(stick, longestMm).toString())
      const endsOf = (kind: string) =>
        boxes
          .filter(({ attributes }) => attributes.get('class') === kind)
          .map(({ attributes }) => Number(attributes.get('x')) + Number(attributes.get('width')))
      const pieces = stick.pieces.flatMap(({ trimMm }, n) => (trimMm > 0 ? [endsOf('piece')[n]!] : []))
      expect(endsOf('trim')).toHaveLength(pieces.length)
      for (const [n, end] of endsOf('trim').entries()) expect(end).toBeCloseTo(pieces[n]!, 1)
    }
  })
})

describe('bench cards', () => {
  const estimate = estimateOf(small)
  const markup = bendCards(estimate, 'metric').toString()

  test('one for each radius, with the elements it serves', () => {
    const titles = markup.match(/<h3>Radius.*?<\/h3>/g)!.map((title) => textOf(title))
    expect(titles).toHaveLength(1)
    expect(titles[0]).toContain('Radius 2000 mm, diameter 4000 mm')
    expect(titles[0]).toContain('elements 2, 3 and 4')
  })

  test('ordinates of both rails by closed form, to a hundredth of a millimetre', () => {
    const head = 0.112 * 25.4
    const mid = (radius: number, chord: number) => radius - Math.sqrt(radius ** 2 - (chord / 2) ** 2)
    for (const face of [2000 + 22.5, 2000 - 22.5 - head])
      for (const chord of [300, 500]) expect(textOf(markup)).toContain(`${Number(mid(face, chord).toFixed(2))} mm`)
  })

  test('a plan without curves has nothing to bend', () => {
    const straight = estimateOf({ ...small, tracks: [{ name: 'a', elements: [{ kind: 'tangent', length: 900 }] }] })
    expect(textOf(bendCards(straight, 'both').toString())).toContain('Nothing to bend')
  })
})

describe('tables', () => {
  const estimate = estimateOf(small)

  test('elements with their stations, curve and both rails', () => {
    const text = textOf(elementsTable(estimate.tracks[0]!, 0, String, 'metric').toString())
    // By hand: 2 m · 30° = 1047.2 mm; the left rail of a right turn is the outer one: (2000 + 23.9224) · 30°.
    expect(text).toContain('R 2000 mm, ⌀ 4000 mm, 30° right')
    expect(text).toContain('1047.2 mm')
    expect(text).toContain('1059.7 mm')
    expect(text).toContain('<script>1</script>')
  })

  test('the shopping list has every line of the bill, boxes for what is to buy, and the total', () => {
    const markup = shoppingList(demo.bill, 'both').toString()
    for (const line of demo.bill.lines) expect(textOf(markup)).toContain(line.description)
    expect(markup.match(/class="box"/g)).toHaveLength(demo.bill.lines.filter(({ toBuy }) => toBuy > 0).length)
    expect(textOf(markup)).toContain(`Total in USD ${demo.bill.total}`)
    expect(textOf(shoppingList(estimate.bill, 'both').toString())).toContain('excluding 4 lines without a price')
  })

  test.each([
    ['/supplies/kerf', 'Saw cut width (kerf)'],
    ['/tracks/1/start', 'Start position, terrace line'],
    ['/supplies/sticks/1/packSize', 'Sticks per pack, stick 2'],
    ['/supplies/joiners/packSize', 'Pack size, rail joiners'],
    ['/supplies/ties/spacing', 'Tie spacing'],
    ['/supplies/sticks', 'Sticks'],
    ['/rail/section/headDepth', 'Head depth'],
    ['/turnoutTypes/1/buyable', 'Can be bought, kind of turnout 2'],
    ['/extras/0/packSize', 'Pack size, extra item 1'],
    ['/something/new', 'new'],
  ])('an assumption at %s is called “%s”', (pointer, name) => expect(fieldName(pointer, demo.tracks)).toBe(name))
})

test('what was assumed is told in words, never by an identifier', () => {
  const rollers = { span: 120, outerRollerRadius: 12, bearsOn: 'foot', mode: 'rolled' }
  const text = textOf(assumptionList(estimateOf({ ...small, bender: rollers })).toString())
  expect(text).toContain('Straight ends left by the rollers finished by hand')
  expect(text).toContain('What is bent loose rail')
  expect(text).toContain('Temper not known')
  const held = textOf(assumptionList(estimateOf({ ...small, bender: { work: 'assembled' } })).toString())
  expect(held).toContain('Fixed end start')
  for (const shown of [text, held]) expect(shown).not.toMatch(/finish-by|loose-rail|roll-through/)
})

describe('lengths as they are printed', () => {
  test('1 ft = 304.8 mm; millimetres, feet and inches, or both', () => {
    expect(textOf(`<p>${benchLength(2311.4, 'both').toString()}</p>`).trim()).toBe('2311.4 mm 7 ft 7 in')
    expect(benchLength(2311.4, 'metric').toString()).toBe('2311.4 mm')
    expect(benchLength(2311.4, 'feet').toString()).toBe('7 ft 7 in')
    expect(gardenLength(12_345.6, 'metric').toString()).toBe('12.346 m')
    expect(gardenLength(0, 'both').toString()).toBe('0.000 m')
    // by hand: 2.6 mm are 0.1024 in
    expect(depthLength(2.6, 'feet').toString()).toBe('0.1024 in')
    expect(depthLength(2.61, 'both').toString()).toContain('2.61 mm')
    expect(ordinateLength(4.1275, 'feet').toString()).toBe('5/32 in')
    expect(lengthText(15_240, 'both')).toBe('15.24 m (50 ft)')
  })

  test('angles without zeros behind', () => {
    expect([45, 12.3456, -0.001, 405].map(formatDegrees)).toEqual(['45°', '12.35°', '0°', '405°'])
  })

  test('lists as they are spoken', () => {
    expect([spoken([]), spoken([1]), spoken([1, 4]), spoken([1, 4, 7])]).toEqual(['', '1', '1 and 4', '1, 4 and 7'])
  })
})
