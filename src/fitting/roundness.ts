import { toDegrees } from '../measure/angle.ts'
import { MM_PER_INCH } from '../measure/length.ts'

/** Steps between figures, from those people write most often. */
const DEGREES = [45, 30, 15, 5, 1, 0.5, 0.1]
const MILLIMETRES = [500, 100, 50, 10, 5, 1, 0.5]
const INCHES = [12, 6, 3, 1, 1 / 2, 1 / 4, 1 / 8]

/** What is none of these. */
export const ODDEST = 7

/** A figure found from a loop is as uncertain as the other figures of the loop are rounded. */
const UNCERTAIN_DEG = 0.02
const UNCERTAIN_MM = 0.25

/** How unlikely it is that somebody meant this figure: 0 for a very round one, up to `ODDEST`. */
export function oddnessOfAngle(rad: number): number {
  return oddness(toDegrees(rad), DEGREES, UNCERTAIN_DEG)
}

/** The same of a length, in millimetres or in inches. */
export function oddnessOfLength(mm: number): number {
  const inches = oddness(mm / MM_PER_INCH, INCHES, UNCERTAIN_MM / MM_PER_INCH)
  return Math.min(oddness(mm, MILLIMETRES, UNCERTAIN_MM), Math.min(ODDEST, inches + 0.5))
}

function oddness(value: number, steps: readonly number[], uncertain: number): number {
  const isMultiple = (step: number) =>
    Math.abs(value - step * Math.round(value / step)) < Math.min(uncertain, step / 10) && value > step / 2
  const index = steps.findIndex(isMultiple)
  return index < 0 ? ODDEST : index
}
