import { FIT } from '../../plan/fields/kinds.ts'
import { type Html, html } from '../html.ts'
import { type Placed, rowsOf, textAt } from './controls.ts'

/** The id of the list of curve sizes, suggested where an element asks for one. */
export const CURVE_SIZES = 'curve-sizes'

/** The hidden field that carries the sizes that a plan was started with, separated by semicolons. */
export const CURVES = 'curves'

/** The sizes that a plan was started with, and those its curves have, each once. */
export function curveSizes(tracks: readonly Placed[], started: string): string[] {
  const used = tracks.flatMap((track) => rowsOf(track, 'elements').map((row) => textAt(row, 'across')))
  const sizes = [...started.split(';'), ...used].map((size) => size.trim())
  return [...new Set(sizes.filter((size) => size !== '' && size !== FIT))].slice(0, MOST_SUGGESTED)
}

const MOST_SUGGESTED = 12

export function sizeList(sizes: readonly string[]): Html | null {
  if (sizes.length === 0) return null
  return html`<datalist id="${CURVE_SIZES}">${sizes.map((size) => html`<option value="${size}"></option>`)}</datalist>
`
}
