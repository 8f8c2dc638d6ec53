import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import type { PdfDocument, Run } from './blocks.ts'
import { POINTS_PER_MM, SIZES } from './sizes.ts'

const INK = '#1d2721'
const SOFT = '#525f57'

type Kit = InstanceType<typeof import('pdfkit')>

/** Draws on the pages of a file. Places are in points (1/72 in) from the top left corner of a page. */
export class Pen {
  private readonly widths = new Map<string, number>()

  readonly kit: Kit
  private readonly ended: Promise<Uint8Array<ArrayBuffer>>

  private constructor(kit: Kit, ended: Promise<Uint8Array<ArrayBuffer>>) {
    this.kit = kit
    this.ended = ended
  }

  /** The library is read when it is first needed, because it takes as long to read as all the rest of the service. */
  static async open({ title, date }: Pick<PdfDocument, 'title' | 'date'>): Promise<Pen> {
    const { default: PDFKit } = await import('pdfkit')
    const kit = new PDFKit({
      autoFirstPage: false,
      bufferPages: true,
      pdfVersion: '1.7',
      lang: 'en',
      displayTitle: true,
      // Of the day, so that the same plan makes the same file for a day.
      info: { Title: title, Creator: 'Longchord', CreationDate: new Date(`${date}T00:00:00Z`) },
    })
    for (const [name, file] of Object.entries(FONTS)) kit.registerFont(name, fontFile(file))
    return new Pen(kit, bytesOf(kit))
  }

  addPage({ widthPt, heightPt }: { widthPt: number; heightPt: number }): void {
    this.kit.addPage({ size: [widthPt, heightPt], margin: 0 })
  }

  widthOf(text: string, isBold: boolean, size: number): number {
    const key = `${isBold}${text}`
    const known = this.widths.get(key)
    if (known !== undefined) return known * size
    const width = this.kit
      .font(isBold ? 'bold' : 'regular')
      .fontSize(1)
      .widthOfString(text)
    this.widths.set(key, width)
    return width * size
  }

  /** @param y of the base line */
  text({ text, bold, soft }: Run, x: number, y: number, size: number, colour = soft ? SOFT : INK): void {
    if (text === '') return
    const at = { lineBreak: false, baseline: 'alphabetic' as const }
    this.kit
      .font(bold ? 'bold' : 'regular')
      .fontSize(size)
      .fillColor(colour)
      .text(text, x, y, at)
  }

  line(fromX: number, fromY: number, toX: number, toY: number): void {
    this.kit.moveTo(fromX, fromY).lineTo(toX, toY).lineWidth(0.4).strokeColor('#b7b4a6').stroke()
  }

  frame(x: number, y: number, width: number, height: number): void {
    this.kit.roundedRect(x, y, width, height, 3).lineWidth(0.6).strokeColor('#8b9289').stroke()
  }

  /** Calls back for each page, with its number from 1. */
  eachPage(draw: (page: number, of: number) => void): void {
    const { count } = this.kit.bufferedPageRange()
    for (let page = 0; page < count; page++) {
      this.kit.switchToPage(page)
      draw(page + 1, count)
    }
  }

  async end(): Promise<Uint8Array<ArrayBuffer>> {
    this.kit.end()
    return this.ended
  }
}

export function mmToPt(mm: number): number {
  return mm * POINTS_PER_MM
}

/** The size of a page, pt. */
export function pageSize(paper: PdfDocument['paper'], landscape: boolean): { widthPt: number; heightPt: number } {
  const [short, long] = SIZES[paper]
  return landscape ? { widthPt: long, heightPt: short } : { widthPt: short, heightPt: long }
}

/** DejaVu: free to embed and to pass on; it has the fractions, arrows and letters of most languages that names are in. */
const FONTS = { regular: 'DejaVuSansCondensed.ttf', bold: 'DejaVuSansCondensed-Bold.ttf' }

function fontFile(name: string): string {
  return join(dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json')), 'ttf', name)
}

function bytesOf(kit: Kit): Promise<Uint8Array<ArrayBuffer>> {
  const chunks: Uint8Array[] = []
  return new Promise((resolve, reject) => {
    kit.on('data', (chunk: Uint8Array) => chunks.push(chunk))
    kit.on('end', () => resolve(new Uint8Array(Buffer.concat(chunks))))
    kit.on('error', reject)
  })
}
