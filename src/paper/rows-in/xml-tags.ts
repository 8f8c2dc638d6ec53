/** A beginning or an end of an element of XML, or text between them; names are without their prefix. */
export type XmlPart =
  | { readonly is: 'start' | 'end'; readonly name: string; readonly attributes: ReadonlyMap<string, string> }
  | { readonly is: 'text'; readonly text: string }

const NO_ATTRIBUTES: ReadonlyMap<string, string> = new Map()

/**
 * Goes through an XML document once, in time that grows with its length alone, whatever is in it. An empty element is a start
 * and an end. Comments and declarations are passed over; entities of one's own are not known, and stay as they are. What
 * breaks off is left out: whether a document is well formed is not looked at.
 */
export function* xmlParts(xml: string): Generator<XmlPart> {
  let at = 0
  while (at < xml.length) {
    const open = xml.indexOf('<', at)
    const text = xml.slice(at, open < 0 ? xml.length : open)
    if (text !== '') yield { is: 'text', text: withoutEntities(text) }
    if (open < 0) return
    const special = isSpecial(xml, open) ? SPECIAL.find(({ begin }) => xml.startsWith(begin, open)) : undefined
    const close = special ? xml.indexOf(special.end, open + special.begin.length) : endOfTag(xml, open + 1)
    if (close < 0) return
    if (special?.begin === CDATA) yield { is: 'text', text: xml.slice(open + CDATA.length, close) }
    if (!special) {
      const isEnd = xml[open + 1] === '/'
      const isEmpty = xml[close - 1] === '/'
      const tag = tagIn(xml.slice(open + (isEnd ? 2 : 1), isEmpty ? close - 1 : close))
      if (!isEnd) yield { is: 'start', ...tag }
      if (isEnd || isEmpty) yield { is: 'end', ...tag }
    }
    at = close + (special?.end.length ?? 1)
  }
}

const CDATA = '<![CDATA['
const SPECIAL = [
  { begin: '<!--', end: '-->' },
  { begin: CDATA, end: ']]>' },
  { begin: '<!', end: '>' },
  { begin: '<?', end: '?>' },
]

function isSpecial(xml: string, open: number): boolean {
  return xml[open + 1] === '!' || xml[open + 1] === '?'
}

/** What ends a tag: a > in the quotes of an attribute does not. */
const END_OF_TAG = /[^"'>]*(?:"[^"]*"[^"'>]*|'[^']*'[^"'>]*)*>/y

function endOfTag(xml: string, from: number): number {
  END_OF_TAG.lastIndex = from
  return END_OF_TAG.test(xml) ? END_OF_TAG.lastIndex - 1 : -1
}

function tagIn(inside: string): { readonly name: string; readonly attributes: ReadonlyMap<string, string> } {
  const space = inside.search(/\s/)
  if (space < 0) return { name: localName(inside), attributes: NO_ATTRIBUTES }
  return { name: localName(inside.slice(0, space)), attributes: attributesOf(inside.slice(space)) }
}

function attributesOf(text: string): ReadonlyMap<string, string> {
  const attributes = new Map<string, string>()
  let at = 0
  for (;;) {
    const equals = text.indexOf('=', at)
    if (equals < 0) return attributes
    let from = equals + 1
    while (text[from]?.trim() === '') from++
    const to = text.indexOf(text[from] ?? '"', from + 1)
    if (to < 0) return attributes
    attributes.set(localName(text.slice(at, equals).trim()), withoutEntities(text.slice(from + 1, to)))
    at = to + 1
  }
}

function localName(name: string): string {
  return name.slice(name.indexOf(':') + 1)
}

const ENTITIES: ReadonlyMap<string, string> = new Map([
  ['lt', '<'],
  ['gt', '>'],
  ['amp', '&'],
  ['quot', '"'],
  ['apos', "'"],
])

function withoutEntities(text: string): string {
  if (!text.includes('&')) return text
  return text.replace(/&(?:#x([0-9a-f]{1,5})|#(\d{1,6})|(lt|gt|amp|quot|apos));/gi, (_, hex, decimal, name) =>
    name === undefined
      ? String.fromCodePoint(hex === undefined ? Number(decimal) : Number.parseInt(hex, 16))
      : ENTITIES.get(name.toLowerCase())!,
  )
}
