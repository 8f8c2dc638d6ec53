import { ordinateAtMm } from '../../bending/ordinates.ts'
import { formatFeetInches } from '../../measure/length.ts'
import { type LengthsIn, lengthText } from '../../page/show-length.ts'
import { LINE_ERROR_MM, radiusText, type Template, type TemplateLabel, type TemplateLine } from './template.ts'

/** How wide the gauge is below its chord. */
const BODY_MM = 30

/**
 * A gauge to saw from a board and hold against the inside of a bent rail: it fits without a gap where the radius is
 * right. Its curved edge is an arc over the chord,
 *
 * y = R·cos φ − R·cos φ₀, x = R·sin φ, −φ₀ ≤ φ ≤ φ₀, sin φ₀ = c/2R
 *
 * R the radius of the face it touches, c the chord, mm; 0 < c ≤ 2R. Closed form; its corners are laid so closely that no
 * side leaves the arc by more than `LINE_ERROR_MM`. Checked in tests/print/templates.test.ts by fitting a circle to the
 * file's own coordinates.
 */
export function chordTemplate(
  faceRadiusMm: number,
  chordMm: number,
  { name, lengthsIn }: { readonly name: string; readonly lengthsIn: LengthsIn },
): Template {
  const half = Math.asin(chordMm / 2 / faceRadiusMm)
  // A side over an angle α leaves the arc by R(1 − cos α/2), about Rα²/8.
  const sides = Math.max(2, Math.ceil((2 * half) / Math.sqrt((8 * LINE_ERROR_MM) / faceRadiusMm)))
  const arc = Array.from({ length: sides + 1 }, (_, index) => {
    const angle = -half + (2 * half * index) / sides
    return {
      xMm: faceRadiusMm * Math.sin(angle),
      yMm: faceRadiusMm * (Math.cos(angle) - Math.cos(half)),
    }
  })
  const [left, right] = [-chordMm / 2, chordMm / 2]
  const body: TemplateLine = {
    look: 'cut',
    points: [arc[0]!, { xMm: left, yMm: -BODY_MM }, { xMm: right, yMm: -BODY_MM }, arc.at(-1)!],
  }
  const eighths = [1, 2, 3, 4, 5, 6, 7].map((eighth) => {
    const xMm = left + (chordMm * eighth) / 8
    return { xMm, ordinateMm: ordinateAtMm(faceRadiusMm, chordMm, xMm) ?? 0 }
  })
  const ordinates = eighths.map(
    ({ xMm, ordinateMm }): TemplateLine => ({
      look: 'mark',
      points: [
        { xMm, yMm: 0 },
        { xMm, yMm: ordinateMm },
      ],
    }),
  )
  const chord: TemplateLine = {
    look: 'centre',
    points: [
      { xMm: left, yMm: 0 },
      { xMm: right, yMm: 0 },
    ],
  }
  const labels = eighths.map(
    ({ xMm, ordinateMm }): TemplateLabel => ({
      at: { xMm: xMm + 1, yMm: -5 },
      text: ordinateText(ordinateMm, lengthsIn),
    }),
  )
  return {
    title: name,
    facts: `Chord ${lengthText(chordMm, lengthsIn)}, radius ${radiusText(faceRadiusMm, lengthsIn)} at the face it touches. Saw along the thick lines and hold the curved edge against the inside of the bend, at the rail head. Ordinates stand at every eighth of the chord.`,
    lines: [{ look: 'rail', points: arc }, body, chord, ...ordinates],
    labels,
  }
}

function ordinateText(mm: number, lengthsIn: LengthsIn): string {
  return lengthsIn === 'feet' ? formatFeetInches(mm, 64) : mm.toFixed(2)
}
