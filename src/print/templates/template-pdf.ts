import { unitsOf } from '../../page/pages/units-of-plan.ts'
import { type Origin, originLine } from '../../paper/origin.ts'
import type { AskedTemplate, PdfFile, PlanOnPaper } from '../../paper/papers.ts'
import { pdfOf } from '../../paper/pdf/pdf-of.ts'
import { templateSections } from './template.ts'
import { wantedTemplate } from './wanted-template.ts'

/** One template of a plan as a document. */
export async function templatePdf(of: PlanOnPaper, asked: AskedTemplate, origin: Origin): Promise<PdfFile> {
  const lengthsIn = unitsOf(of.plan, undefined)
  const wanted = wantedTemplate(of, asked, lengthsIn)
  if (!wanted.ok) return wanted
  const { template } = wanted
  const laid = templateSections(template, asked.paper, lengthsIn)
  if (!laid.ok) return laid
  const plan = of.estimate.title ?? origin.plan
  const document = {
    title: [template.title, plan].filter((part) => part !== null).join(', '),
    ...{ paper: asked.paper, date: origin.date, foot: originLine({ ...origin, plan }), sections: laid.sections },
  }
  return { ok: true, pdf: await pdfOf(document) }
}
