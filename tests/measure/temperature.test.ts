import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import {
  formatCelsius,
  formatKelvins,
  parseTemperature,
  parseTemperatureDifference,
} from '../../src/measure/temperature.ts'

describe('temperatures', () => {
  // By definition: 32 °F = 0 °C, 212 °F = 100 °C, −40 the same in both, 0 K = −273.15 °C.
  test.each([
    ['30 C', 30],
    ['30C', 30],
    ['-5 °C', -5],
    ['−5 °c', -5],
    ['32 F', 0],
    ['212 degrees Fahrenheit', 100],
    ['-40 °F', -40],
    ['85℉', 29.4444444444],
    ['  20.5   celsius ', 20.5],
    ['.5 C', 0.5],
    ['.25 C', 0.25],
    ['20.25 C', 20.25],
    ['20. C', 20],
    ['+5 C', 5],
    ['300.15 kelvin', 27],
    ['300.15 kelvins', 27],
    ['1 degree Celsius', 1],
    ['10 deg C', 10],
    ['273.15 K', 0],
  ])('%s', (text, celsius) => {
    const parsed = parseTemperature(text)
    expect(parsed.ok && parsed.value).toBeCloseTo(celsius, 9)
  })

  test.each(['', '30', 'C', 'warm', '3 0 C', '30 Q', '1e3 C', '30 C 5', '1,5 C'])(
    '%j is refused with a hint',
    (text) => {
      const parsed = parseTemperature(text)
      expect(parsed).toMatchObject({ ok: false })
      expect(!parsed.ok && parsed.hint).toContain('85 F')
    },
  )

  it('shows what was typed, the first forty signs of it', () => {
    const reason = (text: string) => {
      const parsed = parseTemperature(text)
      return parsed.ok ? '' : parsed.reason
    }
    expect(reason('warm')).toBe('"warm" cannot be read as a temperature')
    expect(reason('30')).toBe('"30" has no unit')
    expect(reason('w'.repeat(40))).toContain(`"${'w'.repeat(40)}"`)
    expect(reason('w'.repeat(41))).toContain(`"${'w'.repeat(40)}…"`)
  })

  test.each([
    ['36 F', 20],
    ['20 K', 20],
    ['20 °C', 20],
    ['0 F', 0],
  ])('a difference of %s', (text, kelvins) => {
    const parsed = parseTemperatureDifference(text)
    expect(parsed.ok && parsed.value).toBeCloseTo(kelvins, 9)
  })

  it('a difference between two temperatures is the difference read as such', () => {
    fc.assert(
      fc.property(fc.integer({ min: -200, max: 200 }), fc.integer({ min: 0, max: 200 }), (low, rise) => {
        const [a, b] = [parseTemperature(`${low} F`), parseTemperature(`${low + rise} F`)]
        const difference = parseTemperatureDifference(`${rise} F`)
        if (!a.ok || !b.ok || !difference.ok) throw new Error('unreadable')
        expect(b.value - a.value).toBeCloseTo(difference.value, 9)
      }),
    )
  })

  it('is written with at most one place and no minus before zero', () => {
    expect([formatCelsius(0.05), formatCelsius(10.04)]).toEqual(['0.1 °C', '10 °C'])
    expect([formatCelsius(30), formatCelsius(-17.777), formatCelsius(-0.01), formatKelvins(20)]).toEqual([
      '30 °C',
      '-17.8 °C',
      '0 °C',
      '20 K',
    ])
  })
})
