import { DECIMAL_SIGN } from './decimals.ts'
import { input, type Layout, result, title } from './sheet.ts'

/** What `service`, `again` and `decimalSign` stand for. */
export const SERVICE_CELL = 'Start!$B$4'
export const AGAIN_CELL = 'Start!$B$5'
export const DECIMAL_CELL = 'Start!$B$7'

const THERE = 'IF(ISNUMBER(SEARCH("live",_xlfn.WEBSERVICE(service&"/livez?refresh="&again))),"yes","no answer")'

/** What the workbook is, where the service is, and what to do when nothing shows. */
export function startSheet(base: string): Layout {
  return {
    name: 'Start',
    widths: [30, 34, 60],
    rows: [
      [title('Longchord in your spreadsheet')],
      ['The numbers on the other sheets come from a Longchord service that is running.'],
      ['Change the yellow cells, and they follow.'],
      ['Service', input(base), 'Its address. When it moves, change it here, and every formula follows.'],
      ['Ask again', input(1), 'Type another number, and everything is asked anew.'],
      ['Is it there?', result(THERE, 0)],
      ['Decimals have a', result(DECIMAL_SIGN, 0), 'in this spreadsheet, as it tells by itself; so type them here.'],
      [],
      [title('When it says “no answer”')],
      ['Is the service running? Open its address in a browser on this computer.'],
      ['Excel for Windows', 'Press Enable Editing in the yellow bar, then Enable Content.'],
      [
        'LibreOffice',
        'Press Allow updating in the bar. For good, add the folder of this workbook to the trusted ones:',
      ],
      [null, 'Tools ▸ Options ▸ LibreOffice ▸ Security ▸ Macro Security ▸ Trusted Sources ▸ Add'],
      ['Excel on a Mac or in a browser', 'cannot ask; tables of a saved plan can be opened there.'],
      [],
      [title('The other sheets')],
      ['One curve', 'How long its rails are, how far they stand off a chord, how far to bend them.'],
      ['Track', 'A track as rows: ties, sticks, joiners and what the rail costs.'],
      [],
      ['What is wrong with an input stands in the place of the number: ERR, the input, and what to do.'],
      ['Copy any row with its columns A to E to a sheet of your own; the address it asks stands in column D.'],
      ['How it works, what else to ask', { formula: 'HYPERLINK(service&"/docs/spreadsheets")' }],
    ],
  }
}
