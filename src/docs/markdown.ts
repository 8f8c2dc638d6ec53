import { raw } from 'hono/html'
import { Marked } from 'marked'
import type { Html } from '../page/html.ts'

/*
 * The guides are Markdown that can also be read in the repository: their links lead from file to file. Here they become
 * addresses of the service.
 */

const OWN_LINKS: readonly (readonly [RegExp, string])[] = [
  [/^([\w-]+)\.md/, '/docs/$1'],
  [/^(?:\.\.\/)+openapi\/examples\//, '/docs/examples/'],
  [/^openapi\.json$/, '/openapi.json'],
]

function addressOf(link: string): string {
  const [pattern, address] = OWN_LINKS.find(([pattern]) => pattern.test(link)) ?? []
  return pattern ? link.replace(pattern, address!) : link
}

/** The anchor of a heading: `Two rails, one curve` is at `#two-rails-one-curve`. */
function anchorOf(heading: string): string {
  return heading
    .toLowerCase()
    .replace(/[^\w\s-]/g, '')
    .trim()
    .replace(/\s+/g, '-')
}

const marked = new Marked({
  gfm: true,
  walkTokens(token) {
    if (token.type === 'link') token.href = addressOf(token.href)
  },
  renderer: {
    heading({ tokens, depth, text }) {
      return `<h${depth} id="${anchorOf(text)}">${this.parser.parseInline(tokens)}</h${depth}>\n`
    },
  },
  hooks: {
    // What is wider than a phone can be moved with the keyboard as well.
    postprocess: (markup) =>
      markup
        .replaceAll('<table>', '<div class="wide"><table>')
        .replaceAll('</table>', '</table></div>')
        .replaceAll('<pre>', '<pre tabindex="0">'),
  },
})

export function rendered(markdown: string): Html {
  return raw(marked.parse(markdown, { async: false })) as Html
}
