import { reachableFrom } from '../../access/own-address.ts'
import { html } from '../../page/html.ts'
import { EXAMPLE_CELL, type Formula, showFormula } from './example.ts'
import { linkedFile } from './tables.ts'

/*
 * One section for each spreadsheet. The tests check the instructions for LibreOffice in LibreOffice 7.4; those for the
 * others follow their makers' help pages, from memory except for Google's.
 */

function query(base: string) {
  return html`<pre class="query">let
    Rows = Json.Document(Web.Contents(
        "${linkedFile(base, 'tables/bill.json')}"))
in
    Table.FromRecords(Rows)</pre>`
}

export function excelOnWindows(base: string) {
  return html`<section id="excel-windows"><h2>Excel for Windows</h2>
<p>You need Excel 2013 or newer. Paste any formula from above; take the style whose arguments are separated as in your Excel. If your Excel uses
another language, its functions have other names and the formulas above show <code>#NAME?</code>. In that case open the <a href="/docs/spreadsheets/longchord.xlsx">ready workbook</a>, go to its sheet <b>One curve</b>, and click on a number, on the address beside it
and on the answer: the formula bar shows the same functions by the names your Excel uses.</p>
<p>When you open a workbook with such formulas, Excel asks before it fetches anything: choose <b>Enable Editing</b> in the yellow bar, then <b>Enable Content</b>.</p>
<p>An address may have 2,048 characters, a text inside a formula 255. Put long parts, such as a whole track, in a cell of their own, as shown above.</p>
<h3>A whole table, by Power Query</h3>
<ol><li><b>Data ▸ Get Data ▸ From Other Sources ▸ Blank Query</b>, then <b>Advanced Editor</b>. Paste this, with the token of <a href="#tables">a link of your plan</a> in it:
${query(base)}</li>
<li>When Excel asks how to sign in, choose <b>Anonymous</b>. Then <b>Close &amp; Load</b>.</li></ol>
<p>These lines are the same in every language, and the numbers arrive as numbers. Any other table is read in the same way.</p>
<p><b>When it fetches again:</b> a formula, when one of its inputs changes, when you enter it again, with <kbd>Ctrl</kbd>+<kbd>Alt</kbd>+<kbd>F9</kbd>, and when the ready workbook is opened. A query, on
<b>Data ▸ Refresh All</b>; or automatically, every few minutes or on opening: right-click the query, <b>Properties</b>.</p></section>\n`
}

export function excelElsewhere(base: string) {
  return html`<section id="excel-elsewhere"><h2>Excel on a Mac, in a browser, on a phone</h2>
<p>Here <code>WEBSERVICE</code> gives no answer. The ready workbook shows <code>#VALUE!</code>, or what Excel for Windows fetched last.</p>
<ul><li><b>On a Mac</b>, recent versions have Power Query: <b>Data ▸ Get Data (Power Query) ▸ Blank query</b>, and paste the lines of the section above. If your version cannot read from an address, use the next way.</li>
<li><b>Everywhere:</b> open <code>${linkedFile(base, 'tables/bill.csv')}</code> or <code>${linkedFile(base, 'workbook.xlsx')}</code> in your browser and open the file it saves. If your locale uses decimal commas, take the workbook, or add
<code>?sep=semicolon&amp;decimal=comma</code> to the table's address. <a href="#csv">More about these forms</a>. Such a copy does not change: fetch it again when the plan has changed.</li>
<li><b>Excel in a browser</b> cannot fetch anything from your own computer, because it runs on Microsoft's. Upload the workbook.</li></ul></section>\n`
}

export function libreOffice(base: string) {
  return html`<section id="libreoffice"><h2>LibreOffice Calc</h2>
<p>You need version 4.2 or newer, on any system. Paste any formula from above; semicolons work in every locale. The ready workbook works too. If your LibreOffice uses another language, tick
<b>Tools ▸ Options ▸ LibreOffice Calc ▸ Formula ▸ Use English function names</b> before you paste; you can untick it afterwards.</p>
<p><b>When you open a saved document</b>, nothing is fetched at first: cells show <code>Err:540</code>, and a bar says “Automatic update of external links has been disabled”. Press <b>Allow updating</b>. To stop it asking:</p>
<ol><li>Keep these documents in a folder of their own. <b>Tools ▸ Options ▸ LibreOffice ▸ Security ▸ Macro Security ▸ Trusted Sources ▸ Trusted File Locations ▸ Add</b>, and choose that folder. Documents in it may also run their macros, so put only your own there.</li>
<li><b>Tools ▸ Options ▸ LibreOffice Calc ▸ General ▸ Update links when opening:</b> <b>Always (from trusted locations)</b>.</li></ol>
<h3>A whole table, as linked cells</h3>
<ol><li><b>Sheet ▸ External Links</b>. Type the address from <a href="#tables">a link of your plan</a>, and press <kbd>Enter</kbd>: <code>${linkedFile(base, 'tables/bill.csv')}</code></li>
<li>Choose language <b>English (USA)</b>, whatever yours is, because the numbers have decimal points; separated by <b>comma</b>. Then choose <b>CSV_all</b>, and how often to update.</li></ol>
<p>For a copy that does not change, <b>File ▸ Open</b> takes the same address as a file name.</p>
<p><b>When it fetches again:</b> when an input of a formula changes and when the document is opened. While a document is open, an address that was fetched once is not fetched again, not even by <b>Recalculate Hard</b>: change <a href="#again"><code>refresh</code></a>. For linked cells, use <b>Edit ▸ Links to External Files ▸ Update</b>.</p></section>\n`
}

/** IMPORTDATA with the separator and the locale of the file, so that the locale of the sheet does not matter. */
function importData(address: string): Formula {
  return (separator) => `=IMPORTDATA("${address}"${separator}","${separator}"en_US")`
}

export function googleSheets(base: string) {
  const reachable = reachableFrom(base)
  return html`<section id="google-sheets"><h2>Google Sheets and its limits</h2>
<p>Google's own servers fetch for a sheet. They can reach this service only at an address that is open to the internet${
    reachable === 'anywhere'
      ? ''
      : html`, and <code>${base}</code> is not: it can be reached only from ${reachable}, so the formulas below will not work with it`
  }.
If you do open it: this service has no login, so anyone who finds it can read and change every plan. Let only <code>/v1/cell/</code> and <code>/v1/linked/</code> through.</p>
${showFormula(importData(`${base}${EXAMPLE_CELL}&diameter=20ft&chord=500`), 'Any cell')}
<p>The same function fetches a table, from <a href="#tables">a link of your plan</a>: <code>${linkedFile(base, 'tables/bill.csv')}</code>. Google Sheets has no <code>WEBSERVICE</code>.</p>
<p><b>When it fetches again:</b> about every hour while someone has the sheet open in a browser, and when the formula is entered again; not when the sheet is only opened. A formula that depends on <code>NOW</code> or <code>RAND</code> is refused.</p>
<p>Otherwise, use <b>File ▸ Import ▸ Upload</b> with the workbook or a table of a saved plan, as often as you need current figures.</p></section>\n`
}
