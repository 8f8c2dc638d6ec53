import { STYLESHEET } from '../page/stylesheet.ts'
import type { Markup } from './markup.ts'

/** What the style sheet of the page says of an element of a drawing, in its light colours. */
export type Declarations = Readonly<Record<string, string>>

interface Rule {
  readonly selector: readonly Compound[]
  readonly weight: number
  readonly says: Declarations
}

/** `svg.plan`: a name and classes that one element has. */
interface Compound {
  readonly name: string | null
  readonly classes: readonly string[]
}

/**
 * The declarations that apply to an element, those of the more specific selectors last.
 *
 * @param ancestors from the outermost
 */
export function styleOf(element: Markup, ancestors: readonly Markup[]): Declarations {
  const own = RULES.filter(({ selector }) => applies(selector, element, ancestors))
  return Object.assign({}, ...own.map(({ says }) => says))
}

function applies(selector: readonly Compound[], element: Markup, ancestors: readonly Markup[]): boolean {
  if (!matches(selector.at(-1)!, element)) return false
  let above = ancestors.length - 1
  for (let part = selector.length - 2; part >= 0; part--) {
    while (above >= 0 && !matches(selector[part]!, ancestors[above]!)) above--
    if (above < 0) return false
    above--
  }
  return true
}

function matches({ name, classes }: Compound, element: Markup): boolean {
  return (name === null || name === element.name) && classes.every((each) => element.classes.includes(each))
}

/** Rules outside of `@media`, whose selectors are names and classes alone. */
function rulesIn(sheet: string): Rule[] {
  const plain = withoutBlocks(sheet.replace(/\/\*[\s\S]*?\*\//g, ''))
  const [first] = /:root\s*\{([^}]*)\}/.exec(plain) ?? []
  const colours = declarationsIn(first?.slice(first.indexOf('{') + 1) ?? '', {})
  const rules = [...plain.matchAll(/([^{}]+)\{([^{}]*)\}/g)].flatMap(([, selectors, body]) =>
    selectors!.split(',').flatMap((text): Rule[] => {
      const selector = compoundsOf(text.trim())
      return selector ? [{ selector, weight: weightOf(selector), says: declarationsIn(body!, colours) }] : []
    }),
  )
  return rules.sort((a, b) => a.weight - b.weight)
}

/** Without `@media { … { … } }` and the like. */
function withoutBlocks(sheet: string): string {
  return sheet.replace(/@[^{};]+\{(?:[^{}]*\{[^{}]*\})*[^{}]*\}/g, '')
}

function compoundsOf(text: string): Compound[] | null {
  const parts = text.split(/\s+/).map((part) => /^([a-z]+)?((?:\.[\w-]+)*)$/.exec(part))
  if (parts.some((part) => part === null)) return null
  return parts.map((part) => ({ name: part![1] ?? null, classes: part![2]!.split('.').slice(1) }))
}

function weightOf(selector: readonly Compound[]): number {
  return selector.reduce((sum, { name, classes }) => sum + 100 * classes.length + (name === null ? 0 : 1), 0)
}

function declarationsIn(body: string, colours: Declarations): Declarations {
  const lines = body.split(';').map((line) => line.split(':'))
  return Object.fromEntries(
    lines
      .filter(({ length }) => length === 2)
      .map(([key, value]) => [
        key!.trim(),
        value!.trim().replace(/var\((--[\w-]+)\)/g, (_, name) => colours[name] ?? ''),
      ]),
  )
}

const RULES = rulesIn(STYLESHEET)
