import { describe, expect, test } from 'vitest'
import type { Estimate } from '../../src/estimate/answer.ts'
import { chordDrawing } from '../../src/page/drawing/chord-drawing.ts'
import { calibrationResult } from '../../src/page/sheets/bench/calibration-result.ts'
import { curvesByRadius } from '../../src/page/sheets/bench/curves-by-radius.ts'
import { bendCards } from './all-sheets.ts'
import { halfHundredth } from './half-hundredth.ts'
import { nestingFault, tagsOf, textOf } from './markup.ts'
import { worked } from './worked.ts'

const HEAD = 0.112 * 25.4
const arc = (radius: number, angle: number, turn = 'left') => ({ kind: 'arc', radius, angle, turn })
const rollers = { span: 120, outerRollerRadius: 12, bearsOn: 'web', mode: 'rolled' }

function estimateOf(rail: object, elements: object[], rest: object = {}): Estimate {
  const plan = { rail: { section: '250', ...rail }, tracks: [{ name: '<i>yard</i>', elements }], ...rest }
  return worked(plan).estimate
}

/** Text of the cards, once their markup is known to be sound. */
function cardText(estimate: Estimate, lengthsIn: 'metric' | 'both' | 'feet' = 'metric'): string {
  const markup = bendCards(estimate, lengthsIn).toString()
  expect(nestingFault(markup)).toBeNull()
  expect(markup).not.toContain('<i>')
  for (const word of ['NaN', 'undefined', 'null', 'Infinity']) expect(textOf(markup)).not.toContain(word)
  return textOf(markup)
}

const mm = (value: number) => `${Number(value.toFixed(1))} mm`

describe('a card of rail whose temper nobody knows', () => {
  const estimate = estimateOf({ material: 'stainless' }, [arc(900, 90)], { bender: rollers })
  const text = cardText(estimate)
  const { forming } = estimate.bends[0]!

  test('gives the range over the tempers, each by its name, and no single figure', () => {
    expect(text).toContain(`Bend to, under load ${mm(forming.band.lowMm)} to ${mm(forming.band.highMm)}`)
    expect(forming.tempers).toHaveLength(3)
    for (const name of ['304 annealed', '304 quarter hard', '316 annealed']) expect(text).toContain(`if ${name}`)
    for (const row of ['Overbend', 'Roller depth']) expect(text).not.toContain(row)
  })

  test('asks for a test bend, and says what the advice was weighed with', () => {
    expect(text).toContain('Please make a test bend')
    expect(text).toContain('Based on the hardest temper')
    const inner = estimate.bends.find(({ rail }) => rail === 'inner')!.forming.band
    for (const said of [
      'Make one test bend to get exact figures',
      `from ${inner.lowMm.toFixed(0)} mm to ${inner.highMm.toFixed(0)} mm`,
      'Take an offcut',
      'the chord and the gap',
      'one bend around a form does',
    ])
      expect(text).toContain(said)
    const links = tagsOf(bendCards(estimate, 'metric').toString()).flatMap(
      ({ attributes }) => attributes.get('href') ?? [],
    )
    for (const link of [
      '#test-bend',
      '/plans/x/line?show=metric&edit#rail.calibration',
      '/plans/x/line?show=metric&edit#rail.temper',
    ])
      expect(links).toContain(link)
  })

  test('leads from each rail to the check of its readings', () => {
    const links = tagsOf(bendCards(estimate, 'metric').toString()).flatMap(
      ({ attributes }) => attributes.get('href') ?? [],
    )
    for (const { measuredRadiusMm, recommendedChordMm } of estimate.bends)
      expect(links).toContain(
        `/check?chord=${recommendedChordMm}&acrossIs=radius&across=${Number(measuredRadiusMm.toFixed(2))}`,
      )
  })
})

describe('a card of brass for a tight curve', () => {
  const estimate = estimateOf({ material: 'brass', temper: 'half-hard' }, [arc(400, 120)])
  const text = cardText(estimate)

  test('is bent by hand, with the reason in words', () => {
    expect(estimate.bends.map(({ forming }) => forming.method)).toEqual(['hand', 'hand'])
    expect(text).toMatch(
      /Both rails by hand \. .*of the curvature would set.* Force, overbend ratio and joints are all within/,
    )
    expect(text).not.toContain('test bend')
  })

  test('tells the radius under load with its band, the overbend and the chord', () => {
    for (const { forming } of estimate.bends) {
      expect(text).toContain(mm(forming.formingRadiusMm!))
      expect(text).toContain(`${mm(forming.band.lowMm)} to ${mm(forming.band.highMm)}`)
      expect(text).toMatch(new RegExp(`Overbend ratio [\\d. ]*${forming.overbendRatio!.toFixed(2)}`))
    }
    expect(text).toContain('Chord to use 300 mm 300 mm')
  })

  test('shows ordinates of both faces at the middle, quarters and eighths by closed form', () => {
    // y(x) = √(R² − x²) − √(R² − (C/2)²), x from the middle of the chord.
    const ordinate = (radius: number, chord: number, x: number) =>
      Math.sqrt(radius ** 2 - x ** 2) - Math.sqrt(radius ** 2 - (chord / 2) ** 2)
    for (const face of [400 + 22.5, 400 - 22.5 - HEAD])
      for (const chord of [300, 500]) {
        const row = [0, 1 / 8, 1 / 4, 3 / 8].map((x) => `${Number(ordinate(face, chord, x * chord).toFixed(2))} mm`)
        expect(text).toContain(`${chord} mm ${row.join(' ')}`)
      }
  })

  test('reminds of eyes, spring, pinch points and twist in one line', () => {
    for (const word of ['eye protection', 'spring', 'pinch points', 'foot is flat']) expect(text).toContain(word)
  })
})

describe('a card of stainless rail with rollers', () => {
  const bender = { ...rollers, maxPerPass: 0.5, screwPitch: 1.5, ends: 'trim' }
  const estimate = estimateOf(
    { section: '332', material: 'stainless', temper: 'quarter-hard' },
    [arc(1500, 60, 'right')],
    { bender },
  )
  const text = cardText(estimate)

  test('is bent by machine, to a depth in passes and turns', () => {
    expect(text).toContain('by machine')
    const table = bendCards(estimate, 'metric')
      .toString()
      .match(/<table class="figures passes">.*?<\/table>/s)![0]
    const depths = estimate.bends.map(({ forming }) => forming.machine!.depthMm)
    // 1.5 mm to a turn.
    const counts = estimate.bends.map(({ forming }) => forming.machine!.passes.length)
    expect(table.match(/<th scope="row">/g)).toHaveLength(Math.max(...counts))
    for (const { radiusMm } of estimate.bends) expect(textOf(table)).toContain(`${Number(radiusMm.toFixed(1))} mm`)
    for (const depth of depths) {
      expect(textOf(table)).toContain(`${halfHundredth(depth)} mm ${halfHundredth(depth / 1.5)}`)
      expect(text).toContain(`${halfHundredth(depth)} mm`)
    }
    expect(text).toContain('starting estimate')
  })

  test('says what stays straight, half the span, and what becomes of it', () => {
    expect(text).toContain('Straight at each end 60 mm 60 mm')
    expect(text).toContain('are cut off')
  })

  test('leaves out most of very many passes, never the last', () => {
    const many = estimateOf({ section: '332', material: 'stainless', temper: 'quarter-hard' }, [arc(1500, 60)], {
      bender: { ...bender, maxPerPass: 0.05 },
    })
    const table = bendCards(many, 'metric')
      .toString()
      .match(/<table class="figures passes">.*?<\/table>/s)![0]
    const rows = [...table.matchAll(/<th scope="row">(\d+)/g)].map(([, pass]) => Number(pass))
    const counts = many.bends.map(({ forming }) => forming.machine!.passes.length)
    expect(Math.max(...counts)).toBeGreaterThan(30)
    expect(rows.length).toBeLessThanOrEqual(12)
    for (const count of counts) expect(rows).toContain(count)
    expect(cardText(many)).toContain('the passes in between are not listed')
  })
})

describe('a card of assembled track', () => {
  const bender = { work: 'assembled', fixedEnd: 'end' }
  const elements = [arc(2000, 30), { kind: 'tangent', length: 400 }, arc(2000, 60, 'right')]
  const text = cardText(estimateOf({ material: 'brass', temper: 'half-hard' }, elements, { bender }))

  test('tells how far one setting misses either rail, and how far the inner one creeps in each curve', () => {
    // By hand: half of gauge and head, (45 + 2.8448)/2 = 23.9 mm; creep 47.8448·π/6 = 25.05 mm, and twice that.
    expect(text).toContain('23.9 mm too tight, 1.2 %')
    expect(text).toContain('23.9 mm too flat, 1.2 %')
    expect(text).toContain('held at its end')
    expect(text).toMatch(/past the outer at the start: 25\.1 mm in element 1; 50\.1 mm in element 3/)
  })
})

describe('rail that is sprung in', () => {
  const estimate = estimateOf({ material: 'stainless', temper: 'quarter-hard' }, [arc(9000, 40)], { bender: rollers })
  const text = cardText(estimate)

  test('is not bent: its card says what hands and ties hold, and to set the ends of its sticks', () => {
    for (const { forming } of estimate.bends) {
      const { forcePairN, jointForceSetEndsN, handForceN, jointKinkDeg } = forming.springIn!
      for (const newtons of [forcePairN, jointForceSetEndsN, handForceN])
        expect(text).toContain(`${newtons.toFixed(0)} N`)
      expect(text).toContain(`${jointKinkDeg.toFixed(1)}°`)
      expect(text).toContain(`Bend the ends to, under load`)
    }
    expect(text).toContain('Both rails sprung in . ')
    expect(text).toContain('Do not bend rail that is sprung in.')
    expect(text).toContain('Set only the last 150 mm to 300 mm at each end of every stick')
    expect(text).toContain('whips')
  })

  test('has the figures for bending it folded away', () => {
    const markup = bendCards(estimate, 'metric').toString()
    const folded = markup.match(/<details class="instead">.*<\/details>/s)![0]
    const shown = textOf(markup.replace(folded, ''))
    for (const word of ['Overbend ratio', 'Roller depth', 'finish the straight ends'])
      expect([textOf(folded).includes(word), shown.includes(word)]).toEqual([true, false])
  })

  test('of unknown temper asks for no test bend', () => {
    const unknown = cardText(estimateOf({ material: 'stainless' }, [arc(9000, 40)]))
    expect(unknown).toContain('Do not bend rail that is sprung in.')
    expect(unknown).not.toContain('Please make a test bend')
    expect(unknown).not.toContain('Make one test bend')
  })

  test('beside rail that is bent is asked for a test bend of that', () => {
    const both = cardText(estimateOf({ material: 'stainless' }, [arc(9000, 40), arc(900, 60)]))
    expect(both).toContain('Make one test bend')
    expect(both.match(/Please make a test bend/g)).toHaveLength(1)
  })

  test('as assembled track has its ties off the ends while these are set', () => {
    const assembled = cardText(
      estimateOf({ material: 'brass', temper: 'half-hard' }, [arc(3000, 40)], { bender: { work: 'assembled' } }),
    )
    expect(assembled).toContain('take the ties off these ends first')
    expect(text).not.toContain('take the ties off')
    expect(assembled).toContain('The inner rail creeps')
  })
})

describe('curves on one card', () => {
  test('are of the same radius, whichever way they turn, however long they are and wherever their joints fall', () => {
    const estimate = estimateOf({ material: 'brass', temper: 'half-hard' }, [
      arc(2000, 30),
      arc(1500, 30),
      arc(2000, 40, 'right'),
      arc(2000, 2),
    ])
    const curves = curvesByRadius(estimate)
    expect(curves.map(({ radiusMm, places }) => [radiusMm, places.map(({ element }) => element)])).toEqual([
      [1500, [1]],
      [2000, [0, 2, 3]],
    ])
    // The card is that of the longest: 40°.
    expect(curves[1]!.outer.element).toBe(2)
    // 2° of 2 m is 70 mm: no chord fits, and those of 300 and 500 mm are too long.
    const text = cardText(estimate)
    expect(text).toContain('In element 4, which is shorter, use chord: none (too long here: 300 mm and 500 mm).')
    expect(text).not.toContain('In element 1, which is shorter')
  })

  test('that are advised differently say which is bent how', () => {
    // A stick of 5 ft has a joint in the long curve, and none in the short one.
    const estimate = estimateOf({ material: 'brass', temper: 'half-hard' }, [arc(700, 170), arc(700, 10)], {
      bender: { limits: { overbendRatio: 10, handForceN: 10_000, jointFlat: 0.1 } },
    })
    expect(curvesByRadius(estimate)).toHaveLength(1)
    const [long, short] = [0, 1].map((index) => estimate.bends.filter(({ element }) => element === index))
    expect(long!.map(({ forming }) => forming.reasonId)).toContain('joints')
    expect(short!.map(({ forming }) => forming.reasonId)).not.toContain('joints')
    const text = cardText(estimate)
    expect(text).toMatch(/In element 1 ?: .*by machine/)
    expect(text).toMatch(/In element 2 ?: .*by hand/)
  })

  test('too short for any chord are told so', () => {
    const text = cardText(estimateOf({ material: 'brass', temper: 'half-hard' }, [arc(2000, 2)]))
    expect(text).toContain('Chord to use none fits none fits')
    expect(text).toContain('None of the chords fits in this bend')
  })
})

describe('easements', () => {
  const easement = { kind: 'easement', length: 450 }

  test('into a curve and out of it are one table, from the slack end, outer rail first', () => {
    const estimate = estimateOf({ material: 'brass', temper: 'half-hard' }, [easement, arc(1800, 60), easement])
    const text = cardText(estimate)
    expect(text).toContain('Elements 1 and 3 from the flatter end')
    expect(text.match(/from the flatter end/g)).toHaveLength(1)
    // By hand: half-way the curvature is half: centre line 3600 mm, the rails' lines 23.9 mm either way.
    expect(text).toMatch(/3623\.9 mm [\d.]+ mm [\d.]+ mm 3576\.1 mm/)
    const tight = estimate.easements.find(({ element, side }) => element === 0 && side === 'right')!.stations.at(-1)!
    expect(text).toContain(`1823.9 mm ${mm(tight.formingRadiusMm!)}`)
  })

  test('that change their hand have a left and a right rail', () => {
    const text = cardText(
      estimateOf({ material: 'brass', temper: 'half-hard' }, [arc(1800, 20), easement, arc(1500, 20, 'right')]),
    )
    expect(text).toContain('Left rail, distance')
    expect(text).toContain('from its start')
  })

  test('without a known temper show what shall be kept, and ask for a test bend', () => {
    const text = cardText(estimateOf({ material: 'brass' }, [easement, arc(1800, 60)]))
    expect(text).toContain('not known without a test bend')
    expect(text).not.toContain('Bend to Inner')
  })
})

describe('what test bends told', () => {
  test('stands above the cards, which then say whose band it is', () => {
    const calibration = [
      { formedRadius: 500, restingRadius: 1500 },
      { formedRadius: 600, restingRadius: 2200 },
    ]
    const estimate = estimateOf({ material: 'stainless', calibration }, [arc(1800, 60)])
    const text = cardText(estimate)
    const { effectiveYieldMpa, lowMpa, highMpa } = estimate.calibration!
    expect(text).toContain(
      `Your rail has a yield strength of ${effectiveYieldMpa!.toFixed(0)} MPa (${lowMpa!.toFixed(0)} to ${highMpa!.toFixed(0)} MPa)`,
    )
    expect(text).toContain('Range from the test bends')
    expect(text).not.toContain('Please make a test bend')
  })

  test('may be no yield, a contradiction, a band open at one side, a line of the bender', () => {
    const reading = { yieldMpa: null, lowMpa: null, highMpa: null, sensitivity: null, used: false }
    const shown = calibrationResult(
      {
        effectiveYieldMpa: null,
        lowMpa: null,
        highMpa: null,
        determined: 'poorly',
        from: 'passes',
        tells: ['yield-or-offset', 'scale'],
        consistent: false,
        readings: [reading, { ...reading, yieldMpa: 210.4, lowMpa: 190, used: true }],
        benderLine: { offsetMm: 0.25, scale: 1.1, passes: 3, spreadMm: 0.04 },
      },
      'metric',
    )!
    const text = textOf(shown.toString())
    expect(nestingFault(shown.toString())).toBeNull()
    for (const said of [
      'No yield strength matches these passes',
      'contradict each other',
      '210 MPa 190 MPa or more yes',
      'based on 3 passes: depth = 0.25 mm + 1.100 × the estimated depth',
      'spread of the passes: 0.04 mm',
    ])
      expect(text).toContain(said)
    expect(calibrationResult(null, 'metric')).toBeNull()
  })
})

describe('the drawing of a chord', () => {
  test.each([
    [1500, 300],
    [300, 600],
    [40_000, 500],
  ])('radius %d mm, chord %d mm: ordinates rise as they are, both halves alike', (radiusMm, chordMm) => {
    const markup = chordDrawing({ radiusMm, chordMm, title: '<b>&"' }, 'drawn', 'both').toString()
    expect(nestingFault(markup, true)).toBeNull()
    expect(markup).toContain('&lt;b&gt;&amp;&quot;')
    const drawn = tagsOf(markup)
      .find(({ attributes }) => attributes.get('class') === 'ordinate')!
      .attributes.get('d')!
    const heights = [...drawn.matchAll(/M([\d.]+) ([\d.]+)V([\d.]+)/g)]
      .map(([, x, from, to]) => ({ x: Number(x), height: Number(from) - Number(to) }))
      .toSorted((a, b) => a.x - b.x)
      .map(({ height }) => height)
    expect(heights).toHaveLength(7)
    const ordinate = (x: number) => Math.sqrt(radiusMm ** 2 - x ** 2) - Math.sqrt(radiusMm ** 2 - (chordMm / 2) ** 2)
    for (const [index, height] of heights.entries())
      expect(height / heights[3]!).toBeCloseTo(ordinate(((index - 3) / 8) * chordMm) / ordinate(0), 2)
  })

  test('is labelled in the units that are asked for', () => {
    const labels = (lengthsIn: 'both' | 'metric' | 'feet') =>
      textOf(chordDrawing({ radiusMm: 1500, chordMm: 300, title: 'x' }, 'drawn', lengthsIn).toString())
    // Mid-ordinate by closed form: 1500 − √(1500² − 150²) = 7.52 mm, 0.296 in, 19/64 in.
    expect(labels('both')).toMatch(/7\.52 mm.*19\/64 in/)
    expect(labels('metric')).not.toContain(' in')
    expect(labels('feet').replace(/^.*eighths /, '')).not.toContain('mm')
  })
})
