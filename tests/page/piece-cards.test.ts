import { describe, expect, test } from 'vitest'
import { checkChord, chordName, chordsToHand } from '../../src/page/sheets/bench/check-chord.ts'
import { pieceCards } from '../../src/page/sheets/bench/piece-cards.ts'
import { piecesToBend } from '../../src/page/sheets/bench/pieces-to-bend.ts'
import { pieceMarks } from '../../src/page/sheets/saw/piece-marks.ts'
import type { LengthsIn } from '../../src/page/show-length.ts'
import { halfHundredth } from './half-hundredth.ts'
import { nestingFault, textOf } from './markup.ts'
import { POND_PLAN } from './pond-plan.ts'
import { worked } from './worked.ts'

const arc = (radius: number, angle: number, turn = 'left') => ({ kind: 'arc', radius, angle, turn })
const straight = (length: number) => ({ kind: 'tangent', length })
const brass = { section: '250', material: 'brass', temper: 'half-hard' }
const rollers = { span: 120, outerRollerRadius: 12, bearsOn: 'web', mode: 'rolled', maxPerPass: 0.5, screwPitch: 1.25 }

const planOf = (elements: object[], rest: object = {}) =>
  worked({ rail: brass, tracks: [{ name: 'a', elements }], ...rest })

function cardsOf(plan: ReturnType<typeof worked>, lengthsIn: LengthsIn = 'metric'): string[] {
  const markup = pieceCards(plan, lengthsIn)!.toString()
  expect(nestingFault(markup)).toBeNull()
  for (const word of ['NaN', 'undefined', 'null', 'Infinity']) expect(textOf(markup)).not.toContain(word)
  return markup
    .split('<section class="job">')
    .slice(1)
    .map((card) => textOf(card.slice(0, card.indexOf('</section>'))).trim())
}

describe('the chord to check with', () => {
  test('is one that people own, in the units of the page, or one of the plan', () => {
    expect(chordsToHand(undefined, 'feet').map(chordName)).toEqual(['12 in', '18 in', '24 in', '36 in'])
    expect(chordsToHand([], 'metric').map(chordName)).toEqual(['300 mm', '500 mm', '1000 mm'])
    expect(chordsToHand(undefined, 'both')).toHaveLength(7)
    expect(chordsToHand([400], 'both')).toEqual([400])
    expect([chordName(304.8), chordName(305)]).toEqual(['12 in', '305 mm'])
  })

  test('is the shortest that is good enough, else the longest that fits, else none', () => {
    // By closed form the smallest chord for 5 % of 1500 mm read to 0.5 mm is near 355 mm.
    expect(checkChord(1500, 900, [300, 500, 1000], 0.5)!.chordMm).toBe(500)
    expect(checkChord(1500, 310, [300, 500, 1000], 0.5)!.chordMm).toBe(300)
    expect(checkChord(1500, 200, [300, 500, 1000], 0.5)).toBeNull()
    const { midMm, quarterMm } = checkChord(1500, 900, [500], 0.5)!
    expect(midMm).toBeCloseTo(1500 - Math.sqrt(1500 ** 2 - 250 ** 2), 9)
    expect(quarterMm).toBeCloseTo(Math.sqrt(1500 ** 2 - 125 ** 2) - Math.sqrt(1500 ** 2 - 250 ** 2), 9)
  })
})

describe('a card for each piece', () => {
  test('every piece is on one card or among the straight ones, alike ones together', () => {
    const { estimate } = worked(POND_PLAN)
    const { bent, straight: plain } = piecesToBend(estimate)
    const shown = [...bent.flatMap(({ marks }) => marks), ...plain]
    expect(shown.toSorted()).toEqual([...pieceMarks(estimate).values()].toSorted())
    expect(bent.some(({ marks }) => marks.length > 1)).toBe(true)
    const pieces = estimate.cutting.sticks.flatMap((stick) => stick.pieces)
    for (const { marks, bends } of bent) {
      const own = pieces.find((each) => pieceMarks(estimate).get(each) === marks[0])!
      expect(bends).toHaveLength(own.bends.length)
      for (const [n, { curve, stations }] of bends.entries()) {
        expect(curve === null).toBe(own.bends[n]!.radiusMm === null)
        if (curve) expect(curve.radiusMm).toBeCloseTo(own.bends[n]!.radiusMm!, 6)
        else expect(stations!.length).toBeGreaterThan(1)
      }
    }
  })

  test('has the steps in the order of the work: saw, mark, bend, check, trim', () => {
    // Quarter-hard stainless of this radius asks for a machine.
    const plan = planOf([straight(500), arc(1000, 60), straight(500)], {
      rail: { section: '332', material: 'stainless', temper: 'quarter-hard' },
      bender: { ...rollers, ends: 'trim' },
      supplies: { sticks: [{ length: 3000 }] },
    })
    const [card] = cardsOf(plan)
    const outer = plan.estimate.bends.find(({ side }) => side === 'left')!
    const saw = plan.estimate.cutting.sticks.flatMap(({ pieces }) => pieces).find(({ rail }) => rail === 'left')!
    const machine = outer.forming.machine!
    const steps = [
      `Saw to ${Number(saw.sawLengthMm.toFixed(1))} mm`,
      // By hand: the straight before the curve is 500 mm long.
      `Mark ${Number((saw.trimStartMm + 500).toFixed(1))} mm and`,
      `Bend to depth ${halfHundredth(machine.depthMm)} mm · ${halfHundredth(machine.turns!)} turns, ${machine.passes.length} passes: ${halfHundredth(machine.passes[0]!.depthMm)}`,
      'Check on 300 mm: middle',
      ...(saw.trimMm > 0 ? [`Trim to ${Number(saw.lengthMm.toFixed(1))} mm`] : []),
    ]
    let from = 0
    for (const step of steps) {
      const at = card!.indexOf(step, from)
      expect([step, at >= from]).toEqual([step, true])
      from = at
    }
  })

  test('of a piece that is bent all along needs no marks; by hand it says how far', () => {
    const plan = planOf([arc(700, 60)], { supplies: { sticks: [{ length: 3000 }] } })
    const cards = cardsOf(plan)
    expect(cards).toHaveLength(2)
    expect(cards[0]).toContain('No marks : the whole piece, left, R')
    expect(cards[0]).toMatch(/Bend by (?:hand|machine) to R [\d.]+ mm under load/)
  })

  test('of rail without a temper asks for a test bend and gives the range', () => {
    const plan = worked({
      rail: { section: '250', material: 'stainless' },
      tracks: [{ name: 'a', elements: [arc(1500, 60)] }],
    })
    expect(cardsOf(plan)[0]).toMatch(/R [\d.]+ mm to [\d.]+ mm under load; make a test bend first/)
  })

  test('has no step for the last few millimetres of an easement', () => {
    // A break 8 mm before the end of the easement: as much of it is left on the second piece of each rail.
    const track = {
      name: 'a',
      elements: [{ kind: 'easement', length: 1500 }, arc(3000, 20)],
      breaks: [{ at: 1492, kind: 'bridge-end' }],
    }
    const cards = cardsOf(worked({ rail: brass, tracks: [track], supplies: { sticks: [{ length: 3000 }] } }))
    expect(cards.filter((card) => card.includes('Easement'))).toHaveLength(2)
    const second = cards.filter((card) => /^[LR]2/.test(card))
    expect(second).toHaveLength(2)
    for (const card of second) expect(card).toContain('No marks : the whole piece, left, R')
  })

  test('has the places of an easement from one end of it to the other', () => {
    const elements = [straight(200), { kind: 'easement', length: 400 }, arc(1500, 30)]
    const supplies = { sticks: [{ length: 3000 }] }
    expect(cardsOf(planOf(elements, { supplies }))[0]).toContain('Easement , left: do not bend it, spring it in')
    const plan = planOf(elements, { supplies, bender: { limits: { setShare: 0, tieForceN: 1 } } })
    const [left] = cardsOf(plan)
    expect(left).toContain('Easement , left, straight to R')
    expect(left).toMatch(/200 mm\s+straight/)
    const stations = plan.estimate.easements.find(({ side }) => side === 'left')!.stations
    expect(left).toContain(`${Number((200 + stations.at(-1)!.atMm).toFixed(1))} mm`)
  })

  test('in feet has no millimetres but in the names of chords', () => {
    for (const card of cardsOf(worked({ ...POND_PLAN, chords: ['12 in', '24 in'] }), 'feet'))
      expect(card).not.toMatch(/\d mm/)
  })

  test('a plan without bends has none', () => {
    expect(pieceCards(planOf([straight(2000)]), 'metric')).toBeNull()
  })
})
