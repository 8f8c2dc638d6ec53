import type { Estimate } from '../estimate/answer.ts'
import { sum } from '../measure/sum.ts'
import { MOST_TIE_ROWS, TIES_IN_ROW } from '../page/sheets/garden/tie-levels.ts'
import type { PaperFault, PrintedSheet } from '../paper/papers.ts'

/**
 * The most rows and cards of one document. So many take some seconds and about 300 MB, of the 400 MB that a worker thread
 * may use.
 */
const MOST_ROWS = 6_000

/** Why sheets are too long to be printed together, with what each of them has; null if they are not. */
export function tooManyRows(sheets: readonly PrintedSheet[], estimate: Estimate): PaperFault | null {
  const rows = sheets.map((sheet) => ({ sheet, count: ROWS[sheet](estimate) }))
  const all = sum(rows.map(({ count }) => count))
  if (all <= MOST_ROWS) return null
  const alone = rows.filter(({ count }) => count > 0 && count <= MOST_ROWS).map(({ sheet }) => sheet)
  const each = rows.map(({ sheet, count }) => `${sheet} ${count}`).join(', ')
  return {
    parameter: 'for',
    code: 'out-of-range',
    detail: `there are ${all} rows and cards to print (${each}); at most ${MOST_ROWS} are printed at once`,
    hint:
      alone.length > 0 && sheets.length > 1
        ? `print fewer sheets at once: ${alone.join(', ')} can be printed alone`
        : 'print a plan of fewer tracks, or take the tables as CSV (/v1/tables)',
  }
}

/** About how much there is on a sheet: what it has by the thousand in large plans. */
const ROWS: Readonly<Record<PrintedSheet, (estimate: Estimate) => number>> = {
  /** Drawn and listed. */
  line: (estimate) => 2 * elements(estimate) + estimate.findings.length,
  shop: ({ bill }) => bill.lines.length,
  saw: ({ cutting }) => cutting.sticks.length,
  bench: ({ bends, cutting }) =>
    bends.length + sum(cutting.sticks.map(({ pieces }) => pieces.filter((piece) => piece.bends.length > 0).length)),
  garden: (estimate) => elements(estimate) + estimate.joints.length + tieRows(estimate),
}

function elements({ tracks }: Estimate): number {
  return sum(tracks.map((track) => track.elements.length))
}

/** No more than are printed. */
function tieRows({ tieLevels, tracks }: Estimate): number {
  const grounded = tieLevels?.ties.filter(({ shimMm }) => shimMm !== null).length ?? 0
  return Math.min(Math.ceil(grounded / TIES_IN_ROW), MOST_TIE_ROWS * tracks.length)
}
