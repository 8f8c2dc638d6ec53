import { DECIMAL_SIGN } from './decimals.ts'
import { input, type Layout, result, title } from './sheet.ts'

/** What `service`, `again` and `decimalSign` stand for. */
export const SERVICE_CELL = 'Start!$B$4'
export const REFRESH_CELL = 'Start!$B$5'
export const DECIMAL_CELL = 'Start!$B$7'

const REACHABLE = 'IF(ISNUMBER(SEARCH("live",_xlfn.WEBSERVICE(service&"/livez?refresh="&again))),"yes","no answer")'

/** What the workbook is, where the service is, and what to do when nothing is shown. */
export function startSheet(base: string): Layout {
  return {
    name: 'Start',
    widths: [30, 34, 60],
    rows: [
      [title('Longchord in your spreadsheet')],
      ['The numbers on the other sheets come from a running Longchord service.'],
      ['Change the yellow cells and the numbers update.'],
      ['Service', input(base), 'Its address. If it changes, change it here for all formulas.'],
      ['Ask again', input(1), 'Type another number to ask for everything again.'],
      ['Is it running?', result(REACHABLE, 0)],
      ['Decimal sign', result(DECIMAL_SIGN, 0), 'in this spreadsheet; type decimals with it.'],
      [],
      [title('When it says “no answer”')],
      ['Is the service running? Open its address in a browser on this computer.'],
      ['Excel for Windows', 'Press Enable Editing in the yellow bar, then Enable Content.'],
      [
        'LibreOffice',
        'Press Allow updating in the bar. To allow it permanently, add the folder of this workbook to the trusted ones:',
      ],
      [null, 'Tools ▸ Options ▸ LibreOffice ▸ Security ▸ Macro Security ▸ Trusted Sources ▸ Add'],
      ['Excel on a Mac or in a browser', 'cannot use the service; tables of a saved plan can be opened there.'],
      [],
      [title('The other sheets')],
      ['One curve', 'Length of its rails, their ordinates, and the radius to bend them to.'],
      ['Track', 'A track as rows: ties, sticks, joiners and the cost of the rail.'],
      [],
      ['If an input is wrong, the cell shows ERR, the input and what to do.'],
      ['Copy columns A to E of any row to a sheet of your own; column D has the address it asks.'],
      ['How it works, what else to ask', { formula: 'HYPERLINK(service&"/docs/spreadsheets")' }],
    ],
  }
}
