import { reachableFrom } from '../../access/own-address.ts'
import { html } from '../../page/html.ts'
import { guideDocument } from '../guide-frame.ts'
import { withCode } from '../with-code.ts'
import { excelElsewhere, excelOnWindows, googleSheets, libreOffice } from './clients.ts'
import { asNumber, EXAMPLE_CELL, showExample, showFormula } from './example.ts'
import type { LiveCell } from './live-cells.ts'
import { rowsInSection, tablesSection } from './tables.ts'
import { errors, locales, refreshing } from './when.ts'
import { wholeTrack } from './whole-track.ts'

interface GuideContents {
  /** The address of this service as the reader sees it, without a slash at the end. */
  readonly base: string
  readonly cells: readonly LiveCell[]
  readonly shows: Shows
}

/** What some formulas of the page show. */
export interface Shows {
  /** The middle ordinate of the outer rail on a diameter of 20 ft, over a chord of 500 mm and of 500.5 mm. */
  readonly chordOf500: string
  readonly chordOf500point5: string
  /** Ties and cost of the track of the example. */
  readonly ties: string
  readonly cost: string
  /** The answer to a diameter of `wide` with `errors=cell`. */
  readonly error: string
}

/** How to get the numbers of the service into a spreadsheet, for someone who builds a railway. */
export function guidePage({ base, cells, shows }: GuideContents): string {
  return guideDocument(
    'spreadsheets',
    html`<h1>In your spreadsheet</h1>
<p class="lead">How far to bend a rail, how many ties and sticks a track takes, what it costs: each is one number, and a formula puts it in a cell. Change the
diameter in your sheet, and the number follows. You can also have whole tables of a saved plan.</p>
<p>This service answers at <code>${base}</code>, and everything below already has that address in it: copy it as it is.${
      reachableFrom(base) === 'this computer' &&
      ' This address works on this computer only, so the spreadsheet must run on this computer too.'
    }</p>
<p><a class="button first" href="/docs/spreadsheets/longchord.xlsx">Download the ready workbook</a></p>
<p>The workbook calls this service as soon as you open it; change its yellow cells. It is for Excel on Windows and for LibreOffice.</p>
${clients}
${oneNumber(base, shows.chordOf500)}
${everyNumber(base, cells)}
${wholeTrack(base, shows)}
${tablesSection(base)}
${rowsInSection()}
${excelOnWindows(base)}
${excelElsewhere(base)}
${libreOffice(base)}
${googleSheets(base)}
${refreshing(base, shows.chordOf500)}
${errors(base, shows.error)}
${locales(base, shows.chordOf500point5)}`,
  )
}

const clients = html`<nav aria-labelledby="which"><h2 id="which">Which one do you have?</h2>
<div class="wide"><table>
<thead><tr><th scope="col">Spreadsheet</th><th scope="col">One number in a cell</th><th scope="col">Whole tables</th></tr></thead>
<tbody>
<tr><td><a href="#excel-windows">Excel for Windows</a></td><td>yes</td><td>yes, by Power Query</td></tr>
<tr><td><a href="#excel-elsewhere">Excel on a Mac, in a browser, on a phone</a></td><td>no</td><td>by Power Query on a Mac; everywhere by opening a file</td></tr>
<tr><td><a href="#libreoffice">LibreOffice Calc</a></td><td>yes</td><td>yes, as linked cells</td></tr>
<tr><td><a href="#google-sheets">Google Sheets</a></td><td colspan="2">only when this service has an address on the internet; otherwise by uploading a file</td></tr>
</tbody></table></div>
<p>On this page: <a href="#one-number">one number</a>, <a href="#every-number">all numbers</a>, <a href="#whole-track">a whole track in one cell</a>,
<a href="#tables">tables of a saved plan</a>, <a href="#csv">tables as CSV</a>, <a href="#rows-in">a track typed in your spreadsheet</a>, <a href="#again">when a cell fetches again</a>, <a href="#errors">when something is wrong</a>, <a href="#locales">decimal commas</a>.</p></nav>\n`

function oneNumber(base: string, shows: string) {
  return html`<section id="one-number"><h2>One number in a cell</h2>
<p>How far is a code 250 rail on a 20 ft diameter from the middle of a 500 mm chord? Type the first three rows, then paste the formula into the fourth.</p>
${showExample({
  id: 'bend',
  given: [
    ['Service', base],
    ['Diameter', '20 ft'],
    ['Chord, mm', 500],
  ],
  formulas: [
    {
      label: 'Outer rail, mm',
      formula: asNumber(`WEBSERVICE(B1&"${EXAMPLE_CELL}&diameter="&ENCODEURL(B2)&"&chord="&ENCODEURL(B3))`),
      shows,
    },
  ],
})}
<p><code>WEBSERVICE</code> fetches the address and gets a text, <code>NUMBERVALUE</code> turns it into a number in every locale, and <code>ENCODEURL</code> makes an input fit for an address. Which of the two formulas do you need? The one your
spreadsheet accepts: commas if your decimals have a point, semicolons if they have a comma. You can type lengths as you would write them (<code>20 ft</code>, <code>7 ft 6 in</code>, <code>2.4 m</code>); a number without a unit is millimetres.</p></section>\n`
}

function everyNumber(base: string, cells: readonly LiveCell[]) {
  return html`<section id="every-number"><h2>All numbers</h2>
<p>Each is fetched in the same way, with the values in the address or, as above, taken from cells. Parameters in <b>bold</b> are required.</p>
${cells.map((cell) => oneCell(base, cell))}</section>\n`
}

function oneCell(base: string, { name, summary, description, parameters, path, shows }: LiveCell) {
  return html`<article class="cell" id="cell-${name}"><h3>${summary}</h3>
<p>${withCode(description)}</p>
<p class="live"><a href="${base}${path}">${base}${path}</a> <span>answers <output class="answer">${shows}</output></span></p>
<details><summary>Formula and parameters</summary>${showFormula(asNumber(`WEBSERVICE("${base}${path}")`), 'Any cell')}<dl>
${parameters.map(({ name, required, description }) => html`<dt>${required ? html`<b><code>${name}</code></b>` : html`<code>${name}</code>`}</dt><dd>${description}</dd>\n`)}</dl></details></article>\n`
}
