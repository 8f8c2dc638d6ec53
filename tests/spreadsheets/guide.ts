import { tagsOf } from '../page/markup.ts'

export interface GuideFormula {
  /** Where the guide says it belongs, e.g. `B4`. */
  readonly cell: string
  /** `any` where there is nothing to separate. */
  readonly separator: ',' | ';' | 'any'
  readonly text: string
}

/** A little sheet of the guide. */
export interface GuideExample {
  readonly id: string
  /** What is typed in, by cell; a number where a person would type one. */
  readonly typed: readonly (readonly [cell: string, content: string | number])[]
  readonly formulas: readonly GuideFormula[]
  /** What the guide says the cells with formulas show. */
  readonly shows: ReadonlyMap<string, string>
}

export function examplesIn(markup: string): GuideExample[] {
  return [...markup.matchAll(/<figure class="example" id="([\w-]+)">([\s\S]*?)<\/figure>/g)].map(([, id, inside]) => {
    const typed: [string, string | number][] = []
    const shows = new Map<string, string>()
    let row = ''
    for (const { name, attributes, text } of tagsOf(inside!)) {
      if (name === 'th' && attributes.get('scope') === 'row') row = text
      if (attributes.get('class') === 'typed') typed.push([`B${row}`, /^[\d.]+$/.test(text) ? Number(text) : text])
      if (name === 'output' && text !== '') shows.set(`B${row}`, text)
    }
    return { id: id!, typed, formulas: formulasIn(inside!), shows }
  })
}

/** Every address of the service that the guide tells, to read, to follow, or inside a formula or query. */
export function addressesIn(markup: string, base: string): string[] {
  const tags = tagsOf(markup.replaceAll(/<\/?var>/g, ''))
  const text = tags.map((tag) => tag.text).join(' ')
  const told = [...text.matchAll(new RegExp(`${base}[^\\s"]*`, 'g'))].map(([address]) =>
    address.replace(/[.,:;)]+$/, ''),
  )
  const followed = tags
    .flatMap(({ attributes }) => attributes.get('href') ?? [])
    .filter((href) => !/^(#|data:)/.test(href))
  return [...new Set([...told, ...followed.map((href) => new URL(href, `${base}/docs/spreadsheets`).href)])]
}

/** The addresses beside which the guide prints the answer. */
export function answersIn(markup: string): { address: string; shows: string }[] {
  const tags = tagsOf(markup)
  return tags.flatMap(({ name, kind, attributes, text }, at) => {
    if (name !== 'output' || kind !== 'open' || attributes.get('class') !== 'answer') return []
    const link = tags.slice(0, at).findLast((tag) => tag.attributes.has('href'))!
    return [{ address: link.attributes.get('href')!, shows: text }]
  })
}

/** Every formula of the guide, in the little sheets and beside them. */
export function formulasIn(markup: string): GuideFormula[] {
  return tagsOf(markup)
    .filter(({ attributes }) => attributes.get('class') === 'formula')
    .map(({ attributes, text }) => ({
      cell: attributes.get('data-cell')!,
      separator: attributes.get('data-separator') as GuideFormula['separator'],
      text,
    }))
}
