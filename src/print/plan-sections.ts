import { boundsOfPlan, drawnPlan, type PlanToDraw } from '../page/drawing/drawn-plan.ts'
import { gridStep, planDrawing } from '../page/drawing/plan-drawing.ts'
import { planToDraw } from '../page/drawing/plan-to-draw.ts'
import { scaleBar } from '../page/drawing/scale-bar.ts'
import { type Bounds, FOOT, type View } from '../page/drawing/view.ts'
import { html } from '../page/html.ts'
import { gardenLength, type LengthsIn } from '../page/show-length.ts'
import type { PaperFault, PlanOnPaper } from '../paper/papers.ts'
import { type Block, bold, type Paper, plain, type Section, soft } from '../paper/pdf/blocks.ts'
import type { Picture } from '../paper/picture.ts'
import { sampleLine } from '../track/sample.ts'
import { pictureOf } from './picture-of.ts'
import { SMALLEST_CLEAR, scaleName, scalesIn } from './standard-scales.ts'
import { fitsUpright, MOST_PAGES, onePage, type Tile, type Tiling, tilesOf } from './tiles.ts'

/** How long a unit of a drawing of the page is on paper: its text is then 2.4 mm high. */
const UNIT_MM = 0.19

/** More pages than these are only printed where a scale is asked for. */
const USUAL_PAGES = 9

type Sections =
  | { readonly ok: true; readonly sections: readonly Section[] }
  | { readonly ok: false; readonly fault: PaperFault }

/**
 * The plan to a standard scale, on as many pages as it takes: the largest scale at which it fits on one page; where rails
 * would be too close together for that, on several, with a map of the pages before them.
 *
 * @param title above the first page
 * @param asked the scale, as 50 for 1:50
 */
export function planSections(
  { plan, estimate }: PlanOnPaper,
  {
    title,
    lengthsIn,
    paper,
    asked,
  }: { title: readonly Block[]; lengthsIn: LengthsIn; paper: Paper; asked: number | undefined },
): Sections {
  const drawn = planToDraw(plan, estimate)
  const bounds = boundsOfPlan(drawn)
  if (!bounds) return { ok: true, sections: [{ landscape: false, newPage: 'always', blocks: title }] }
  const lines = drawn.tracks.flatMap(({ placed, turnouts = [] }) =>
    [placed, ...turnouts.map(({ otherLeg }) => otherLeg)].map((each) => sampleLine(each, 0, 20).points),
  )
  const { scale, tiling } = scaleFor(lines, bounds, { asked, lengthsIn, paper })
  const count = tiling.tiles.length
  if (count > MOST_PAGES) return { ok: false, fault: tooManyPages(scale, count) }
  const sheet = { drawn, estimate, lengthsIn, scale, tiling }
  if (count === 1)
    return {
      ok: true,
      sections: [{ landscape: tiling.landscape, newPage: 'always', blocks: [...title, ...tileBlocks(sheet, 0)] }],
    }
  const pages = tiling.tiles.map(
    (_, index): Section => ({ landscape: tiling.landscape, newPage: 'always', blocks: tileBlocks(sheet, index) }),
  )
  const map: Section = { landscape: tiling.landscape, newPage: 'always', blocks: [...title, ...mapBlocks(sheet)] }
  return { ok: true, sections: [map, ...pages] }
}

/** What a drawing over several pages is refused with. */
function tooManyPages(scale: number, count: number): PaperFault {
  return {
    parameter: 'scale',
    code: 'out-of-range',
    detail: `at 1:${scale} the plan takes ${count} pages; at most ${MOST_PAGES} are allowed`,
    hint: 'use a smaller scale, such as scale=50, or leave it out',
  }
}

interface Wanted {
  readonly asked: number | undefined
  readonly lengthsIn: LengthsIn
  readonly paper: Paper
}

function scaleFor(
  lines: Parameters<typeof tilesOf>[0],
  bounds: Bounds,
  { asked, lengthsIn, paper }: Wanted,
): { scale: number; tiling: Tiling } {
  const at = (scale: number): Tiling => {
    const fits = fitsUpright(bounds, scale, paper)
    return fits ? onePage(bounds, scale, paper, fits.landscape) : tilesOf(lines, bounds, scale, paper)
  }
  if (asked !== undefined) return { scale: asked, tiling: at(asked) }
  const scales = scalesIn(lengthsIn)
  for (const scale of scales) {
    if (scale > SMALLEST_CLEAR) break
    if (fitsUpright(bounds, scale, paper)) return { scale, tiling: at(scale) }
  }
  for (const scale of scales) {
    if (scale < SMALLEST_CLEAR / 2) continue
    const tiling = at(scale)
    if (tiling.tiles.length <= USUAL_PAGES) return { scale, tiling }
  }
  const last = scales.at(-1)!
  return { scale: last, tiling: at(last) }
}

interface PlanSheet {
  readonly drawn: PlanToDraw
  readonly estimate: PlanOnPaper['estimate']
  readonly lengthsIn: LengthsIn
  readonly scale: number
  readonly tiling: Tiling
}

function tileBlocks(sheet: PlanSheet, index: number): Block[] {
  const { lengthsIn, scale, tiling } = sheet
  const tile = tiling.tiles[index]!
  const several = tiling.tiles.length > 1
  const name = several ? `Plan, part ${index + 1} of ${tiling.tiles.length}` : 'Plan'
  const { minXMm, minYMm } = tile.bounds
  const corner = several
    ? [
        soft('Lower left corner at x '),
        plain(gardenLength(minXMm, oneUnit(lengthsIn)).toString()),
        soft(', y '),
        plain(gardenLength(minYMm, oneUnit(lengthsIn)).toString()),
        soft('. '),
        ...neighbours(tiling, tile),
      ]
    : []
  return [
    { is: 'heading', level: 2, runs: [bold(`${name}, ${scaleName(scale, lengthsIn)}`)] },
    { is: 'picture', picture: tilePicture(sheet, tile), unitMm: UNIT_MM },
    { is: 'picture', picture: footPicture(sheet), unitMm: UNIT_MM },
    ...(corner.length > 0 ? [{ is: 'paragraph' as const, runs: corner }] : []),
  ]
}

function oneUnit(lengthsIn: LengthsIn): LengthsIn {
  return lengthsIn === 'both' ? 'metric' : lengthsIn
}

/** The parts that are joined to this one at its edges. */
function neighbours({ tiles }: Tiling, { column, row }: Tile) {
  const sides = [
    { name: 'left', column: column - 1, row },
    { name: 'right', column: column + 1, row },
    { name: 'above', column, row: row - 1 },
    { name: 'below', column, row: row + 1 },
  ]
  const joined = sides.flatMap((side) => {
    const number = tiles.findIndex((each) => each.column === side.column && each.row === side.row)
    return number < 0 ? [] : [`${side.name} part ${number + 1}`]
  })
  return joined.length > 0 ? [soft(`Joined on: ${joined.join(', ')}.`)] : []
}

/** A part of the plan as the page draws it, with its own labels; the band with the scale stands below it. */
function tilePicture({ drawn, estimate, lengthsIn, scale, tiling }: PlanSheet, { bounds }: Tile): Picture {
  const unitsPerMm = 1 / (scale * UNIT_MM)
  const [width, height] = [tiling.widthMm / UNIT_MM, tiling.heightMm / UNIT_MM]
  const view: View = {
    width,
    height: height + FOOT,
    scale: unitsPerMm,
    spotOf: ({ xMm, yMm }) => ({ x: (xMm - bounds.minXMm) * unitsPerMm, y: (bounds.maxYMm - yMm) * unitsPerMm }),
  }
  const picture = pictureOf(planDrawing(drawn, estimate.findings, lengthsIn, { given: view })!)
  const box = { x: 0, y: 0, width, height }
  const edge = {
    ...{ fill: null, stroke: '#8b9289', strokeWidth: 1.5, dash: [], dashOffset: 0, opacity: 1 },
    ...{ roundCaps: false, roundJoins: false },
  }
  return { ...picture, box, shapes: [...picture.shapes, { ...edge, is: 'rect', at: box, radius: 0 }] }
}

/** The scale, the squares, which way is up, and a place to draw north, which no plan knows. */
function footPicture({ scale, lengthsIn, tiling }: PlanSheet): Picture {
  const unitsPerMm = 1 / (scale * UNIT_MM)
  const width = tiling.widthMm / UNIT_MM
  const middle = width * 0.62
  return pictureOf(html`<svg class="plan" viewBox="0 0 ${width} 46">${scaleBar(unitsPerMm, lengthsIn, 4, 8)}
<path class="start" d="M${middle} 40V8M${middle - 5} 17L${middle} 8L${middle + 5} 17"/><text x="${middle + 10}" y="16">y</text>
<circle class="piece-end" cx="${middle + 60}" cy="24" r="17"/><text class="small" x="${middle + 84}" y="22">North: draw it</text><text class="small" x="${middle + 84}" y="35">into the ring.</text>
<text class="small" x="${width - 4}" y="22" text-anchor="end">Squares of ${gridStep(unitsPerMm, lengthsIn).name}</text></svg>`)
}

/** The whole plan with the parts of the following pages. */
function mapBlocks({ drawn, lengthsIn, tiling, scale }: PlanSheet): Block[] {
  const { view } = drawnPlan(drawn)!
  const picture = pictureOf(planDrawing(drawn, [], lengthsIn)!)
  const line = {
    ...{ fill: null, stroke: '#1c5480', strokeWidth: 1.2, dash: [], dashOffset: 0, opacity: 1 },
    ...{ roundCaps: false, roundJoins: false },
  }
  const parts = tiling.tiles.flatMap(({ bounds }, index): Picture['shapes'] => {
    const from = view.spotOf({ xMm: bounds.minXMm, yMm: bounds.maxYMm })
    const to = view.spotOf({ xMm: bounds.maxXMm, yMm: bounds.minYMm })
    const at = { x: from.x, y: from.y, width: to.x - from.x, height: to.y - from.y }
    const name = {
      x: from.x + 6,
      y: from.y + 18,
      text: String(index + 1),
      size: 16,
      bold: true,
      anchor: 'start' as const,
    }
    return [
      { ...line, is: 'rect', at, radius: 0 },
      { ...line, fill: '#1c5480', stroke: null, is: 'text', ...name },
    ]
  })
  return [
    {
      is: 'heading',
      level: 2,
      runs: [bold('Map of the pages'), soft(`, whose drawings are ${scaleName(scale, lengthsIn)}`)],
    },
    { is: 'picture', picture: { ...picture, shapes: [...picture.shapes, ...parts] }, unitMm: null },
  ]
}
