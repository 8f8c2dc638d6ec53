import { html as template } from 'hono/html'
import type { HtmlEscapedString } from 'hono/utils/html'

/** Markup that is safe to send as it stands. Made by `html` alone, so that text from outside is always escaped. */
export type Html = HtmlEscapedString

/** What may stand in a template: markup as it is, text escaped, numbers, lists of all these; nothing for the rest. */
export type Content = Html | string | number | null | undefined | false | readonly Content[]

/**
 * hono's template, its values held to `Content`: of those it makes no promise. Attribute values must stand in double quotes.
 */
export const html = template as (strings: TemplateStringsArray, ...values: readonly Content[]) => Html

/** Attributes by name: true stands alone, null, undefined and false are left out, all else is escaped and quoted. */
export function attributes(values: Readonly<Record<string, string | number | boolean | null | undefined>>): Html {
  const written = Object.entries(values).map(([name, value]) => {
    if (value === null || value === undefined || value === false) return null
    return value === true ? html` ${name}` : html` ${name}="${value}"`
  })
  return html`${written}`
}
