import { html } from 'hono/html'
import { TABLE_NAMES, type TableName } from '../../../paper/estimate-tables.ts'

const HOLDS: Readonly<Record<TableName, string>> = {
  elements: 'straights, easements and curves, one a row, with both rails',
  bends: 'how far each rail stands off its chords, and how far to bend it so that it springs back',
  'cut-list': 'what to saw from which stick, one piece a row',
  'bend-marks': 'where on each piece a bend begins and ends',
  joints: 'where two rails meet',
  bill: 'what to buy, and what it costs',
  findings: 'what is wrong with the track, and how to cure it',
}

/** Where a file of a saved plan is, with a gap for which plan. */
export function planFile(base: string, file: string) {
  return html`${base}/v1/projects/<var>PLAN</var>/${file}`
}

export function tablesSection(base: string) {
  return html`<section id="tables"><h2>Tables of a saved plan</h2>
<p>The page of a saved plan is at <code>${base}/plans/<var>PLAN</var></code>. Copy what stands in the place of <var>PLAN</var> there, and put it in its place here:</p>
<div class="wide"><table><thead><tr><th scope="col">Address</th><th scope="col">Holds</th></tr></thead><tbody>
${TABLE_NAMES.map((name) => html`<tr><td><code>${planFile(base, `tables/${name}.csv`)}</code></td><td>${HOLDS[name]}</td></tr>\n`)}<tr><td><code>${planFile(base, 'workbook.xlsx')}</code></td><td>all of them, a sheet each; nothing in it asks again</td></tr>
</tbody></table></div>
<p>With <code>.json</code> in place of <code>.csv</code> the same rows come as JSON. Lengths are millimetres; <code>${planFile(base, 'tables/elements.csv?units=in')}</code> makes inches of them, and with <code>&amp;fraction=16</code> behind it they are feet, inches and sixteenths, as text.</p></section>\n`
}
