import type { Papers } from '../paper/papers.ts'
import { planDxf } from './plan-dxf.ts'
import { planSvg, profileSvg } from './plan-svg.ts'
import { sheetsPdf } from './sheets-pdf.ts'
import { templatePdf } from './templates/template-pdf.ts'

const DRAWN = { 'plan.svg': planSvg, 'profile.svg': profileSvg, 'plan.dxf': planDxf }

/** Everything of a plan that is a file to look at or to print. */
export const papers: Papers = {
  drawing: (file, of) => DRAWN[file](of),
  sheets: sheetsPdf,
  template: templatePdf,
}
