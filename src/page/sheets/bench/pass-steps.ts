import type { MachineSetting } from '../../../bending/forming/types.ts'
import { type Html, html } from '../../html.ts'
import { depthFigure, type LengthsIn } from '../../show-length.ts'

/** With more passes than this, only the first and the last are told; the table of the curve has the others. */
const MOST_TOLD = 8

/** The depths of the passes in a row, in one unit; null for a single pass. */
export function passSteps(passes: MachineSetting['passes'], lengthsIn: LengthsIn): Html | null {
  if (passes.length < 2) return null
  const unit = lengthsIn === 'feet' ? 'feet' : 'metric'
  const told = passes.length > MOST_TOLD ? [passes[0]!, passes.at(-1)!] : passes
  const between = passes.length > MOST_TOLD ? ' … ' : ', '
  const row = told.map(({ depthMm }, index) => html`${index > 0 && between}${depthFigure(depthMm, unit)}`)
  return html`, ${passes.length} passes: ${row} ${unit === 'feet' ? 'in' : 'mm'}`
}
