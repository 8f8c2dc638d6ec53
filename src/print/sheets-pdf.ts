import { profileDrawing, profiledTrack } from '../page/drawing/profile.ts'
import { html } from '../page/html.ts'
import { unitsOf } from '../page/pages/units-of-plan.ts'
import { elementsTable } from '../page/sheets/line/elements-table.ts'
import { findingList } from '../page/sheets/line/findings.ts'
import { overallSize } from '../page/sheets/line/places-table.ts'
import { summary } from '../page/sheets/line/summary.ts'
import type { SheetContext } from '../page/sheets/sheet.ts'
import { SHEET_WORDS } from '../page/sheets/sheet-names.ts'
import { jobSheet } from '../page/sheets/sheets.ts'
import { elementNumber } from '../page/words.ts'
import { type Origin, originLine } from '../paper/origin.ts'
import type { AskedSheets, PdfFile, PlanOnPaper, PrintedSheet } from '../paper/papers.ts'
import { type Block, plain, type Section, soft } from '../paper/pdf/blocks.ts'
import { pdfOf } from '../paper/pdf/pdf-of.ts'
import { tooManyRows } from './most-rows.ts'
import { planSections } from './plan-sections.ts'
import { blocksOf } from './sheet-blocks.ts'

/** The sheets of a plan as one document, in the order of the work. */
export async function sheetsPdf(of: PlanOnPaper, asked: AskedSheets, origin: Origin): Promise<PdfFile> {
  const tooLong = tooManyRows(asked.sheets, of.estimate)
  if (tooLong) return { ok: false, fault: tooLong }
  const title = of.estimate.title ?? origin.plan ?? 'Plan'
  const lengthsIn = unitsOf(of.plan)
  const context: SheetContext = {
    // On paper there is no button that writes what was fitted into the plan.
    worked: { ...of, fitted: { places: [], patch: [] } },
    lengthsIn,
    links: { base: '', posted: false, lengthsIn, ownUnits: lengthsIn },
    railAt: null,
  }
  const sections: Section[] = []
  for (const [index, sheet] of asked.sheets.entries()) {
    const above = [headingOf(sheet, index === 0 ? title : null)]
    if (sheet !== 'line') {
      const blocks = [...above, ...blocksOf(jobSheet(sheet, context))]
      sections.push({ landscape: false, newPage: 'where-little-is-left', blocks })
      continue
    }
    const drawn = planSections(of, {
      title: above,
      lengthsIn: context.lengthsIn,
      paper: asked.paper,
      asked: asked.scale,
    })
    if (!drawn.ok) return drawn
    sections.push(...drawn.sections, lineSection(context))
  }
  const foot = originLine({ ...origin, plan: title })
  return { ok: true, pdf: await pdfOf({ title, paper: asked.paper, date: origin.date, foot, sections }) }
}

/** @param title of the plan, on the first sheet */
function headingOf(sheet: PrintedSheet, title: string | null): Block {
  const { name, job } = SHEET_WORDS[sheet]
  const own = `${name}: ${job}`
  return { is: 'heading', level: 1, runs: title === null ? [plain(own)] : [plain(`${title}  `), soft(own)] }
}

/** Profiles, findings and the dimensions of what is not there yet, on upright pages. */
function lineSection({ worked, lengthsIn, links }: SheetContext): Section {
  const { findings, tracks } = worked.estimate
  const several = tracks.length > 1
  const profiles = tracks.flatMap((track, index) => {
    const profile = profileDrawing(profiledTrack(track), `profile-${index}`, lengthsIn)
    return profile ? [html`<h3>Profile${several && ` of ${track.name}`}</h3>${profile}`] : []
  })
  const upright = html`${profiles}${overallSize(worked.estimate, lengthsIn)}${summary(worked.estimate, links)}
<h2>Findings</h2>${findingList(findings, worked, lengthsIn)}
<h2>Track dimensions</h2>${tracks.map((track, index) => (several && track.state === 'existing' ? null : elementsTable(track, index, (element) => elementNumber(element, index, several), lengthsIn)))}`
  return { landscape: false, newPage: 'no', blocks: blocksOf(upright) }
}
