import { describe, expect, it } from 'vitest'
import { alongAtLengthMm, curvedLengthMm } from '../../src/track/curved-length.ts'
import { randomFrom } from '../random.ts'

/** Closed form of the length of a parabola: ∫√(1 + g²) dx = [g√(1 + g²) + asinh g]/(2c), g = g0 + c·x. */
function parabola(grade: number, gradePerMm: number, s: number): number {
  const primitive = (g: number) => (g * Math.hypot(1, g) + Math.asinh(g)) / (2 * gradePerMm)
  return primitive(grade + gradePerMm * s) - primitive(grade)
}

describe('the length of a line over a vertical curve', () => {
  it.each([
    [0.02, -0.03 / 1200, 1200],
    [0.5, -1 / 3000, 3000],
    [-1, 2 / 800, 800],
  ])('is that of the parabola, from grade %d', (grade, gradePerMm, s) => {
    const straight = { perMm: 1, perMm2: 0, grade, gradePerMm }
    expect(curvedLengthMm(straight, s) / parabola(grade, gradePerMm, s)).toBeCloseTo(1, 12)
  })

  it('is that of a fine polygon, where the line is also a curve or an easement', () => {
    const random = randomFrom(11)
    for (let each = 0; each < 20; each++) {
      const s = 200 + 2000 * random()
      const line = {
        perMm: 0.9 + 0.2 * random(),
        perMm2: ((random() - 0.5) * 0.1) / s,
        grade: (random() - 0.5) * 0.1,
        gradePerMm: ((random() - 0.5) * 0.2) / s,
      }
      const steps = 4000
      let polygon = 0
      for (let n = 0; n < steps; n++) {
        const t = (s * (n + 0.5)) / steps
        polygon += (s / steps) * Math.hypot(line.perMm + line.perMm2 * t, line.grade + line.gradePerMm * t)
      }
      expect(curvedLengthMm(line, s)).toBeCloseTo(polygon, 6)
      const part = s * random()
      expect(alongAtLengthMm(line, curvedLengthMm(line, part), s)).toBeCloseTo(part, 9)
    }
  })
})
