import { parseDocument } from 'htmlparser2'
import type { Html } from '../page/html.ts'

/** A part of the markup of a page: an element with its classes and attributes, or text. */
export interface Markup {
  readonly name: string
  readonly classes: readonly string[]
  readonly attributes: Readonly<Record<string, string>>
  readonly children: readonly (Markup | string)[]
}

const AS_WRITTEN = { lowerCaseTags: false, lowerCaseAttributeNames: false, recognizeSelfClosing: true }

/** What the templates of the page have written, as plain values, below one element without a name. */
export function readMarkup(written: Html): Markup {
  return element('', {}, parseDocument(written.toString(), AS_WRITTEN).children)
}

type Nodes = ReturnType<typeof parseDocument>['children']

function element(name: string, attributes: Readonly<Record<string, string>>, nodes: Nodes): Markup {
  return {
    name,
    attributes,
    classes: (attributes.class ?? '').split(/\s+/).filter((each) => each !== ''),
    children: nodes.flatMap((node): (Markup | string)[] => {
      if (node.type === 'text') return [node.data]
      return 'attribs' in node ? [element(node.name, node.attribs, node.children)] : []
    }),
  }
}

/** All text below an element, with single spaces. */
export function textIn({ children }: Markup): string {
  const texts = children.map((child) => (typeof child === 'string' ? child : textIn(child)))
  return texts.join('').replace(/\s+/g, ' ').trim()
}

/** The elements of this name below one, in order. */
export function elementsIn(markup: Markup, name: string): Markup[] {
  return markup.children.flatMap((child) => {
    if (typeof child === 'string') return []
    return child.name === name ? [child] : elementsIn(child, name)
  })
}
