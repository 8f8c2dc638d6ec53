import { posix } from 'node:path'
import type { Archive } from './archive.ts'
import { builtInFormat, type FormatShows, formatShows } from './number-format.ts'
import { cellOf, chosenSheet, LONGEST_CELL } from './sheet.ts'
import { xmlParts } from './xml-parts.ts'

/** The parts of a workbook that define one of its sheets (ECMA-376, part 1, section 18). */
export interface WorkbookParts {
  /** The sheet itself, as XML. */
  readonly sheet: string
  readonly name: string
  /** The shared texts of its cells, by number; null where one is blank. */
  readonly strings: readonly (string | null)[]
  /** How a cell of this style shows a number. */
  readonly shows: (style: number) => FormatShows
}

/** Reads them from the archive; null where it is not a workbook. */
export async function workbookParts(archive: Archive): Promise<WorkbookParts | null> {
  const path = ofType(await relationships(archive, ''), 'officeDocument')?.path
  const workbook = path === undefined ? null : await archive.read(path)
  if (path === undefined || workbook === null) return null
  const parts = await relationships(archive, path)
  const sheets = starts(workbook, 'sheet').flatMap((attributes) => {
    const part = parts.get(attributes.get('id') ?? '')
    return part?.type === 'worksheet'
      ? [
          {
            path: part.path,
            name: attributes.get('name') ?? '',
            isHidden: /hidden/i.test(attributes.get('state') ?? ''),
          },
        ]
      : []
  })
  const chosen = chosenSheet(sheets)
  const sheet = chosen ? await archive.read(chosen.path) : null
  if (!chosen || sheet === null) return null
  const strings = await archive.read(ofType(parts, 'sharedStrings')?.path ?? '')
  const styles = await archive.read(ofType(parts, 'styles')?.path ?? '')
  return {
    sheet,
    name: chosen.name,
    strings: strings === null ? [] : sharedStrings(strings),
    shows: formatsOfStyles(styles ?? ''),
  }
}

interface Part {
  /** The end of the address that names its type: the beginning differs in the strict form of the standard. */
  readonly type: string
  readonly path: string
}

/** What a file refers to, by id; the empty path stands for the whole archive. */
async function relationships(archive: Archive, path: string): Promise<ReadonlyMap<string, Part>> {
  const { dir, base } = posix.parse(path)
  const xml = await archive.read(posix.join(dir, '_rels', `${base}.rels`))
  const parts = new Map<string, Part>()
  for (const attributes of xml === null ? [] : starts(xml, 'Relationship')) {
    const target = attributes.get('Target') ?? ''
    parts.set(attributes.get('Id') ?? '', {
      type: (attributes.get('Type') ?? '').split('/').at(-1)!,
      path: target.startsWith('/') ? target.slice(1) : posix.join(dir, target),
    })
  }
  return parts
}

function ofType(parts: ReadonlyMap<string, Part>, type: string): Part | undefined {
  return [...parts.values()].find((part) => part.type === type)
}

/** The attributes of every element of this name. */
function starts(xml: string, name: string): ReadonlyMap<string, string>[] {
  const found: ReadonlyMap<string, string>[] = []
  for (const part of xmlParts(xml)) if (part.is === 'start' && part.name === name) found.push(part.attributes)
  return found
}

/** A text may be in pieces with different formats; its pronunciation (`rPh`) is not one of them. */
function sharedStrings(xml: string): (string | null)[] {
  const strings: (string | null)[] = []
  let text = ''
  let inText = false
  let inSound = false
  for (const part of xmlParts(xml)) {
    if (part.is === 'text') {
      if (inText && !inSound) text += part.text
    } else if (part.name === 't') inText = part.is === 'start'
    else if (part.name === 'rPh') inSound = part.is === 'start'
    else if (part.name === 'si') {
      if (part.is === 'end') strings.push(cellOf(withoutEscapes(text)))
      text = ''
    }
  }
  return strings
}

/**
 * Characters that XML cannot hold, or that look like such escapes: _x000A_ (section 22.9.2.19). Texts too long for a
 * cell are not changed.
 */
export function withoutEscapes(text: string): string {
  if (text.length > LONGEST_CELL * '_x000A_'.length) return text
  return text.replace(/_x([0-9a-f]{4})_/gi, (_, code) => String.fromCharCode(Number.parseInt(code, 16)))
}

/** The format of each style; each is read once, however many styles have it. */
function formatsOfStyles(xml: string): (style: number) => FormatShows {
  const codes = new Map<number, string>()
  const styles: number[] = []
  let inCellStyles = false
  for (const part of xmlParts(xml)) {
    if (part.is === 'text') continue
    if (part.name === 'cellXfs') inCellStyles = part.is === 'start'
    if (part.is === 'end') continue
    const format = Number(part.attributes.get('numFmtId') ?? 0)
    if (part.name === 'numFmt') codes.set(format, part.attributes.get('formatCode') ?? '')
    else if (part.name === 'xf' && inCellStyles) styles.push(format)
  }
  const read = new Map<number, FormatShows>()
  return (style) => {
    const format = styles[style] ?? 0
    const shows = read.get(format) ?? formatShows(codes.get(format) ?? builtInFormat(format))
    read.set(format, shows)
    return shows
  }
}
