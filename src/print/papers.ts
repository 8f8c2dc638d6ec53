import type { Papers } from '../paper/papers.ts'

/**
 * Everything of a plan that is a file to look at or to print. What makes it is read when it is first asked for, so that
 * the service starts as fast without it.
 */
export const papers: Papers = {
  async drawing(file, of) {
    const { planSvg, profileSvg } = await import('./plan-svg.ts')
    if (file === 'plan.svg') return planSvg(of)
    if (file === 'profile.svg') return profileSvg(of)
    if (file === 'plan.geojson') return (await import('./plan-geojson.ts')).planGeoJson(of)
    return (await import('./plan-dxf.ts')).planDxf(of)
  },
  async sheets(...asked) {
    return (await import('./sheets-pdf.ts')).sheetsPdf(...asked)
  },
  async template(...asked) {
    return (await import('./templates/template-pdf.ts')).templatePdf(...asked)
  },
}
