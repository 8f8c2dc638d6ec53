import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { formatFeetInches, formatMm, parseLength } from '../../src/measure/length.ts'

const read = (text: string) => {
  const parsed = parseLength(text)
  if (!parsed.ok) throw new Error(parsed.reason)
  return parsed.mm
}

describe('reading a length', () => {
  // by hand: 1 ft = 304.8 mm, 1 in = 25.4 mm
  it.each([
    ['8 ft', 2438.4],
    ['8 feet', 2438.4],
    ['1 foot', 304.8],
    ["8'", 2438.4],
    ['7 ft 6 in', 2286],
    ['7ft6in', 2286],
    ['20ft', 6096],
    ['7\' 6-1/2"', 2298.7],
    ['7’ 6-1/2”', 2298.7],
    ['7′ 6 1/2″', 2298.7],
    ["7' 6''", 2286],
    ['7 ft - 6 in', 2286],
    ['6 1/2 in', 165.1],
    ['6½ in', 165.1],
    ['1-3/4 in', 44.45],
    ['3/8 inch', 9.525],
    ['28 inches', 711.2],
    ['2.4 m', 2400],
    ['45mm', 45],
    ['30 cm', 300],
    ['.5 m', 500],
    ['1.5 metres', 1500],
    ['12 millimeters', 12],
    ['3 centimetres', 30],
    ['1 centimeter', 10],
    ['10-11/16 in', 271.4625],
    ['12/16 in', 19.05],
    ['8.25 ft', 2514.6],
    ['- 2 in', -50.8],
    ['7 1/2 ft', 2286],
    ['  8   FT ', 2438.4],
    ['-2 in', -50.8],
    ['−2 in', -50.8],
    ['0 mm', 0],
  ])('%s', (text, mm) => {
    expect(read(text)).toBe(mm)
  })

  it('shows what was typed, the first forty signs of it', () => {
    const reason = (text: string) => {
      const parsed = parseLength(text)
      return parsed.ok ? '' : parsed.reason
    }
    expect(reason('8 yards')).toBe('"8 yards" cannot be read as a length')
    expect(reason('y'.repeat(40))).toContain(`"${'y'.repeat(40)}"`)
    expect(reason('y'.repeat(41))).toContain(`"${'y'.repeat(40)}…"`)
  })

  it.each([
    ['45', 'has no unit'],
    ['6 1/2', 'has no unit'],
    ['', 'cannot be read'],
    ['ft', 'cannot be read'],
    ['2,4 m', 'comma'],
    ['7.5 ft 6 in', 'fraction of a foot'],
    ['1/0 in', 'not a finite'],
    ['1e3 mm', 'cannot be read'],
    ['8 yd', 'cannot be read'],
    ['8 ft 8 ft', 'cannot be read'],
    ['6 in 7 ft', 'cannot be read'],
    ['0x10 mm', 'cannot be read'],
    ['Infinity m', 'cannot be read'],
    [`${'9'.repeat(400)} m`, 'not a finite'],
  ])('refuses %j: %s', (text, reason) => {
    const parsed = parseLength(text)
    expect(parsed.ok).toBe(false)
    if (!parsed.ok) {
      expect(parsed.reason).toContain(reason)
      expect(parsed.reason.length).toBeLessThan(120)
      expect(parsed.hint).not.toBe('')
    }
  })
})

describe('printing a length', () => {
  // by hand
  it.each([
    [2286, '7 ft 6 in'],
    [2298.7, '7 ft 6-1/2 in'],
    [304.8, '1 ft'],
    [0, '0 in'],
    [25.4 / 16, '1/16 in'],
    [25.4 * 6.5, '6-1/2 in'],
    [304.8 + 12.7, '1 ft 1/2 in'],
    [25.4 * 11.99, '1 ft'],
    [-50.8, '-2 in'],
    [-0.1, '0 in'],
  ])('%d mm', (mm, text) => {
    expect(formatFeetInches(mm)).toBe(text)
  })

  it('prints millimetres without trailing zeros', () => {
    expect([381, 2743.2, 1.26, 100, -0.01].map((mm) => formatMm(mm))).toEqual([
      '381 mm',
      '2743.2 mm',
      '1.3 mm',
      '100 mm',
      '0 mm',
    ])
    expect(formatMm(100, 0)).toBe('100 mm')
    expect([formatMm(1.5, 3), formatMm(1.05, 3), formatMm(10, 3)]).toEqual(['1.5 mm', '1.05 mm', '10 mm'])
  })

  it('reads back what it printed, to half a step', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.constantFrom(8, 16, 32, 64),
        (mm, denominator) => {
          expect(Math.abs(read(formatFeetInches(mm, denominator)) - mm)).toBeLessThanOrEqual(12.7 / denominator + 1e-6)
          expect(Math.abs(read(formatMm(mm, 3)) - mm)).toBeLessThanOrEqual(0.0005 + 1e-9)
        },
      ),
    )
  })

  it('reads every figure in every unit as that many of them', () => {
    const units = { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 }
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 99_999 }),
        fc.constantFrom(...(Object.keys(units) as (keyof typeof units)[])),
        fc.constantFrom('', ' '),
        (thousandths, unit, gap) => {
          expect(read(`${thousandths / 1000}${gap}${unit}`)).toBeCloseTo((thousandths / 1000) * units[unit], 6)
        },
      ),
    )
  })
})
