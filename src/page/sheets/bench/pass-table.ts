import type { MachineSetting } from '../../../bending/forming/types.ts'
import { type Html, html } from '../../html.ts'
import { benchLength, depthLength, type LengthsIn, lengthText, turnsFigure } from '../../show-length.ts'
import type { Curve } from './curves-by-radius.ts'

/** With more passes than this, only some are listed: the steps are nearly equal. */
const MOST_LISTED = 10

/** Depths of the passes through a roller bender for both rails; null for a single pass or none. */
export function passTable({ radiusMm, outer, inner }: Curve, lengthsIn: LengthsIn): Html | null {
  const rails = [outer, inner].map(({ forming }) => forming.machine?.passes ?? [])
  const most = Math.max(...rails.map((passes) => passes.length))
  if (most < 2) return null
  const every = Math.ceil(most / MOST_LISTED)
  const listed = Array.from({ length: most }, (_, index) => index + 1).filter(
    (pass) => pass % every === 0 || rails.some(({ length }) => length === pass),
  )
  const withTurns = rails.flat().some(({ turns }) => turns !== null)
  const heads = withTurns
    ? html`<th scope="col">Depth</th><th scope="col">Turns</th><th scope="col">Then radius</th>`
    : html`<th scope="col">Depth</th><th scope="col">Then radius</th>`
  const span = withTurns ? 3 : 2
  return html`<div class="scroll" role="region" aria-label="Passes for radius ${lengthText(radiusMm, lengthsIn)}" tabindex="0"><table class="figures passes">
<thead><tr><th scope="col" rowspan="2">Pass</th><th scope="colgroup" colspan="${span}">Outer rail</th><th scope="colgroup" colspan="${span}">Inner rail</th></tr><tr>${heads}${heads}</tr></thead>
<tbody>${listed.map((pass) => html`<tr><th scope="row">${pass}</th>${rails.map((passes) => passCells(passes, pass, withTurns, lengthsIn))}</tr>`)}</tbody></table></div>
${every > 1 && html`<p class="hint">The depth steps are nearly equal; the passes in between are not listed.</p>`}`
}

function passCells(passes: MachineSetting['passes'], pass: number, withTurns: boolean, lengthsIn: LengthsIn): Html {
  const found = passes[pass - 1]
  if (!found) return html`<td class="none" colspan="${withTurns ? 3 : 2}">–</td>`
  const { depthMm, turns, leavesRadiusMm } = found
  const left = leavesRadiusMm === null ? 'straight' : benchLength(leavesRadiusMm, lengthsIn)
  return html`<td>${depthLength(depthMm, lengthsIn)}</td>${withTurns && html`<td>${turns !== null && turnsFigure(turns)}</td>`}<td>${left}</td>`
}
