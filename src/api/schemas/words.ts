import { accepted, leaf, notA, type Read, refused, shown } from './leaf.ts'
import { meantName } from '../../plan/fields/nearest.ts'

/** What no text may hold: NUL, which PostgreSQL cannot store, and halves of surrogate pairs, which are no characters. */
const UNKEEPABLE = /[\0\p{Surrogate}]/u

/** Any Unicode text of at most `longest` UTF-16 units; kept as it is. */
export function readText(value: unknown, what: string, longest: number): Read<string> {
  if (typeof value !== 'string') return notA(what, value)
  if (value.length > longest)
    return refused('too-long', `${what} of ${value.length} characters; ${longest} is the most`, 'shorten it')
  if (UNKEEPABLE.test(value))
    return refused(
      'bad-text',
      `${what} holds a character that cannot be kept`,
      'take out NUL characters and broken emoji',
    )
  return accepted(value)
}

export function textLeaf(name: string, longest: number, description: string) {
  return leaf(name, (value) => readText(value, 'a text', longest), { type: 'string', maxLength: longest, description })
}

/** A text with something to read in it. */
export function nameLeaf(name: string, longest: number, description: string) {
  const read = (value: unknown): Read<string> => {
    const text = readText(value, 'a name', longest)
    if (text.ok && text.value.trim() === '') return refused('missing', 'the name is empty', 'give it a name')
    return text
  }
  return leaf(name, read, { type: 'string', minLength: 1, maxLength: longest, pattern: String.raw`\S`, description })
}

export function readFlag(value: unknown): Read<boolean> {
  return typeof value === 'boolean' ? accepted(value) : notA('true or false', value)
}

export function flagLeaf(name: string, description: string) {
  return leaf(name, readFlag, { type: 'boolean', description })
}

/** One of a few words. */
export function readChoice<T extends string>(value: unknown, choices: readonly T[], what: string): Read<T> {
  const list = choices.join(', ')
  const known = (text: string) => (choices as readonly string[]).includes(text)
  if (typeof value !== 'string') {
    const unquoted = typeof value === 'number' && known(String(value))
    return notA(what, value, unquoted ? `write "${value}", in quotes` : `use one of ${list}`)
  }
  if (known(value)) return accepted(value as T)
  const meant = meantName(value, choices)
  return refused(
    'unknown-value',
    `${shown(value)} is not ${what} this service knows`,
    meant === null ? `use one of ${list}` : `did you mean "${meant}"? Known are ${list}`,
  )
}

export function choiceLeaf<T extends string>(name: string, choices: readonly T[], what: string, description: string) {
  return leaf(name, (value) => readChoice(value, choices, what), { type: 'string', enum: [...choices], description })
}
