/** Markup that is safe to send as it stands. Made by `html` alone, so that text from outside is always escaped. */
export class Html {
  readonly text: string

  constructor(text: string) {
    this.text = text
  }

  toString(): string {
    return this.text
  }
}

/** What may stand in a template: markup as it is, text escaped, numbers, lists of all these; nothing for the rest. */
export type Content = Html | string | number | null | undefined | false | readonly Content[]

/** A template whose every value is escaped unless it is markup itself. Attribute values must stand in double quotes. */
export function html(strings: TemplateStringsArray, ...values: readonly Content[]): Html {
  let text = strings[0]!
  for (const [index, value] of values.entries()) text += rendered(value) + strings[index + 1]!
  return new Html(text)
}

/** Attributes by name: true stands alone, null, undefined and false are left out, all else is escaped and quoted. */
export function attributes(values: Readonly<Record<string, string | number | boolean | null | undefined>>): Html {
  let text = ''
  for (const [name, value] of Object.entries(values)) {
    if (value === null || value === undefined || value === false) continue
    text += value === true ? ` ${name}` : ` ${name}="${escapeText(String(value))}"`
  }
  return new Html(text)
}

/** Text as it may stand between tags and between double quotes, in HTML and in SVG. */
export function escapeText(text: string): string {
  return /[&<>"']/.test(text) ? text.replace(/[&<>"']/g, (sign) => ENTITIES[sign]!) : text
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

function rendered(value: Content): string {
  if (value === null || value === undefined || value === false) return ''
  if (value instanceof Html) return value.text
  if (typeof value === 'object') return value.map(rendered).join('')
  return typeof value === 'number' ? String(value) : escapeText(value)
}
