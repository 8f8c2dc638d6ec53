import { html as template } from 'hono/html'
import type { HtmlEscapedString } from 'hono/utils/html'

/** Markup that is safe to send. Only `html` makes it, so that text from outside is always escaped. */
export type Html = HtmlEscapedString

/** What a template may contain: markup (unchanged), text (escaped), numbers, and lists of these; null, undefined and false give nothing. */
export type Content = Html | string | number | null | undefined | false | readonly Content[]

/**
 * hono's template with its values restricted to `Content`. Attribute values must be in double quotes.
 */
export const html = template as (strings: TemplateStringsArray, ...values: readonly Content[]) => Html

/** Attributes by name: true gives the name only, null, undefined and false are left out, all else is escaped and quoted. */
export function attributes(values: Readonly<Record<string, string | number | boolean | null | undefined>>): Html {
  const written = Object.entries(values).map(([name, value]) => {
    if (value === null || value === undefined || value === false) return null
    return value === true ? html` ${name}` : html` ${name}="${value}"`
  })
  return html`${written}`
}
