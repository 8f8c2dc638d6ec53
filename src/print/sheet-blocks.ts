import type { Html } from '../page/html.ts'
import { type Block, type Cell, plain, type Row, type Run } from '../paper/pdf/blocks.ts'
import { elementsIn, type Markup, readMarkup } from './markup.ts'
import { pictureIn } from './picture-of.ts'

/*
 * A sheet is written once, as markup with few elements: headings, paragraphs, lists, facts, tables, cards, drawings. Paper
 * has what it says, without what only a screen can do: links are text, forms and what is folded away are left out.
 * An element that is not known here stops the work, so that nothing is lost without a word; tests/print/sheet-blocks.test.ts
 * looks for every text of every sheet.
 */

/** What a part of a page says, as blocks. */
export function blocksOf(written: Html): Block[] {
  return blocksIn(readMarkup(written), NORMAL)
}

interface Type {
  readonly bold: boolean
  readonly soft: boolean
}

const NORMAL: Type = { bold: false, soft: false }

/** What belongs to a screen, by name and by class. */
const ON_SCREEN = ['form', 'button', 'nav', 'script', 'input', 'select', 'defs']
const ON_SCREEN_CLASSES = ['no-print', 'unseen', 'defs', 'slide']

const INLINE = ['a', 'b', 'strong', 'span', 'code', 'br', 'em', 'time']
const AROUND = ['', 'div', 'section', 'figure', 'main', 'article']

function isOnScreen({ name, classes }: Markup): boolean {
  return ON_SCREEN.includes(name) || classes.some((each) => ON_SCREEN_CLASSES.includes(each))
}

/** Text that stands between blocks is a paragraph. */
function blocksIn(parent: Markup, type: Type): Block[] {
  const blocks: Block[] = []
  let runs: Run[] = []
  const end = () => {
    if (hasText(runs)) blocks.push({ is: 'paragraph', runs: trimmed(runs) })
    runs = []
  }
  for (const child of parent.children) {
    if (typeof child === 'string' || INLINE.includes(child.name)) runs.push(...runsOf(child, type))
    else if (!isOnScreen(child)) {
      end()
      blocks.push(...blocksOfElement(child, type))
    }
  }
  end()
  return blocks
}

function blocksOfElement(element: Markup, type: Type): Block[] {
  const { name, classes } = element
  const own = classes.includes('hint') ? { ...type, soft: true } : type
  if (classes.includes('key')) return keyOf(element)
  if (classes.includes('two-rails'))
    return [{ is: 'beside', parts: elementsOf(element).map((each) => blocksIn(each, own)) }]
  if (classes.includes('strips')) return inPairs(elementsOf(element).map((each) => blocksOfElement(each, own)))
  if (classes.includes('jobs')) return [cardsOf(element)]
  if (classes.includes('summary')) return inARow(elementsOf(element), own)
  switch (name) {
    case 'h1':
    case 'h2':
      return [{ is: 'heading', level: 2, runs: trimmed(runsIn(element, own)) }]
    case 'h3':
    case 'h4':
    case 'figcaption':
      return [{ is: 'heading', level: 3, runs: trimmed(runsIn(element, own)) }]
    case 'p': {
      const runs = trimmed(runsIn(element, own))
      return hasText(runs) ? [{ is: 'paragraph', runs }] : []
    }
    case 'ul':
    case 'ol':
      return [
        {
          is: 'list',
          numbered: classes.includes('steps'),
          items: elementsOf(element).map((item) => blocksIn(item, own)),
        },
      ]
    case 'dl':
      return inARow(elementsOf(element), own)
    case 'table':
      return [tableOf(element, own)]
    case 'svg':
      return isSign(element) ? [] : [{ is: 'picture', picture: pictureIn(element), unitMm: null }]
    case 'details':
      return 'open' in element.attributes ? blocksIn(element, own) : []
    case 'summary':
      return [{ is: 'heading', level: 3, runs: trimmed(runsIn(element, own)) }]
    default:
      if (AROUND.includes(name)) return blocksIn(element, own)
      throw new Error(`paper knows no <${name}>`)
  }
}

function elementsOf({ children }: Markup): Markup[] {
  return children.filter((child): child is Markup => typeof child !== 'string' && !isOnScreen(child))
}

/** The sign of a finding, whose letter and word stand beside it. */
function isSign({ attributes }: Markup): boolean {
  return attributes.viewBox === '0 0 28 28'
}

/** Two beside each other. */
function inPairs(parts: readonly Block[][]): Block[] {
  return parts.flatMap((part, index): Block[] =>
    index % 2 === 0 ? [{ is: 'beside', parts: [part, parts[index + 1] ?? []] }] : [],
  )
}

function cardsOf(element: Markup): Block {
  const cards = elementsOf(element).map((card) => blocksIn(card, NORMAL))
  return { is: 'cards', cards, quarters: element.classes.includes('pieces-to-bend') }
}

/** Facts one after the other: what each is, then its value. */
function inARow(facts: readonly Markup[], type: Type): Block[] {
  const runs = facts.flatMap((fact, index): Run[] => {
    const [name, value] = [elementsIn(fact, 'dt')[0], elementsIn(fact, 'dd')[0]]
    const before = index === 0 ? [] : [plain('   ·   ')]
    if (!name || !value) return [...before, ...runsIn(fact, type)]
    return [...before, ...runsIn(name, { ...type, soft: true }), plain(' '), ...runsIn(value, { ...type, bold: true })]
  })
  return hasText(runs) ? [{ is: 'paragraph', runs: trimmed(runs) }] : []
}

function keyOf(element: Markup): Block[] {
  const entries = elementsOf(element).flatMap((entry) => {
    const [drawing] = elementsIn(entry, 'svg')
    return drawing ? [{ picture: pictureIn(drawing), runs: trimmed(runsIn(entry, NORMAL)) }] : []
  })
  return entries.length > 0 ? [{ is: 'key', entries }] : []
}

function tableOf(element: Markup, type: Type): Block {
  const rows = (part: string) =>
    elementsIn(element, part).flatMap((group) => elementsOf(group).map((row) => rowOf(row, type)))
  return {
    is: 'table',
    caption: elementsOf(element)
      .filter(({ name }) => name === 'caption')
      .flatMap((caption) => trimmed(runsIn(caption, type))),
    head: rows('thead'),
    body: rows('tbody'),
    foot: rows('tfoot'),
  }
}

function rowOf(row: Markup, type: Type): Row {
  return elementsOf(row).map((cell): Cell => {
    const span = (name: string) => Number(cell.attributes[name] ?? 1)
    return { runs: trimmed(runsIn(cell, type)), columns: span('colspan'), rows: span('rowspan') }
  })
}

function runsIn({ children }: Markup, type: Type): Run[] {
  return children.flatMap((child) => runsOf(child, type))
}

/** Text with the type of what it stands in; of what is folded away, only what it is called. */
function runsOf(part: Markup | string, type: Type): Run[] {
  if (typeof part === 'string') return [{ ...type, text: part.replace(/\s+/g, ' ') }]
  if (isOnScreen(part) || part.name === 'svg') return []
  if (part.name === 'br') return [plain('\n')]
  if (part.name === 'details') return elementsIn(part, 'summary').flatMap((summary) => runsIn(summary, type))
  if (part.classes.includes('box')) return [plain('☐')]
  const isBold = part.name === 'b' || part.name === 'strong'
  const isSoft = part.classes.includes('hint') || part.classes.includes('alt')
  return runsIn(part, { bold: type.bold || isBold, soft: type.soft || isSoft })
}

function hasText(runs: readonly Run[]): boolean {
  return runs.some(({ text }) => text.trim() !== '')
}

/** Without white space at the beginning and the end. */
function trimmed(runs: readonly Run[]): Run[] {
  const first = runs.findIndex(({ text }) => text.trim() !== '')
  const last = runs.findLastIndex(({ text }) => text.trim() !== '')
  return runs.slice(first < 0 ? runs.length : first, last + 1).map((run, index, all) => {
    const start = index === 0 ? run.text.trimStart() : run.text
    return { ...run, text: index === all.length - 1 ? start.trimEnd() : start }
  })
}
