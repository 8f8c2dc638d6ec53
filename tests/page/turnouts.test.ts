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

  test('built by hand say on three sheets what rails their other legs take, and feed a frog where there is power', () => {
    const built = worked({ ...spurPlan({ buyable: false, onHand: 0 }), power: { currentA: 3 } })
    for (const sheet of ['line', 'shop', 'saw'] as const) {
      const text = textOf(sheetOf(built, sheet)).replace(/\s+/g, ' ')
      // The leg turns through 9.527° over 3240 mm of curve: 538.7 mm, and goes on straight to where it is 90 mm off.
      expect(text).toMatch(/W1 is built by hand: cut two rails of 812\.5 mm .*for its diverging leg/)
      expect(text).toContain('feed it through a switch')
      expect(textOf(sheetOf(worked(spurPlan()), sheet))).not.toContain('built by hand')
    }
  })
})
