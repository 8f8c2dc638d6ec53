import { html } from 'hono/html'
import { seenFrom } from '../../../access/own-address.ts'
import { ASKED, type Formula, showFormula } from './example.ts'
import { linkedFile } from './tables.ts'

/*
 * One section for each spreadsheet. What is said of LibreOffice is seen in LibreOffice 7.4 by the checks; what is said of
 * the others is what their makers' help pages tell, from memory but for Google's.
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
<p>Excel 2013 or newer. Paste any of the formulas above, the one whose arguments are separated as your Excel does it. Where Excel speaks
another language its functions have other names, and the formulas above show <code>#NAME?</code>: open the <a href="spreadsheets/longchord.xlsx">ready workbook</a> and click on a number of its sheet <b>One curve</b>, on the address beside it
and on the answer; the formula bar shows the same functions by your names.</p>
<p>When a workbook with such formulas is opened, Excel asks before it fetches anything: choose <b>Enable Editing</b> in the yellow bar, then <b>Enable Content</b>.</p>
<p>An address may have 2,048 characters, a text inside a formula 255: put long parts, such as a whole track, in a cell of their own, as is done above.</p>
<h3>A whole table, by Power Query</h3>
<ol><li><b>Data ▸ Get Data ▸ From Other Sources ▸ Blank Query</b>, then <b>Advanced Editor</b>, and paste this, with the token of <a href="#tables">a link of your plan</a> in it:
${query(base)}</li>
<li>Asked how to sign in, choose <b>Anonymous</b>. <b>Close &amp; Load</b>.</li></ol>
<p>These lines are the same in every language, and the numbers arrive as numbers. Any other table is read in the same way.</p>
<p><b>It asks again</b> when an input of a formula changes, when the formula is entered anew, with <kbd>Ctrl</kbd>+<kbd>Alt</kbd>+<kbd>F9</kbd>, and when the ready workbook is opened; a query on
<b>Data ▸ Refresh All</b>, or by itself every so many minutes or on opening: right-click the query, <b>Properties</b>.</p></section>\n`
}

export function excelElsewhere(base: string) {
  return html`<section id="excel-elsewhere"><h2>Excel on a Mac, in a browser, on a phone</h2>
<p>There <code>WEBSERVICE</code> gives no answer, and the ready workbook shows <code>#VALUE!</code> or what Excel for Windows saw last.</p>
<ul><li><b>On a Mac</b>, recent versions have Power Query: <b>Data ▸ Get Data (Power Query) ▸ Blank query</b>, and paste the lines of the section above. Where your version refuses to read from an address, take the next way.</li>
<li><b>Everywhere:</b> open <code>${linkedFile(base, 'tables/bill.csv')}</code> or <code>${linkedFile(base, 'workbook.xlsx')}</code> in your browser and open the file it saves. In a locale with decimal commas take the workbook, or add
<code>?sep=semicolon&amp;decimal=comma</code> to the table. <a href="#csv">More of that</a>. Such a copy stays as it is: fetch it again when the plan has changed.</li>
<li><b>Excel in a browser</b> fetches nothing from your own computer: it runs on Microsoft's. Upload the workbook.</li></ul></section>\n`
}

export function libreOffice(base: string) {
  return html`<section id="libreoffice"><h2>LibreOffice Calc</h2>
<p>Version 4.2 or newer, on any system. Paste any of the formulas above; semicolons work whatever the locale. The ready workbook works too. Where LibreOffice speaks another language, tick
<b>Tools ▸ Options ▸ LibreOffice Calc ▸ Formula ▸ Use English function names</b> before you paste; it can be taken out again afterwards.</p>
<p><b>When you open a saved document</b> nothing is fetched at first: cells show <code>Err:540</code>, and a bar says “Automatic update of external links has been disabled”. Press <b>Allow updating</b>. So that it need not ask:</p>
<ol><li>Keep these documents in a folder of their own. <b>Tools ▸ Options ▸ LibreOffice ▸ Security ▸ Macro Security ▸ Trusted Sources ▸ Trusted File Locations ▸ Add</b>, and choose that folder. Documents in it may also run their macros, so put only your own there.</li>
<li><b>Tools ▸ Options ▸ LibreOffice Calc ▸ General ▸ Update links when opening:</b> <b>Always (from trusted locations)</b>.</li></ol>
<h3>A whole table, as linked cells</h3>
<ol><li><b>Sheet ▸ External Links</b>. Type the address from <a href="#tables">a link of your plan</a>, and press <kbd>Enter</kbd>: <code>${linkedFile(base, 'tables/bill.csv')}</code></li>
<li>Language <b>English (USA)</b>, whatever yours is, for the numbers have decimal points; separated by <b>comma</b>. Then choose <b>CSV_all</b>, and how often to update.</li></ol>
<p>For a copy that stays as it is, <b>File ▸ Open</b> takes the same address as a file name.</p>
<p><b>It asks again</b> when an input of a formula changes and when the document is opened. As long as a document is open, an address that was asked once is not asked again, not even by <b>Recalculate Hard</b>: change <a href="#again"><code>refresh</code></a>. Linked cells have <b>Edit ▸ Links to External Files ▸ Update</b>.</p></section>\n`
}

/** IMPORTDATA with the separator and the locale of what is read, so that the sheet's own locale does not matter. */
function importData(address: string): Formula {
  return (separator) => `=IMPORTDATA("${address}"${separator}","${separator}"en_US")`
}

export function googleSheets(base: string) {
  const seen = seenFrom(base)
  return html`<section id="google-sheets"><h2>Google Sheets and its limits</h2>
<p>Google's own servers fetch for a sheet. They see this service only at an address that is open to the internet${
    seen === 'anywhere'
      ? ''
      : html`, and <code>${base}</code> is not: it can be seen from ${seen} alone, so the formulas below will not work with it`
  }.
If you do open it: this service has no login, everybody who finds it can read and change every plan. Let only <code>/v1/cell/</code> and <code>/v1/linked/</code> through.</p>
${showFormula(importData(`${base}${ASKED}&diameter=20ft&chord=500`), 'Any cell')}
<p>A table is fetched by the same function, from <a href="#tables">a link of your plan</a>: <code>${linkedFile(base, 'tables/bill.csv')}</code>. <code>WEBSERVICE</code> does not exist there.</p>
<p><b>It asks again</b> about every hour while the sheet is open in somebody's browser, and when the formula is entered anew; not when the sheet is merely opened. A formula that leads to <code>NOW</code> or <code>RAND</code> is refused.</p>
<p>Otherwise: <b>File ▸ Import ▸ Upload</b> the workbook or a table of a saved plan, as often as you need it fresh.</p></section>\n`
}
