import { html } from '../../page/html.ts'
import { TABLE_NAMES, type TableName } from '../../paper/estimate-tables.ts'

const HOLDS: Readonly<Record<TableName, string>> = {
  elements: 'straights, easements, curves, turnouts and crossings, one per row, with both rails',
  bends: 'the ordinates of each rail, and how far to bend it so that it springs back to its radius',
  'cut-list': 'which piece to cut from which stick, one piece per row',
  'bend-marks': 'where on each piece a bend begins and ends',
  'ready-made': 'where ready-made pieces lie, one per row in the order they are laid',
  turnouts: 'where turnouts lie, their geometry, and what to buy',
  ways: 'every way a train can take, one part of a track per row, with its reverse curves',
  envelope: 'how far the cars reach to either side along every track, if the plan has cars',
  'over-crossings': 'where one track passes over another: clear height, span and abutments',
  standing: 'where cars and trains stand clear of turnouts and crossings, if the plan has cars',
  earthworks: 'what to cut and to fill along tracks that give their ground',
  trains: 'what each train asks for at the hardest place of each track, and how many cars its engine takes',
  'effective-grades': 'grade and curve resistance together, stretch by stretch, if the plan says what curves ask for',
  pegs: 'places of every track as distances by tape from two pegs of the plan',
  'tie-levels': 'the elevation of every tie, and how much to fill, shim or cut under it',
  joints: 'where two rails meet',
  bill: 'what to buy, and what it costs',
  findings: 'what is wrong with the track, and how to correct it',
}

/** The address of a file of a saved plan, with a placeholder for the token of a link. */
export function linkedFile(base: string, file: string) {
  return html`${base}/v1/linked/<var>TOKEN</var>/${file}`
}

export function tablesSection(base: string) {
  return html`<section id="tables"><h2>Tables of a saved plan</h2>
<p>On the page of a saved plan follow <b>links for spreadsheets</b> and make a link. It shows the addresses of all the plan's tables, each with a long secret in it. Copy what you need: the addresses are shown only once. Anyone who has such an address
can read the tables of this one plan and can change nothing. Make one link for each spreadsheet. The same page shows when each was last used, and revokes it.</p>
<p>The addresses look like these, with your own secret in place of <var>TOKEN</var>:</p>
<div class="wide"><table><thead><tr><th scope="col">Address</th><th scope="col">Holds</th></tr></thead><tbody>
${TABLE_NAMES.map((name) => html`<tr><td><code>${linkedFile(base, `tables/${name}.csv`)}</code></td><td>${HOLDS[name]}</td></tr>\n`)}<tr><td><code>${linkedFile(base, 'workbook.xlsx')}</code></td><td>all of them for people, the shopping list first, ready to print; it does not fetch anything again</td></tr>
</tbody></table></div>
<p>With <code>.json</code> in place of <code>.csv</code> the same rows come as JSON. Each row has the plan, its revision and the day at its end, and a row of the list also what the whole list comes to. Lengths are millimetres. <code>${linkedFile(base, 'tables/elements.csv?units=in')}</code> gives inches; with <code>&amp;fraction=16</code> added, feet, inches and sixteenths as text.</p>
<h3 id="csv">Tables as CSV</h3>
<p>Cells are separated by commas, and numbers have decimal points. If your spreadsheet expects something else when you double-click such a file, ask for it in the address:</p>
<div class="wide"><table><thead><tr><th scope="col">Address</th><th scope="col">For</th></tr></thead><tbody>
<tr><td><code>${linkedFile(base, 'tables/bill.csv?sep=semicolon&decimal=comma')}</code></td><td>Excel in a locale with decimal commas: semicolons between cells, commas in numbers</td></tr>
<tr><td><code>${linkedFile(base, 'tables/bill.csv?sep=tab')}</code></td><td>tabs between cells, as when you copy and paste in a spreadsheet; <code>&amp;decimal=comma</code> can be added</td></tr>
<tr><td><code>${linkedFile(base, 'tables/bill.csv?bom=1')}</code></td><td>Excel that shows Ã¼ instead of ü: a mark at the beginning says that the file is UTF-8; <code>&amp;bom=1</code> can be added to the others too</td></tr>
</tbody></table></div>
<p>A spreadsheet runs a cell of a CSV file as a formula when it begins with <code>=</code>, <code>+</code>, <code>-</code>, <code>@</code> or a tab. A text of yours that does so, such as a remark <code>-see note</code>, therefore gets an apostrophe in front: <code>'-see note</code>.
The same is done inside a text after a comma, a semicolon, a tab or a new line, where a program that uses another separator would begin a new cell. It is always exactly one apostrophe, so a program that needs the original text can remove it. Numbers, JSON and the workbook have none.</p></section>\n`
}

/** How to send rows from a spreadsheet to the service. */
export function rowsInSection() {
  return html`<section id="rows-in"><h2>A track typed in your spreadsheet</h2>
<p>Type one element per row, under a header of <code>kind</code>, <code>length</code>, <code>radius</code> or <code>diameter</code>, <code>angle</code>, <code>turn</code> and <code>label</code>, in any order; leave out the columns you do not need. A unit may be given in the header, as in <code>length (ft)</code>, or in the cell, as in <code>7 ft 6 in</code>; without one, numbers are millimetres.</p>
<div class="wide"><table class="cells"><thead><tr><th scope="col">kind</th><th scope="col">length (ft)</th><th scope="col">diameter (ft)</th><th scope="col">angle</th><th scope="col">turn</th></tr></thead><tbody>
<tr><td>tangent</td><td>6</td><td></td><td></td><td></td></tr>
<tr><td>arc</td><td></td><td>18</td><td>45</td><td>left</td></tr>
<tr><td>easement</td><td>2</td><td></td><td></td><td></td></tr></tbody></table></div>
<p>Copy the rows and paste them on the page of a plan under <b>Elements from a spreadsheet</b>, or choose the file there, CSV, XLSX or ODS. Titles above the header are skipped, and so are columns of your own, such as remarks. A number is read as its cell shows it, with a unit that its format adds. If something cannot be read, the message names its cell. Format the cells as text before you type fractions: a spreadsheet turns 1-3/4 into a date. Fractions below a header with a unit have that unit: 6 1/2 below <code>length (in)</code>. A number such as 1,234 or 1.500 that could be read in two ways is refused, unless another number of the table shows which decimal sign it uses, as 2,5 does. Where cells are separated by commas, a point is a decimal point.</p></section>\n`
}
