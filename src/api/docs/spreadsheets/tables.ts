import { html } from 'hono/html'
import { TABLE_NAMES, type TableName } from '../../../paper/estimate-tables.ts'

const HOLDS: Readonly<Record<TableName, string>> = {
  elements: 'straights, easements and curves, one a row, with both rails',
  bends: 'how far each rail stands off its chords, and how far to bend it so that it springs back',
  'cut-list': 'what to saw from which stick, one piece a row',
  'bend-marks': 'where on each piece a bend begins and ends',
  'ready-made': 'where ready-made pieces lie, one a row in the order in which they are laid',
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
<p>With <code>.json</code> in place of <code>.csv</code> the same rows come as JSON. Lengths are millimetres; <code>${linkedFile(base, 'tables/elements.csv?units=in')}</code> makes inches of them, and with <code>&amp;fraction=16</code> behind it they are feet, inches and sixteenths, as text.</p>
<h3 id="csv">Tables as CSV</h3>
<p>Commas stand between cells, and numbers have decimal points. For a spreadsheet that opens such a file by double-click and expects something else, the address can ask for it:</p>
<div class="wide"><table><thead><tr><th scope="col">Address</th><th scope="col">For</th></tr></thead><tbody>
<tr><td><code>${linkedFile(base, 'tables/bill.csv?sep=semicolon&decimal=comma')}</code></td><td>Excel where decimals have a comma: semicolons between cells, commas in numbers</td></tr>
<tr><td><code>${linkedFile(base, 'tables/bill.csv?sep=tab')}</code></td><td>tabs between cells, as a spreadsheet copies and pastes them; <code>&amp;decimal=comma</code> goes with it too</td></tr>
<tr><td><code>${linkedFile(base, 'tables/bill.csv?bom=1')}</code></td><td>Excel that shows Ã¼ in the place of ü: a mark at the beginning tells it the file is UTF-8; <code>&amp;bom=1</code> goes behind the others too</td></tr>
</tbody></table></div>
<p>A spreadsheet runs a cell of a CSV file as a formula when it begins with <code>=</code>, <code>+</code>, <code>-</code>, <code>@</code> or a tab. A text of yours that does so, a remark such as <code>-see note</code>, therefore has an apostrophe before it: <code>'-see note</code>.
So has such a part of a text behind a comma, a semicolon, a tab or a new line, where a program that takes another separator would begin a cell. One apostrophe more than you typed, always: whoever wants the text back takes one off at these places. Numbers, JSON and the workbook have none.</p></section>\n`
}

/** Rows that go the other way. */
export function rowsInSection() {
  return html`<section id="rows-in"><h2>A track typed in your spreadsheet</h2>
<p>Type one element a row, under a header of <code>kind</code>, <code>length</code>, <code>radius</code> or <code>diameter</code>, <code>angle</code>, <code>turn</code> and <code>label</code>, in any order; leave out what you do not need. A unit may stand in the header, as in <code>length (ft)</code>, or in the cell, as in <code>7 ft 6 in</code>; without one, millimetres.</p>
<div class="wide"><table class="sheet"><thead><tr><th scope="col">kind</th><th scope="col">length (ft)</th><th scope="col">diameter (ft)</th><th scope="col">angle</th><th scope="col">turn</th></tr></thead><tbody>
<tr><td>tangent</td><td>6</td><td></td><td></td><td></td></tr>
<tr><td>arc</td><td></td><td>18</td><td>45</td><td>left</td></tr>
<tr><td>easement</td><td>2</td><td></td><td></td><td></td></tr></tbody></table></div>
<p>Copy the rows and paste them on the page of a plan under <b>Elements from a spreadsheet</b>, or choose the file there, CSV or XLSX. What cannot be read is told by its cell. Give the cells the format of text before you type fractions: a spreadsheet makes a date of 1-3/4. Fractions below a header with a unit have that unit: 6 1/2 below <code>length (in)</code>. A number such as 1,234 or 1.500 that could be read in two ways is refused rather than guessed, unless another number of the table shows its decimal sign, as 2,5 does. Where commas stand between the cells, a point is a decimal point.</p></section>\n`
}
