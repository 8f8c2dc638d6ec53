import { html } from '../../page/html.ts'
import { asNumber, EXAMPLE_CELL, showExample } from './example.ts'

/** How to get a fresh answer. `shows` is the number for a diameter of 20 ft and a chord of 500 mm. */
export function refreshing(base: string, shows: string) {
  return html`<section id="again"><h2>When a cell fetches again</h2>
<p>Spreadsheets keep an answer until the address changes. The number of a cell depends on its inputs alone, so this does not matter there; a table changes when its plan does. Every address takes one more
parameter, <code>refresh</code>, which the service ignores: let it refer to a cell, and type another number into that cell to fetch again.</p>
${showExample({
  id: 'refresh',
  given: [
    ['Service', base],
    ['Fetch again', 1],
  ],
  formulas: [
    {
      label: 'Outer rail, mm',
      formula: asNumber(`WEBSERVICE(B1&"${EXAMPLE_CELL}&diameter=20ft&chord=500&refresh="&B2)`),
      shows,
    },
    {
      label: 'Fetches at every recalculation',
      formula: asNumber(`WEBSERVICE(B1&"${EXAMPLE_CELL}&diameter=20ft&chord=500&refresh="&NOW())`),
      shows,
    },
  ],
})}
<p><code>NOW()</code> does it automatically, but sends a request for each such cell whenever anything in the sheet changes. Google Sheets refuses it.</p></section>\n`
}

/** What can go wrong, and how it looks. `error` is the answer to a diameter of `wide`. */
export function errors(base: string, error: string) {
  return html`<section id="errors"><h2>When something is wrong</h2>
<div class="wide"><table><thead><tr><th scope="col">A cell shows</th><th scope="col">What it means</th></tr></thead><tbody>
<tr><td><code>#VALUE!</code></td><td>The service did not answer, or refused an input. A spreadsheet hides the message: open the address in a browser, or add <code>errors=cell</code> as below.</td></tr>
<tr><td><code>ERR …</code></td><td>With <code>errors=cell</code>: which input was refused, and what to do.</td></tr>
<tr><td><code>#NAME?</code></td><td>Your spreadsheet does not know a function of the formula: it is too old, or its language has another name for it. Copy from the ready workbook.</td></tr>
<tr><td><code>Err:540</code></td><td>LibreOffice waits for your permission to fetch: <a href="#libreoffice">see there</a>.</td></tr>
<tr><td><code>#N/A</code>, <code>#ERROR!</code></td><td>Google could not reach the address, or the formula depends on <code>NOW</code> or <code>RAND</code>.</td></tr>
</tbody></table></div>
<p>With <code>errors=cell</code> the answer is a text that says what is wrong. Keep the answer in a cell of its own, and take the number from there, or the text if there is no number:</p>
${showExample({
  id: 'complaint',
  given: [
    ['Service', base],
    ['Diameter', 'wide'],
  ],
  formulas: [
    {
      label: 'As answered',
      formula: () => `=WEBSERVICE(B1&"${EXAMPLE_CELL}&chord=500&errors=cell&diameter="&ENCODEURL(B2))`,
      shows: error,
    },
    {
      label: 'The number, or what is wrong',
      formula: (separator) => `=IFERROR(NUMBERVALUE(B3${separator}"."${separator}",")${separator}B3)`,
      shows: error,
    },
  ],
})}</section>\n`
}

/** Points and commas. `shows` is the number for a diameter of 20 ft and a chord of 500.5 mm. */
export function locales(base: string, shows: string) {
  return html`<section id="locales"><h2>Decimal commas</h2>
<p>A number always arrives with a decimal point and without a unit. <code>NUMBERVALUE</code> reads it correctly in every locale; <code>VALUE</code>, and adding zero, fail in a locale with decimal commas, or read it as a date.</p>
<p>In the other direction, an input of 500,5 would be sent with its comma and refused. In a locale with decimal commas, <code>SUBSTITUTE</code> puts a point in its place. Use it for numbers and lengths only, and in such a locale only: elsewhere it would turn
a typed 1,234 into 1.234, which is refused without it. The ready workbook detects your decimal sign by itself.</p>
${showExample({
  id: 'comma',
  given: [
    ['Service', base],
    ['Chord, mm', 500.5],
  ],
  formulas: [
    {
      label: 'Outer rail, mm',
      formula: (separator) =>
        asNumber(
          `WEBSERVICE(B1&"${EXAMPLE_CELL}&diameter=20ft&chord="&ENCODEURL(SUBSTITUTE(B2${separator}","${separator}".")))`,
        )(separator),
      shows,
    },
  ],
})}
<p>Power Query and LibreOffice read tables as described above. For opening a file by double-click in such a locale there are <a href="#csv">other forms</a>.</p></section>\n`
}
