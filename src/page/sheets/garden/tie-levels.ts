import type { Estimate, TrackAnswer } from '../../../estimate/answer.ts'
import type { TieLevel } from '../../../estimate/track/tie-levels.ts'
import { MM_PER_INCH } from '../../../measure/length.ts'
import { type Html, html } from '../../html.ts'
import { gardenLength, type LengthsIn } from '../../show-length.ts'

export const TIES_IN_ROW = 10

/** Of one track; longer ones are in the table of tie levels alone. */
export const MOST_TIE_ROWS = 60

/** The height of every tie of graded tracks with their ground, ten to a row; null where there are none. */
export function tieLevelTables({ tracks, tieLevels }: Estimate, lengthsIn: LengthsIn): Html | null {
  const each = tracks.flatMap((track) => {
    const rows = tieRows(track, tieLevels?.ties ?? [])
    return rows.length === 0
      ? []
      : [html`${tracks.length > 1 && html`<h3>${track.name}</h3>`}${tableOf(track.name, rows, lengthsIn)}`]
  })
  if (each.length === 0) return null
  const unit = lengthsIn === 'feet' ? 'inches' : 'millimetres'
  return html`<p class="hint">Underside of each tie in ${unit}, from the same zero as the heights of the track; then how much to fill or shim up to it from the ground (+), or to cut (−).</p>${each}`
}

function tableOf(track: string, rows: readonly TieLevel[][], lengthsIn: LengthsIn): Html {
  if (rows.length > MOST_TIE_ROWS)
    return html`<p>More ties than are listed here: their heights, and how much to fill or cut under each, are in the table tie-levels.</p>`
  const ahead = Array.from({ length: TIES_IN_ROW }, (_, index) => html`<th scope="col">+${index}</th>`)
  return html`<div class="scroll" role="region" aria-label="Ties of ${track}" tabindex="0"><table class="figures tie-levels">
<thead><tr><th scope="col">Ties from</th><th scope="col">at</th>${ahead}</tr></thead>
<tbody>${rows.map((row) => tieRow(row, lengthsIn))}</tbody></table></div>`
}

function tieRows({ name, profile }: TrackAnswer, ties: readonly TieLevel[]): TieLevel[][] {
  const own = ties.filter(({ track }) => track === name)
  if (profile.steepestPct === 0 || own.every(({ shimMm }) => shimMm === null)) return []
  const rows = Math.ceil(own.length / TIES_IN_ROW)
  return Array.from({ length: rows }, (_, row) => own.slice(row * TIES_IN_ROW, (row + 1) * TIES_IN_ROW))
}

function tieRow(ties: readonly TieLevel[], lengthsIn: LengthsIn): Html {
  const [first] = ties
  const cells = Array.from(
    { length: TIES_IN_ROW },
    (_, index) => html`<td>${ties[index] && tie(ties[index], lengthsIn)}</td>`,
  )
  return html`<tr><th scope="row">${first!.tie}</th><td>${gardenLength(first!.atMm, lengthsIn)}</td>${cells}</tr>
`
}

function tie({ undersideMm, shimMm }: TieLevel, lengthsIn: LengthsIn): Html {
  const sign = shimMm !== null && shimMm < 0 ? '−' : '+'
  return html`${figure(undersideMm, lengthsIn)}${shimMm !== null && html` <b>${sign}${figure(Math.abs(shimMm), lengthsIn)}</b>`}`
}

/** Whole millimetres, or hundredths of an inch. */
function figure(mm: number, lengthsIn: LengthsIn): string {
  const text = lengthsIn === 'feet' ? (mm / MM_PER_INCH).toFixed(2) : mm.toFixed(0)
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−')
}
