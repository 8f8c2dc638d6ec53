import { boundsOf } from '../../page/drawing/view.ts'
import { type LengthsIn, lengthText } from '../../page/show-length.ts'
import type { PaperFault } from '../../paper/papers.ts'
import { type Block, bold, type Paper, type Section, soft } from '../../paper/pdf/blocks.ts'
import type { Look, Picture, PictureShape } from '../../paper/picture.ts'
import type { Point } from '../../track/sample.ts'
import { MOST_PAGES, roomOn, type Tile, type Tiling, tilesOf } from '../tiles.ts'

/** Something to be laid on the bench or the ground in its true size. */
export interface Template {
  readonly title: string
  readonly facts: string
  readonly lines: readonly TemplateLine[]
  readonly labels: readonly TemplateLabel[]
}

export interface TemplateLine {
  readonly look: keyof typeof LOOKS
  /** On the sheet of the template, mm: x to the right, y up. */
  readonly points: readonly Point[]
}

export interface TemplateLabel {
  readonly at: Point
  readonly text: string
}

type TemplateSections =
  | { readonly ok: true; readonly sections: readonly Section[] }
  | { readonly ok: false; readonly fault: PaperFault }

/** A radius in the units of the plan. */
export function radiusText(mm: number, lengthsIn: LengthsIn): string {
  return lengthsIn === 'feet' ? lengthText(mm, 'feet') : `${mm.toFixed(1)} mm`
}

/** No line of a template is further from the curve it stands for, mm. */
export const LINE_ERROR_MM = 0.01

const line = (stroke: string, strokeWidth: number, dash: readonly number[] = []): Look => ({
  ...{ fill: null, stroke, strokeWidth, dash, dashOffset: 0, opacity: 1 },
  ...{ roundCaps: false, roundJoins: true },
})

/** Widths in mm; the tests find each line by its own. */
const LOOKS = {
  rail: line('#000', 0.3),
  cut: line('#000', 0.35),
  face: line('#000', 0.1),
  centre: line('#1c5480', 0.15, [5, 2]),
  tie: line('#8a5f13', 0.2),
  mark: line('#525f57', 0.12),
} as const satisfies Record<string, Look>

/** How far a page shows beyond its own part, so that pages can be glued on each other. */
const OVERLAP_MM = 4

/** A template over as many pages as it has lines on, in true size. */
export function templateSections(template: Template, paper: Paper, lengthsIn: LengthsIn): TemplateSections {
  const lines = template.lines.map(({ points }) => points)
  const bounds = boundsOf(lines)!
  const room = (size: Paper, landscape: boolean) => {
    const { widthMm, heightMm } = roomOn(size, landscape)
    return { widthMm: widthMm - 2 * OVERLAP_MM, heightMm: heightMm - 2 * OVERLAP_MM }
  }
  const tiling = tilesOf(lines, bounds, 1, paper, room)
  const count = tiling.tiles.length
  if (count > MOST_PAGES) return { ok: false, fault: tooManyPages(template, count) }
  const sections = tiling.tiles.map(
    (tile, index): Section => ({
      landscape: tiling.landscape,
      newPage: 'always',
      blocks: pageBlocks(template, tiling, tile, index, lengthsIn),
    }),
  )
  return { ok: true, sections }
}

function tooManyPages({ title }: Template, count: number): PaperFault {
  return {
    parameter: 'template',
    code: 'out-of-range',
    detail: `${title} takes ${count} pages in true size; at most ${MOST_PAGES} are allowed`,
    hint: 'print a shorter curve, or a drawing to scale',
  }
}

function pageBlocks(
  template: Template,
  tiling: Tiling,
  { bounds, column, row }: Tile,
  index: number,
  lengthsIn: LengthsIn,
): Block[] {
  const count = tiling.tiles.length
  const where = count === 1 ? '' : `  page ${index + 1} of ${count}: row ${row + 1}, column ${column + 1}`
  return [
    { is: 'heading', level: 2, runs: [bold(template.title), soft(where)] },
    { is: 'paragraph', runs: [soft(template.facts)] },
    { is: 'picture', picture: pagePicture(template, bounds), unitMm: 1 },
    { is: 'picture', picture: controlPicture(tiling.widthMm + 2 * OVERLAP_MM, lengthsIn), unitMm: 1 },
  ]
}

function pagePicture({ lines, labels }: Template, bounds: Tile['bounds']): Picture {
  const { minXMm, maxXMm, minYMm, maxYMm } = bounds
  const [width, height] = [maxXMm - minXMm, maxYMm - minYMm]
  const at = ({ xMm, yMm }: Point) => ({ x: xMm - minXMm, y: maxYMm - yMm })
  const box = { x: -OVERLAP_MM, y: -OVERLAP_MM, width: width + 2 * OVERLAP_MM, height: height + 2 * OVERLAP_MM }
  const drawn = lines.map(({ look, points }): PictureShape => {
    const d = points.map((point, index) => {
      const { x, y } = at(point)
      return `${index === 0 ? 'M' : 'L'}${exact(x)} ${exact(y)}`
    })
    return { ...LOOKS[look], is: 'path', d: d.join('') }
  })
  const texts = labels.flatMap(({ at: place, text }): PictureShape[] => {
    const { x, y } = at(place)
    return x < 0 || y < 0 || x > width || y > height ? [] : [textAt(x, y, text)]
  })
  return { title: null, description: null, box, shapes: [...registers(width, height), ...drawn, ...texts] }
}

/** To a millionth of a millimetre, the last digit that the file keeps. */
function exact(mm: number): number {
  return Math.round(mm * 1e6) / 1e6
}

function textAt(x: number, y: number, text: string): PictureShape {
  return {
    ...LOOKS.mark,
    fill: '#1d2721',
    stroke: null,
    is: 'text',
    x,
    y,
    text,
    size: 2.6,
    bold: false,
    anchor: 'start',
  }
}

/** The edge of the page's own part, and a cross at each of its corners: those of neighbours lie on each other. */
function registers(width: number, height: number): PictureShape[] {
  const crosses = [0, width].flatMap((x) =>
    [0, height].map(
      (y) => `M${x - OVERLAP_MM} ${y}L${x + OVERLAP_MM} ${y}M${x} ${y - OVERLAP_MM}L${x} ${y + OVERLAP_MM}`,
    ),
  )
  const edge: PictureShape = { ...LOOKS.mark, dash: [1, 2], is: 'rect', at: { x: 0, y: 0, width, height }, radius: 0 }
  const circles = [0, width].flatMap((x) =>
    [0, height].map((y): PictureShape => ({ ...LOOKS.mark, is: 'circle', x, y, radius: 2 })),
  )
  return [edge, { ...LOOKS.mark, is: 'path', d: crosses.join('') }, ...circles]
}

/** What is measured on each page before it is used: printers shrink. */
function controlPicture(widthMm: number, lengthsIn: LengthsIn): Picture {
  const bar = (mm: number, y: number) =>
    `M0.2 ${y - 1.5}L0.2 ${y + 1.5}M0.2 ${y}L${mm + 0.2} ${y}M${mm + 0.2} ${y - 1.5}L${mm + 0.2} ${y + 1.5}`
  const bars = [bar(100, 3), ...(lengthsIn === 'metric' ? [] : [bar(101.6, 7.5)])]
  const texts = [
    textAt(103.5, 4, '100 mm: measure it.'),
    ...(lengthsIn === 'metric' ? [] : [textAt(103.5, 8.5, '4 in')]),
    textAt(132, 4, 'Print at 100 %, not fitted to the page.'),
    textAt(132, 8.5, 'Join pages at the crosses.'),
  ]
  return {
    ...{ title: null, description: null, box: { x: 0, y: 0, width: widthMm, height: 10 } },
    shapes: [{ ...LOOKS.face, strokeWidth: 0.25, is: 'path', d: bars.join('') }, ...texts],
  }
}
