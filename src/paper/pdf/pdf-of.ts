import { type PdfDocument, type Section, soft } from './blocks.ts'
import { Pen, pageSize } from './pen.ts'
import { FOOT_PT, MARGIN_PT } from './sizes.ts'
import { heightOf, type Strip } from './strip.ts'
import { stripsOf } from './strips.ts'

/** A document as PDF: its fonts are in it, and its text can be searched. */
export async function pdfOf(document: PdfDocument): Promise<Uint8Array<ArrayBuffer>> {
  const pen = await Pen.open(document)
  const pages = new Pages(pen, document.paper)
  for (const section of document.sections) pages.put(section)
  pen.eachPage((page, of) => drawFoot(pen, document.foot, `${page} of ${of}`))
  return pen.end()
}

const FOOT_SIZE = 6.8

function drawFoot(pen: Pen, text: string, number: string): void {
  const { width, height } = pen.kit.page
  const y = height - MARGIN_PT
  const right = pen.widthOf(number, false, FOOT_SIZE)
  const foot = shortened(pen, text, width - 2 * MARGIN_PT - right - 10)
  pen.text(soft(foot), MARGIN_PT, y, FOOT_SIZE)
  pen.text(soft(number), width - MARGIN_PT - right, y, FOOT_SIZE)
}

function shortened(pen: Pen, text: string, widthPt: number): string {
  if (pen.widthOf(text, false, FOOT_SIZE) <= widthPt) return text
  const letters = [...text]
  while (letters.length > 0 && pen.widthOf(`${letters.join('')}…`, false, FOOT_SIZE) > widthPt) letters.pop()
  return `${letters.join('')}…`
}

/** Puts strips on pages, and begins a new one where they do not fit. */
class Pages {
  private landscape: boolean | null = null
  private left = 0
  private y = MARGIN_PT

  private readonly pen: Pen
  private readonly paper: PdfDocument['paper']

  constructor(pen: Pen, paper: PdfDocument['paper']) {
    this.pen = pen
    this.paper = paper
  }

  put({ landscape, newPage, blocks }: Section): void {
    const page = pageSize(this.paper, landscape)
    const room = { widthPt: page.widthPt - 2 * MARGIN_PT, heightPt: page.heightPt - 2 * MARGIN_PT - FOOT_PT }
    const strips = stripsOf(this.pen, blocks, room)
    if (strips.length === 0) return
    const begin = () => {
      this.pen.addPage(page)
      this.landscape = landscape
      this.left = room.heightPt
      this.y = MARGIN_PT
    }
    const little = newPage === 'where-little-is-left' && this.left < room.heightPt / 3
    if (newPage === 'always' || little || this.landscape !== landscape) begin()
    for (const group of groupsOf(strips)) {
      const isFirst = () => this.left === room.heightPt
      const needed = () => heightOf(group) + (isFirst() ? 0 : group[0]!.abovePt)
      if (!isFirst() && needed() > this.left + SLACK_PT) {
        begin()
        for (const head of group[0]!.again) this.draw(head, isFirst())
      }
      for (const each of group) {
        if (!isFirst() && each.heightPt + each.abovePt > this.left + SLACK_PT) {
          begin()
          for (const head of each.again) this.draw(head, isFirst())
        }
        this.draw(each, isFirst())
      }
    }
  }

  private draw(each: Strip, isFirst: boolean): void {
    const above = isFirst ? 0 : each.abovePt
    each.draw(this.pen, MARGIN_PT, this.y + above)
    this.y += above + each.heightPt
    this.left -= above + each.heightPt
  }
}

const SLACK_PT = 0.01

/** Strips that must stay on one page. */
function groupsOf(strips: readonly Strip[]): Strip[][] {
  const groups: Strip[][] = []
  let open = false
  for (const each of strips) {
    if (open) groups.at(-1)!.push(each)
    else groups.push([each])
    open = each.keepNext
  }
  return groups
}
