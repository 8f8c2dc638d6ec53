import { describe, expect, test } from 'vitest'
import { spurPlan } from '../estimate/turnout-plans.ts'
import { everySheet, sheetOf } from './all-sheets.ts'
import { nestingFault, textOf } from './markup.ts'
import { worked } from './worked.ts'

const part = (markup: string, id: string) =>
  textOf(markup.slice(markup.indexOf(`id="${id}"`)).split('</section>')[0]!).replace(/\s+/g, ' ')

describe('the sheets of a plan with a turnout', () => {
  test.each([
    ['bought', {}],
    ['built by hand', { buyable: false, onHand: 0 }],
  ])('%s are sound, all of them', (_, type) => {
    for (const lengthsIn of ['both', 'metric', 'feet'] as const) {
      const markup = everySheet(worked(spurPlan(type)), lengthsIn)
      expect(nestingFault(markup)).toBeNull()
      for (const word of ['NaN', 'undefined', 'null', 'Infinity']) expect(textOf(markup)).not.toContain(word)
    }
  })

  const garden = sheetOf(worked(spurPlan()), 'garden')

  test('set it out: points, frog, ends, and the offsets of its leg (No. 6 at 1 m, closed form)', () => {
    const text = part(garden, 'turnouts')
    expect(text).toContain('W1 six-left main 1.000 m 0.000 m 0° 1.540 m 0.023 m')
    expect(text).toContain('R 3240 mm')
    // 3240 − √(3240² − 100²) = 1.54 mm; 90 mm where the leg ends.
    expect(text).toMatch(/Diverging leg, to the left 100 mm 1\.54 mm 200 mm 6\.18 mm .* 90 mm /)
    expect(text).not.toContain('Through leg')
  })

  test('name it between the pieces it is joined to', () => {
    expect(part(garden, 'gaps')).toMatch(/1-L1 – W1 .*W1 – 1-L2/)
  })

  test('of a wye give offsets of both legs', () => {
    const wye = worked(spurPlan({ hand: 'wye', number: 4 }))
    expect(part(sheetOf(wye, 'garden'), 'turnouts')).toContain('Diverging leg, to the left Through leg, to the right')
  })

  test('built by hand are named on two sheets, and feed a frog where there is power', () => {
    const built = worked({ ...spurPlan({ buyable: false, onHand: 0 }), power: { currentA: 3 } })
    for (const sheet of ['line', 'shop'] as const) {
      const text = textOf(sheetOf(built, sheet)).replace(/\s+/g, ' ')
      // Without heel and toe: two stock rails, switch to wing in one, two point rails, two guard rails.
      expect(text).toContain('W1 is built by hand: its 8 rails are in the cut list')
      expect(text).toContain('feed it through a switch')
      expect(textOf(sheetOf(worked(spurPlan()), sheet))).not.toContain('built by hand')
    }
  })

  test('built by hand mark their rails on the saw sheet, and say on the bench sheet how to bend them', () => {
    const heel = { heelSpread: 6.5, heelAngle: 2.5, pointLength: 150, toeLength: 60 }
    const built = worked(spurPlan({ ...heel, buyable: false, onHand: 0 }))
    const text = (sheet: 'saw' | 'bench') => textOf(sheetOf(built, sheet)).replace(/\s+/g, ' ')
    const saw = text('saw')
    for (let rail = 1; rail <= 12; rail++) expect(saw.split(`W1-${rail} `).length).toBeGreaterThan(2)
    expect(saw).toContain('W1-2 switch rail through left 0 mm 150 mm')
    // Lead 480.4 mm less the toe of 60.
    expect(saw).toContain('W1-4 wing rail through left 420.4 mm')
    const bench = text('bench')
    // The curved closure rail: centre line 2202.3 mm, half the gauge and half the head beyond.
    expect(bench).toContain('R 2226.2 mm')
    expect(bench).toMatch(/W1-7 , stock rail: 2\.5° to the left, at the points/)
    expect(bench).toMatch(/nothing to bend: .*W1-3 , W1-5 , W1-6 , W1-8 , W1-11 , W1-12 W1-7 Saw to/)
    // The wing rails bend by the angle of the frog.
    expect(bench).toMatch(/W1-4 , wing rail: 9\.5\d*° to the left, 4\d\.\d mm/)
    expect(bench).toMatch(/W1-10 , wing rail: 9\.5\d*° to the right, 4\d\.\d mm/)
  })
})
