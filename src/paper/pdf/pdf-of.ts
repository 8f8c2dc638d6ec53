import { type PdfDocument, soft } from './blocks.ts'
import { pagesOf } from './pages.ts'
import { Pen } from './pen.ts'
import { MARGIN_PT } from './sizes.ts'

/** A document as PDF: its fonts are in it, and its text can be searched. */
export async function pdfOf(document: PdfDocument): Promise<Uint8Array<ArrayBuffer>> {
  const pen = await Pen.open(document)
  for (const { size, placed } of pagesOf(pen, document)) {
    pen.addPage(size)
    for (const { strip, y } of placed) strip.draw(pen, MARGIN_PT, y)
  }
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
