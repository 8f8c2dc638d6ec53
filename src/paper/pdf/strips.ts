import type { Block, Run } from './blocks.ts'
import { cardStrips } from './card-strips.ts'
import { drawPicture } from './draw-picture.ts'
import { linesOf } from './lines.ts'
import { mmToPt, type Pen } from './pen.ts'
import { asOne, heightOf, type Room, type Strip, strip, together } from './strip.ts'
import { tableStrips } from './table-strips.ts'

/** Blocks as strips, from the top. */
export function stripsOf(pen: Pen, blocks: readonly Block[], room: Room): Strip[] {
  return blocks.flatMap((block, index) => {
    const strips = stripsOfBlock(pen, block, room)
    return leadsOn(block, blocks[index - 1], blocks[index + 1]) && strips.length === 1
      ? [{ ...strips[0]!, keepNext: true }]
      : strips
  })
}

/** A few words under a heading belong to the table or drawing below them, and a drawing to the table below it. */
function leadsOn(block: Block, before: Block | undefined, after: Block | undefined): boolean {
  const isTable = after?.is === 'table' || after?.is === 'beside'
  if (block.is === 'picture') return isTable
  return block.is === 'paragraph' && before?.is === 'heading' && (isTable || after?.is === 'picture')
}

function stripsOfBlock(pen: Pen, block: Block, room: Room): Strip[] {
  switch (block.is) {
    case 'heading': {
      const { size, leading, above } = room.type.headings[block.level]
      const runs = block.runs.map((run) => ({ ...run, bold: !run.soft }))
      const lines = textStrips(pen, runs, { size, leading }, room.widthPt)
      return lines.map((line, index) => ({ ...line, keepNext: true, abovePt: index === 0 ? above : 0 }))
    }
    case 'paragraph':
      return paragraphStrips(pen, block.runs, room)
    case 'list':
      return listStrips(pen, block, room)
    case 'table':
      return tableStrips(pen, block, room.type.table, room.widthPt)
    case 'beside':
      return besideStrips(pen, block.parts, room)
    case 'cards':
      return cardStrips(pen, block, room, stripsOf)
    case 'picture':
      return [pictureStrip(block, room)]
    case 'key':
      return keyStrips(pen, block.entries, room)
  }
}

function textStrips(
  pen: Pen,
  runs: readonly Run[],
  { size, leading }: { readonly size: number; readonly leading: number },
  widthPt: number,
): Strip[] {
  return linesOf(pen, runs, size, widthPt).map(({ parts }) =>
    strip(leading, (on, x, y) => {
      for (const part of parts) on.text(part.run, x + part.x, y + size, size)
    }),
  )
}

/** A longer paragraph may be divided, but for its first and last two lines. */
const WHOLE_LINES = 8

function paragraphStrips(pen: Pen, runs: readonly Run[], { widthPt, type }: Room): Strip[] {
  const lines = textStrips(pen, runs, type.text, widthPt)
  const first = { abovePt: type.text.above }
  if (lines.length <= WHOLE_LINES) return [asOne(lines, first)]
  return lines.map((line, index) => ({
    ...line,
    ...(index === 0 && first),
    keepNext: index === 0 || index === lines.length - 2,
  }))
}

const INDENT = 13

function listStrips(pen: Pen, { items, numbered }: Block & { readonly is: 'list' }, room: Room): Strip[] {
  const { size } = room.type.text
  const inside = { ...room, widthPt: room.widthPt - INDENT }
  return items.flatMap((item, index) => {
    const [first, ...rest] = stripsOf(pen, item, inside)
    if (!first) return []
    const mark = { text: numbered ? `${index + 1}.` : '•', bold: false, soft: true }
    const marked = strip(
      first.heightPt,
      (on, x, y) => {
        on.text(mark, x + (numbered ? 0 : 4), y + size, size)
        first.draw(on, x + INDENT, y)
      },
      first,
    )
    return together([marked, ...rest.map((each) => indented(each))])
  })
}

function indented(each: Strip): Strip {
  return { ...each, draw: (pen, x, y) => each.draw(pen, x + INDENT, y) }
}

const BETWEEN = 12

/** Strips of all parts beside each other, the first with the first, the second with the second. */
function besideStrips(pen: Pen, parts: readonly (readonly Block[])[], room: Room): Strip[] {
  const widthPt = (room.widthPt - BETWEEN * (parts.length - 1)) / parts.length
  const all = parts.map((part) => stripsOf(pen, part, { ...room, widthPt }))
  return rowsOf(all, widthPt)
}

function rowsOf(columns: readonly (readonly Strip[])[], widthPt: number): Strip[] {
  const count = Math.max(...columns.map(({ length }) => length))
  return Array.from({ length: count }, (_, row) => {
    const own = columns.map((column) => column[row])
    const again = columns.map((column, index) => (own[index] ? column[row]!.again : []))
    return strip(
      Math.max(...own.map((each) => each?.heightPt ?? 0)),
      (on, x, y) => {
        for (const [index, each] of own.entries()) each?.draw(on, x + index * (widthPt + BETWEEN), y)
      },
      {
        keepNext: own.some((each) => each?.keepNext),
        abovePt: Math.max(...own.map((each) => each?.abovePt ?? 0)),
        again: again.some(({ length }) => length > 0) ? rowsOf(again, widthPt) : [],
      },
    )
  })
}

function pictureStrip({ picture, unitMm }: Block & { readonly is: 'picture' }, room: Room): Strip {
  const fitting = Math.min(room.widthPt / picture.box.width, room.heightPt / picture.box.height)
  const ptPerUnit = unitMm === null ? Math.min(fitting, WIDEST_UNIT_PT) : mmToPt(unitMm)
  return strip(picture.box.height * ptPerUnit, (pen, x, y) => drawPicture(pen, picture, x, y, ptPerUnit), {
    abovePt: 3,
  })
}

/** A drawing of the page is not made larger than its text would be read well. */
const WIDEST_UNIT_PT = 0.58

function keyStrips(pen: Pen, entries: (Block & { readonly is: 'key' })['entries'], room: Room): Strip[] {
  const { size } = room.type.text
  const height = 11
  const rows: { width: number; draws: Strip['draw'][] }[] = []
  for (const { picture, runs } of entries) {
    const ptPerUnit = height / picture.box.height
    const [line] = linesOf(pen, runs, size, room.widthPt / 2)
    const wide = picture.box.width * ptPerUnit + 4
    const whole = wide + line!.widthPt + BETWEEN
    let row = rows.at(-1)
    if (!row || row.width + whole > room.widthPt) {
      row = { width: 0, draws: [] }
      rows.push(row)
    }
    const left = row.width
    row.draws.push((on, x, y) => {
      drawPicture(on, picture, x + left, y, ptPerUnit)
      for (const part of line!.parts) on.text(part.run, x + left + wide + part.x, y + size, size)
    })
    row.width += whole
  }
  const strips = rows.map(({ draws }) =>
    strip(height + 2, (on, x, y) => {
      for (const draw of draws) draw(on, x, y)
    }),
  )
  return heightOf(strips) > 0 ? [asOne(strips, { abovePt: 3 })] : []
}
