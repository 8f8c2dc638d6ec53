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

/** Where a file of a saved plan is, with a gap for the token of a link. */
export function linkedFile(base: string, file: string) {
  return html`${base}/v1/linked/<var>TOKEN</var>/${file}`
}

export function tablesSection(base: string) {
  return html`<section id="tables"><h2>Tables of a saved plan</h2>
<p>On the page of a saved plan follow <b>links for spreadsheets</b> and make one. It shows the addresses of all its tables, with a long secret in them: copy what you need, for it is shown this once. Whoever has such an address
reads the tables of this one plan and can change nothing. Make one for each spreadsheet; the same page tells when each was used last, and revokes it.</p>
<p>The addresses look like these, with your own secret in the place of <var>TOKEN</var>:</p>
<div class="wide"><table><thead><tr><th scope="col">Address</th><th scope="col">Holds</th></tr></thead><tbody>
${TABLE_NAMES.map((name) => html`<tr><td><code>${linkedFile(base, `tables/${name}.csv`)}</code></td><td>${HOLDS[name]}</td></tr>\n`)}<tr><td><code>${linkedFile(base, 'workbook.xlsx')}</code></td><td>all of them, a sheet each; nothing in it asks again</td></tr>
</tbody></table></div>
<p>With <code>.json</code> in place of <code>.csv</code> the same rows come as JSON. Lengths are millimetres; <code>${linkedFile(base, 'tables/elements.csv?units=in')}</code> makes inches of them, and with <code>&amp;fraction=16</code> behind it they are feet, inches and sixteenths, as text.</p></section>\n`
}
