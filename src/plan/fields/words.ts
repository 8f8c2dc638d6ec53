import { meantName } from './nearest.ts'
import { accepted, notA, type Read, refused, shown } from './read.ts'

/**
 * What no text may hold: NUL, which PostgreSQL cannot store, and halves of surrogate pairs, which are no characters.
 */
const UNKEEPABLE = /[\0\p{Surrogate}]/u

/** Any Unicode text of at most `longest` UTF-16 units; kept as it is. */
export function readText(value: unknown, what: string, longest: number): Read<string> {
  if (typeof value !== 'string') return notA(what, value)
  if (value.length > longest)
    return refused('too-long', `${what} of ${value.length} characters; the limit is ${longest}`, 'shorten it')
  if (UNKEEPABLE.test(value))
    return refused(
      'bad-text',
      `${what} holds a character that cannot be kept`,
      'take out NUL characters and broken emoji',
    )
  return accepted(value)
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
    meant === null ? `use one of ${list}` : `did you mean "${meant}"? Known values: ${list}`,
  )
}
