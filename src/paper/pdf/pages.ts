import type { PdfDocument, Section } from './blocks.ts'
import { type Pen, pageSize } from './pen.ts'
import { FOOT_PT, MARGIN_PT, typeSizes } from './sizes.ts'
import { heightOf, type Strip } from './strip.ts'
import { stripsOf } from './strips.ts'

/** A page and what stands on it. */
export interface Page {
  readonly size: { readonly widthPt: number; readonly heightPt: number }
  readonly landscape: boolean
  readonly placed: { readonly strip: Strip; readonly y: number }[]
}

/** Type is made so much smaller at most, to save a page with hardly anything on it. */
const SCALES = [1, 0.95, 0.9]
/** A last page with less than this on it is hardly worth its paper. */
const LEAST_FILLED = 1 / 3
/** In a longer document a page more is no matter, and laying it out again takes long. */
const MOST_REFINED = 40

/** The pages of a document, one fewer where the last would have little on it and a slightly smaller type helps. */
export function pagesOf(pen: Pen, document: PdfDocument): readonly Page[] {
  let usual: readonly Page[] | null = null
  for (const scale of SCALES) {
    const pages = laidOut(pen, document, scale)
    usual ??= pages
    if (pages.length === 1 || pages.length > MOST_REFINED || filled(pages.at(-1)!) >= LEAST_FILLED) return pages
  }
  return usual!
}

function filled({ size, placed }: Page): number {
  const last = placed.at(-1)!
  return (last.y + last.strip.heightPt - MARGIN_PT) / (size.heightPt - 2 * MARGIN_PT - FOOT_PT)
}

function laidOut(pen: Pen, { paper, sections }: PdfDocument, scale: number): readonly Page[] {
  const pages = new Pages(pen, paper, scale)
  for (const section of sections) pages.put(section)
  return pages.all
}

/** Puts strips on pages, and begins a new one where they do not fit. */
class Pages {
  readonly all: Page[] = []
  private left = 0
  private readonly pen: Pen
  private readonly paper: PdfDocument['paper']
  private readonly scale: number

  constructor(pen: Pen, paper: PdfDocument['paper'], scale: number) {
    this.pen = pen
    this.paper = paper
    this.scale = scale
  }

  put({ landscape, newPage, blocks }: Section): void {
    const size = pageSize(this.paper, landscape)
    const heightPt = size.heightPt - 2 * MARGIN_PT - FOOT_PT
    const room = { widthPt: size.widthPt - 2 * MARGIN_PT, heightPt, type: typeSizes(this.scale) }
    const strips = stripsOf(this.pen, blocks, room)
    if (strips.length === 0) return
    const begin = () => {
      this.all.push({ size, landscape, placed: [] })
      this.left = heightPt
    }
    const little = newPage === 'where-little-is-left' && this.left < heightPt / 3
    if (newPage === 'always' || little || this.all.at(-1)?.landscape !== landscape) begin()
    for (const group of groupsOf(strips)) {
      if (this.needed(group) > this.left + SLACK_PT && !this.isEmpty) {
        begin()
        for (const head of group[0]!.again) this.place(head)
      }
      for (const each of group) {
        if (this.needed([each]) > this.left + SLACK_PT && !this.isEmpty) {
          begin()
          for (const head of each.again) this.place(head)
        }
        this.place(each)
      }
    }
  }

  private get isEmpty(): boolean {
    return this.all.at(-1)!.placed.length === 0
  }

  private needed(strips: readonly Strip[]): number {
    return heightOf(strips) + (this.isEmpty ? 0 : strips[0]!.abovePt)
  }

  private place(strip: Strip): void {
    const { size, placed } = this.all.at(-1)!
    const above = placed.length === 0 ? 0 : strip.abovePt
    placed.push({ strip, y: size.heightPt - MARGIN_PT - FOOT_PT - this.left + above })
    this.left -= above + strip.heightPt
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
