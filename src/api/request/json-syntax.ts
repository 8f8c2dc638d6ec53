/** Where a text stops being JSON, counted from 1 as in editors. */
export interface SyntaxFault {
  readonly line: number
  readonly column: number
  readonly detail: string
  readonly hint: string
}

const LITERAL = /true|false|null/y
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y
const SPACE = /[ \t\n\r]*/y
const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y

const AFTER_VALUE = 'separate entries with a comma, and close every { and ['
const NAME = 'put names in double quotes, and no comma after the last entry'
const VALUE = 'put texts in double quotes, fractions such as 1/2 too, and no comma after the last entry'

/**
 * The first syntax error by the grammar of RFC 8259. `JSON.parse` is faster but does not always say where; this one runs
 * after it has failed.
 */
export function firstSyntaxFault(text: string): SyntaxFault | null {
  const open: ('{' | '[')[] = []
  let at = 0
  let expect: 'value' | 'name' | 'first-name' | 'first-value' | 'colon' | 'next' = 'value'

  const match = (pattern: RegExp): boolean => {
    pattern.lastIndex = at
    const found = pattern.exec(text)
    if (found) at += found[0].length
    return found !== null
  }
  const string = (): SyntaxFault | null => {
    at += 1
    for (; at < text.length; at++) {
      const char = text[at]!
      if (char === '"') {
        at += 1
        return null
      }
      if (char < ' ')
        return broken('a line break or tab inside a text', 'close the text with a double quote, or write \\n, \\t')
      if (char === '\\') {
        if (!match(ESCAPE)) return broken(`${quoted()} without a valid escape after it`, 'write \\\\ for one backslash')
        at -= 1
      }
    }
    return broken('the end inside a text', 'close the text with a double quote')
  }
  const quoted = () => (at < text.length ? JSON.stringify(String.fromCodePoint(text.codePointAt(at)!)) : 'the end')
  const broken = (found: string, hint: string): SyntaxFault => {
    const before = text.slice(0, at).split('\n')
    const [line, column] = [before.length, before.at(-1)!.length + 1]
    return { line, column, detail: `line ${line}, column ${column}: found ${found}`, hint }
  }

  for (;;) {
    match(SPACE)
    const char = text[at]
    if (expect === 'next' && open.length === 0) {
      return char === undefined ? null : broken(`${quoted()} after the end of the value`, 'send a single JSON value')
    }
    if ((expect === 'next' || expect === 'first-name') && char === '}' && open.at(-1) === '{') {
      open.pop()
      at += 1
      expect = 'next'
    } else if ((expect === 'next' || expect === 'first-value') && char === ']' && open.at(-1) === '[') {
      open.pop()
      at += 1
      expect = 'next'
    } else if (expect === 'next') {
      if (char !== ',') return broken(`${quoted()} where a comma or the closing bracket is expected`, AFTER_VALUE)
      at += 1
      expect = open.at(-1) === '{' ? 'name' : 'value'
    } else if (expect === 'name' || expect === 'first-name') {
      if (char !== '"') return broken(`${quoted()} where a name is expected`, NAME)
      const fault = string()
      if (fault) return fault
      expect = 'colon'
    } else if (expect === 'colon') {
      if (char !== ':') return broken(`${quoted()} where a colon is expected`, 'write "name": value')
      at += 1
      expect = 'value'
    } else if (char === '{' || char === '[') {
      open.push(char)
      at += 1
      expect = char === '{' ? 'first-name' : 'first-value'
    } else {
      if (char === '"') {
        const fault = string()
        if (fault) return fault
      } else if (!match(LITERAL) && !match(NUMBER)) return broken(`${quoted()} where a value is expected`, VALUE)
      expect = 'next'
    }
  }
}
