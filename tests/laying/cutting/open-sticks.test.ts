import fc from 'fast-check'
import { expect, test } from 'vitest'
import { OpenSticks } from '../../../src/laying/cutting/open-sticks.ts'
import { exceeds } from '../../../src/measure/counting.ts'

interface Cut {
  readonly name: number
  offcutMm: number
}

const step = fc.record({
  which: fc.nat({ max: 40 }),
  cutCm: fc.nat({ max: 3 }),
  opens: fc.boolean(),
  cm: fc.nat({ max: 20 }),
})

test('the closest and the longest of many sticks are those of a plain search, the first opened of equals', () => {
  fc.assert(
    fc.property(fc.array(step, { maxLength: 60 }), (steps) => {
      const open = new OpenSticks<Cut>()
      const plain: Cut[] = []
      for (const [name, { which, cutCm, opens, cm }] of steps.entries()) {
        const stick = plain[which]
        if (stick && !opens) {
          open.remove(stick)
          stick.offcutMm -= 10 * cutCm
          open.add(stick)
        } else {
          const whole = { name, offcutMm: 10 * cm }
          open.add(whole)
          plain.push(whole)
        }
        const wantedMm = 10 * cutCm + 5 * which
        const fitting = plain.filter(({ offcutMm }) => !exceeds(wantedMm, offcutMm))
        const closest = fitting.reduce<Cut | null>((a, b) => (a && a.offcutMm <= b.offcutMm ? a : b), null)
        const longest = plain.reduce<Cut | null>((a, b) => (a && a.offcutMm >= b.offcutMm ? a : b), null)
        expect(open.closest(wantedMm)).toBe(closest)
        expect(open.longest()).toBe(longest)
      }
    }),
  )
})
