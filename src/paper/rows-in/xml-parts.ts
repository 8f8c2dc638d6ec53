import { SaxesParser } from 'saxes'

/** The start or end of an XML element, or text between them; names are without their prefix. */
export type XmlPart =
  | { readonly is: 'start'; readonly name: string; readonly attributes: ReadonlyMap<string, string> }
  | { readonly is: 'end'; readonly name: string }
  | { readonly is: 'text'; readonly text: string }

/** How much is read at a time: all the parts of a document at once would fill the memory. */
const CHARACTERS_AT_ONCE = 16_384

/** Limits that a real workbook never reaches; beyond any of these the rest of a document is ignored. */
const MOST_FAULTS = 1_000
const MOST_ATTRIBUTES = 100
const DEEPEST = 100

class NoWorkbook extends Error {}

/**
 * Reads an XML document once. An empty element is a start and an end. What is not well formed is skipped, and an
 * incomplete end is ignored.
 */
export function* xmlParts(xml: string): Generator<XmlPart> {
  const parts: XmlPart[] = []
  const parser = parserInto(parts)
  for (let at = 0; at < xml.length; at += CHARACTERS_AT_ONCE) {
    const isRead = written(parser, xml.slice(at, at + CHARACTERS_AT_ONCE))
    yield* parts.splice(0)
    if (!isRead) return
  }
}

function written(parser: SaxesParser, xml: string): boolean {
  try {
    parser.write(xml)
    return true
  } catch (error) {
    if (error instanceof NoWorkbook) return false
    throw error
  }
}

function parserInto(parts: XmlPart[]): SaxesParser {
  const parser = new SaxesParser()
  let faults = 0
  let attributes = 0
  let depth = 0
  const allow = (count: number, most: number) => {
    if (count > most) throw new NoWorkbook()
  }
  parser.on('error', () => allow(++faults, MOST_FAULTS))
  parser.on('opentagstart', () => {
    attributes = 0
    allow(++depth, DEEPEST)
  })
  parser.on('attribute', () => allow(++attributes, MOST_ATTRIBUTES))
  parser.on('opentag', (tag) => {
    const named = Object.entries(tag.attributes).map(([name, value]) => [localName(name), value] as const)
    parts.push({ is: 'start', name: localName(tag.name), attributes: new Map(named) })
  })
  parser.on('closetag', ({ name }) => {
    depth--
    parts.push({ is: 'end', name: localName(name) })
  })
  const text = (text: string) => parts.push({ is: 'text', text })
  parser.on('text', text)
  parser.on('cdata', text)
  return parser
}

function localName(name: string): string {
  return name.slice(name.indexOf(':') + 1)
}
