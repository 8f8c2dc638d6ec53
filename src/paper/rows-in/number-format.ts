import type { ShownNumber } from './sheet.ts'

/*
 * Number formats of spreadsheets (ECMA-376, part 1, section 18.8.31): what a cell shows may differ from the number in
 * the file. 600 can be shown as 600 cm, 0.125 as 12.50%.
 */

/** The part of a format for some numbers, such as those below zero. */
interface Section {
  readonly holds: (value: number) => boolean
  readonly isDate: boolean
  /** Texts before and after the digits. */
  readonly before: string
  readonly after: string
  readonly hasDigits: boolean
  /** Whether texts stand between the digits, as in 0'00. */
  readonly isSplit: boolean
  /** What the number is multiplied by to be shown: 100 for percent, 0.001 for thousands. */
  readonly scale: number
  /** The least and the most decimals; null: as many as the number has. */
  readonly decimals: readonly [least: number, most: number] | null
}

/** Built-in formats that do not show the number as it is; the rest do, or are dates (section 18.8.30). */
const BUILT_IN: ReadonlyMap<number, string> = new Map([
  ...[5, 6, 7, 8, 42, 44].map((id) => [id, '"$"0.00'] as const),
  [9, '0%'],
  [10, '0.00%'],
  ...[14, 15, 16, 17, 18, 19, 20, 21, 22, 45, 46, 47].map((id) => [id, 'd'] as const),
  ...Array.from({ length: 10 }, (_, n) => [27 + n, 'd'] as const),
  ...Array.from({ length: 9 }, (_, n) => [50 + n, 'd'] as const),
])

/** The code of a built-in format, as far as it matters here. */
export function builtInFormat(id: number): string {
  return BUILT_IN.get(id) ?? 'General'
}

/** What a number in this format shows. */
export type FormatShows = (value: number) => number | ShownNumber | { readonly hides: 'date' }

/** Longer formats are not read: no spreadsheet lets one be typed. */
const LONGEST_FORMAT = 1_000

export function formatShows(code: string): FormatShows {
  const sections = code.length > LONGEST_FORMAT ? [] : sectionsOf(code)
  return (value) => {
    const section = sections.find(({ holds }) => holds(value)) ?? sections.at(-1)
    if (section === undefined) return { number: value, unit: null, shows: `the format ${code.slice(0, 40)}…` }
    if (section.isDate) return { hides: 'date' }
    // A part for numbers below zero has its own sign, if any.
    return shownIn(section, value, sections.length === 1 && value < 0 ? '-' : '')
  }
}

/** Signs and brackets of accounts, which do not change what a number means. */
const SIGNS = /^[+\-−()\s]*$/

function shownIn({ before, after, hasDigits, isSplit, scale, decimals }: Section, value: number, sign: string) {
  const number = scale === 1 ? value : Number((value * scale).toPrecision(15))
  const size = Math.abs(number)
  const digits = hasDigits ? (decimals === null ? String(size) : withDecimals(size, ...decimals)) : ''
  const shows = `${before}${digits}${after}`.trim()
  const isPlain = hasDigits && !isSplit && SIGNS.test(before)
  const unit = after.replace(/[)\s]+$/, '').trim()
  if (isPlain && unit === '' && scale === 1) return value
  return { number, unit: isPlain && unit !== '' ? unit : null, shows: `${sign}${shows}` }
}

function withDecimals(size: number, least: number, most: number): string {
  const [whole, decimals = ''] = size.toFixed(Math.min(most, 20)).split('.') as [string, string?]
  const kept = decimals.slice(0, least) + decimals.slice(least).replace(/0+$/, '')
  return kept === '' ? whole : `${whole}.${kept}`
}

/** By the number of sections, which numbers each is for where it has no condition of its own. */
const FOR: readonly (readonly ((value: number) => boolean)[])[] = [
  [() => true],
  [(value) => value >= 0, (value) => value < 0],
  [(value) => value > 0, (value) => value < 0, (value) => value === 0],
]

function sectionsOf(code: string): Section[] {
  const parts = divided(code).slice(0, 3)
  const holds = FOR[parts.length - 1]!
  return parts.map((tokens, index) => sectionOf(tokens, holds[index]!))
}

type Token =
  | { readonly is: 'text'; readonly text: string }
  | { readonly is: 'bracket'; readonly text: string }
  /** A sign that stands for itself or for digits. */
  | { readonly is: 'sign'; readonly text: string }

const QUOTED = /"([^"]*)(?:"|$)/y
const BRACKET = /\[([^\]]*)(?:\]|$)/y

/** The tokens of each section. */
function divided(code: string): Token[][] {
  const sections: Token[][] = [[]]
  let at = 0
  const take = (pattern: RegExp): string | null => {
    pattern.lastIndex = at
    const match = pattern.exec(code)
    if (match) at = pattern.lastIndex
    return match?.[1] ?? null
  }
  while (at < code.length) {
    const tokens = sections.at(-1)!
    const sign = code[at]!
    const quoted = take(QUOTED)
    if (quoted !== null) {
      tokens.push({ is: 'text', text: quoted })
      continue
    }
    const bracket = take(BRACKET)
    if (bracket !== null) {
      tokens.push({ is: 'bracket', text: bracket })
      continue
    }
    at += 1
    if (sign === ';') sections.push([])
    else if (sign === '\\') tokens.push({ is: 'text', text: code[at++] ?? '' })
    // A gap as wide as the next character, or that character as often as there is room.
    else if (sign === '_' || sign === '*') at += 1
    else if (/^general/i.test(code.slice(at - 1, at + 6))) {
      tokens.push({ is: 'sign', text: 'General' })
      at += 6
    } else tokens.push({ is: 'sign', text: sign })
  }
  return sections
}

const CONDITION = /^(<=|>=|<>|<|>|=)(-?\d+(?:\.\d+)?)$/
const COMPARED: Readonly<Record<string, (value: number, limit: number) => boolean>> = {
  '<': (value, limit) => value < limit,
  '>': (value, limit) => value > limit,
  '=': (value, limit) => value === limit,
  '<=': (value, limit) => value <= limit,
  '>=': (value, limit) => value >= limit,
  '<>': (value, limit) => value !== limit,
}

function sectionOf(tokens: readonly Token[], usual: Section['holds']): Section {
  let holds = usual
  let isDate = false
  let before = ''
  let after = ''
  let hasDigits = false
  let isSplit = false
  let scale = 1
  let least = 0
  let most: number | null = 0
  let afterPoint = false
  let isFraction = false
  let isExponent = false
  const text = (added: string) => {
    if (hasDigits) after += added
    else before += added
  }
  const digit = (isAlways: boolean) => {
    // Blanks between digits separate thousands, or a whole number from its fraction.
    if (hasDigits && after.trim() !== '') isSplit = true
    if (hasDigits) after = ''
    hasDigits = true
    if (afterPoint && most !== null) most += 1
    if (afterPoint && isAlways) least += 1
  }
  for (const [index, token] of tokens.entries()) {
    if (token.is === 'text') text(token.text)
    else if (token.is === 'bracket') {
      const [, sign, limit] = CONDITION.exec(token.text) ?? []
      if (sign !== undefined) holds = (value) => COMPARED[sign]!(value, Number(limit))
      else if (/^(?:h+|m+|s+)$/i.test(token.text)) isDate = true
      else if (token.text.startsWith('$')) text(token.text.slice(1).split('-', 1)[0]!)
    } else if (token.text === 'General' || token.text === '@') {
      digit(false)
      most = null
    } else if (/[0#?]/.test(token.text) || (isFraction && /\d/.test(token.text))) digit(token.text !== '#')
    else if (token.text === '.') afterPoint = true
    else if (token.text === ',') {
      const next = tokens.slice(index + 1).find(({ is, text }) => is === 'sign' && text !== ',')
      if (hasDigits && !(next && /[0#?]/.test(next.text))) scale /= 1000
    } else if (token.text === '%') {
      scale *= 100
      text('%')
    } else if (token.text === '/' && hasDigits) isFraction = true
    else if (/e/i.test(token.text) && hasDigits) isExponent = true
    else if (isExponent && /[+-]/.test(token.text)) continue
    else if (/[dhmsy]/i.test(token.text)) isDate = true
    else text(token.text)
  }
  const decimals = most === null || isFraction || isExponent ? null : ([least, most] as const)
  return { holds, isDate, before, after, hasDigits, isSplit, scale, decimals }
}
