import { nestingFault, tagsOf } from './markup.ts'

const CONTROLS = ['input', 'select', 'textarea']

/** What is wrong with a page that no user should meet: empty for a sound one. */
export function unsoundness(markup: string): string[] {
  const nesting = nestingFault(markup)
  if (nesting) return [nesting]
  const tags = tagsOf(markup).filter(({ kind }) => kind !== 'close')
  const ids = tags.flatMap(({ attributes }) => attributes.get('id') ?? [])
  const labelled = new Set(tags.flatMap(({ name, attributes }) => (name === 'label' ? [attributes.get('for')] : [])))
  const complaints: string[] = []
  for (const id of new Set(ids)) if (ids.indexOf(id) !== ids.lastIndexOf(id)) complaints.push(`id ${id} stands twice`)
  for (const { name, attributes } of tags) {
    const at = `<${name} name="${attributes.get('name') ?? ''}">`
    const ownScript = /^\/longchord-[0-9a-f]{12}\.js$/.test(attributes.get('src') ?? '')
    if ((name === 'script' && !ownScript) || name === 'style') complaints.push(`a ${name}`)
    for (const key of attributes.keys()) if (key === 'style' || /^on/.test(key)) complaints.push(`${at} has ${key}`)
    const control = CONTROLS.includes(name) && attributes.get('type') !== 'hidden'
    if (control && !attributes.get('aria-label') && !labelled.has(attributes.get('id')))
      complaints.push(`${at} has no label`)
    for (const key of ['aria-describedby', 'aria-labelledby', 'for'])
      for (const id of attributes.get(key)?.split(' ') ?? [])
        if (!ids.includes(id)) complaints.push(`${at} ${key} ${id}`)
    for (const key of ['href', 'src', 'action', 'formaction']) {
      const address = attributes.get(key)
      if (address?.startsWith('#') && address !== '#' && !ids.includes(address.slice(1)))
        complaints.push(`no ${address}`)
      if (address !== undefined && !/^(?:#|\/(?!\/)|data:)/.test(address)) complaints.push(`${at} leads to ${address}`)
    }
  }
  const headings = tags.filter(({ name }) => /^h[1-6]$/.test(name)).map(({ name }) => Number(name[1]))
  if (headings.filter((level) => level === 1).length !== 1) complaints.push('not one h1')
  for (const [index, level] of headings.entries())
    if (index > 0 && level > headings[index - 1]! + 1) complaints.push(`h${level} after h${headings[index - 1]}`)
  if (tags[0]?.name !== 'html' || tags[0].attributes.get('lang') !== 'en') complaints.push('no language')
  return complaints
}
