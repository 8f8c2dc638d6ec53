/** A tag as it stands in markup; `text` is what follows it, up to the next tag, with its entities read. */
export interface Tag {
  readonly name: string
  readonly kind: 'open' | 'close' | 'alone'
  readonly attributes: ReadonlyMap<string, string>
  readonly text: string
}

const TAG = /<(\/?)([a-zA-Z][\w:-]*)((?:\s+[\w:-]+(?:="[^"<]*")?)*)\s*(\/?)>([^<]*)/g
const ATTRIBUTE = /([\w:-]+)(?:="([^"]*)")?/g
const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" }

/** The tags of a document in order. Throws where there is a `<` that begins no tag: something was not escaped. */
export function tagsOf(markup: string): Tag[] {
  const body = markup.replace(/^\s*<!doctype html>/, '')
  const rest = body.replace(TAG, '').trim()
  if (rest.includes('<')) throw new Error(`no tag: ${rest.slice(rest.indexOf('<'), rest.indexOf('<') + 60)}`)
  return [...body.matchAll(TAG)].map(([, close, name, attributes, alone, text]) => ({
    name: name!,
    kind: close ? 'close' : alone ? 'alone' : 'open',
    attributes: new Map([...attributes!.matchAll(ATTRIBUTE)].map(([, key, value]) => [key!, read(value ?? '')])),
    text: read(text!),
  }))
}

function read(text: string): string {
  return text.replace(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => ENTITIES[name]!)
}

const VOID = new Set(['meta', 'link', 'input', 'br'])

/** What is wrong with the nesting of the tags, if anything. In SVG alone (`xml`) no tag may be left open. */
export function nestingFault(markup: string, xml = false): string | null {
  const open: string[] = []
  for (const { name, kind } of tagsOf(markup)) {
    if (kind === 'alone' || (!xml && VOID.has(name))) continue
    if (kind === 'open') open.push(name)
    else if (open.pop() !== name) return `</${name}> closes something else`
  }
  return open.length > 0 ? `<${open.join('><')}> left open` : null
}

/** All text of a document, without its tags. */
export function textOf(markup: string): string {
  return tagsOf(markup)
    .map(({ text }) => text)
    .join(' ')
    .replace(/\s+/g, ' ')
}

/** What a browser sends when a form is sent as it stands: names and values of everything that counts. */
export function fieldsOf(markup: string): Map<string, string> {
  const fields = new Map<string, string>()
  let select: string | null = null
  for (const { name, kind, attributes, text } of tagsOf(markup)) {
    const own = attributes.get('name')
    const value = attributes.get('value')
    if (name === 'input' && own !== undefined) {
      if (attributes.get('type') !== 'checkbox') fields.set(own, value ?? '')
      else if (attributes.has('checked')) fields.set(own, value ?? 'on')
    } else if (name === 'textarea' && kind === 'open') fields.set(own!, text.replace(/^\n/, ''))
    else if (name === 'select') select = kind === 'open' ? own! : null
    else if (name === 'option' && kind === 'open' && select !== null)
      if (attributes.has('selected') || !fields.has(select)) fields.set(select, value ?? text)
  }
  return fields
}
