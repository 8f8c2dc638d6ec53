import { type Archive, ArchiveFault } from './archive.ts'
import { cellOf, chosenSheet, type PlacedCell, type ReadSheet, type SheetCell, sheetOfCells } from './sheet.ts'
import { shownInText } from './shown-in-text.ts'
import { xmlParts } from './xml-parts.ts'

/**
 * The sheet to read of a spreadsheet in the OpenDocument format (version 1.3, part 3, section 9); null where the archive
 * is not one.
 */
export async function sheetInOpenDocument(archive: Archive): Promise<ReadSheet | null> {
  if ((await archive.read('META-INF/manifest.xml'))?.includes('encryption-data')) throw new ArchiveFault('encrypted')
  const content = await archive.read('content.xml')
  const chosen = content === null ? undefined : chosenSheet(sheetsOf(content))
  return content === null || !chosen ? null : sheetOfCells(placedCells(content, chosen.index), chosen.name)
}

interface ListedSheet {
  readonly index: number
  readonly name: string
  readonly isHidden: boolean
}

/** Whether a sheet is hidden is a property of its style. */
function sheetsOf(content: string): ListedSheet[] {
  const hidden = new Set<string>()
  const sheets: ListedSheet[] = []
  let style = ''
  let depth = 0
  for (const part of xmlParts(content)) {
    if (part.is === 'text') continue
    if (part.name === 'style' && part.is === 'start') style = part.attributes.get('name') ?? ''
    if (part.name === 'table-properties' && part.is === 'start' && part.attributes.get('display') === 'false')
      hidden.add(style)
    if (part.name !== 'table') continue
    depth += part.is === 'start' ? 1 : -1
    if (part.is === 'start' && depth === 1)
      sheets.push({
        index: sheets.length,
        name: part.attributes.get('name') ?? '',
        isHidden: hidden.has(part.attributes.get('style-name') ?? ''),
      })
  }
  return sheets
}

/** A cell in the file. */
interface WrittenCell {
  readonly attributes: ReadonlyMap<string, string>
  readonly paragraphs: string[]
}

/** Rows and cells may stand for many. */
function* placedCells(content: string, index: number): Generator<PlacedCell> {
  let row = 0
  let rows = 1
  let column = 0
  for (const part of partsOfSheet(content, index)) {
    if (part.is === 'row') {
      rows = part.repeated
      column = 0
    } else if (part.is === 'cell') {
      const columns = countIn(part.cell.attributes.get('number-columns-repeated'))
      yield { row, column, rows, columns, value: valueIn(part.cell) }
      column += columns
    } else row += rows
  }
}

type SheetPart =
  | { readonly is: 'row'; readonly repeated: number }
  | { readonly is: 'cell'; readonly cell: WrittenCell }
  | { readonly is: 'end' }

/** The rows and cells of one sheet. The text of a comment is not that of its cell. */
function* partsOfSheet(content: string, index: number): Generator<SheetPart> {
  let sheet = -1
  let depth = 0
  let cell: WrittenCell | null = null
  let inParagraph = false
  let inComment = false
  for (const part of xmlParts(content)) {
    if (part.is === 'text') {
      if (cell && inParagraph && !inComment) cell.paragraphs[cell.paragraphs.length - 1] += part.text
      continue
    }
    const isStart = part.is === 'start'
    if (part.name === 'table') {
      depth += isStart ? 1 : -1
      if (isStart && depth === 1) sheet++
    }
    if (sheet > index) return
    if (sheet < index || depth !== 1) continue
    if (part.name === 'table-row')
      yield isStart ? { is: 'row', repeated: countIn(part.attributes.get('number-rows-repeated')) } : { is: 'end' }
    else if (part.name === 'table-cell' || part.name === 'covered-table-cell') {
      if (isStart) cell = { attributes: part.attributes, paragraphs: [] }
      else if (cell) {
        yield { is: 'cell', cell }
        cell = null
      }
    } else if (part.name === 'annotation') inComment = isStart
    else if (cell && !inComment) {
      if (part.name === 'p') {
        inParagraph = isStart
        if (isStart) cell.paragraphs.push('')
      } else if (isStart && inParagraph && part.name in BLANKS)
        cell.paragraphs[cell.paragraphs.length - 1] += BLANKS[part.name as keyof typeof BLANKS]
    }
  }
}

/** Elements that stand for white space; several blanks are read as one. */
const BLANKS = { s: ' ', tab: '\t', 'line-break': '\n' } as const

function valueIn({ attributes, paragraphs }: WrittenCell): SheetCell {
  const text = paragraphs.join('\n')
  const number = Number(attributes.get('value') || Number.NaN)
  switch (attributes.get('value-type')) {
    case 'float':
      return Number.isNaN(number) ? cellOf(text) : shownInText(number, text)
    case 'percentage':
      return { number: Number((number * 100).toPrecision(15)), unit: '%', shows: text || `${number * 100} %` }
    case 'currency':
      return { number, unit: null, shows: text || 'an amount of money' }
    case 'date':
    case 'time':
      return { hides: 'date' }
    case 'boolean':
      return attributes.get('boolean-value') === 'true'
    case undefined:
      return attributes.has('formula') && text === '' ? { hides: 'result' } : cellOf(text)
    default:
      return cellOf(attributes.get('string-value') ?? text)
  }
}

/** How often something is repeated; spreadsheets have at most a million rows. */
function countIn(text: string | undefined): number {
  return text !== undefined && /^[1-9]\d{0,6}$/.test(text) ? Number(text) : 1
}
