/** What a bare number in a field is a number of, where the switch of units decides it. */
export type Bare = 'length' | 'temperature'

/** Converts one value of a plan to the text of a form field and back. */
export interface Cell {
  /** The text for a value; undefined is a value that is not in the plan. */
  show(value: unknown): string
  /** The value for a text; undefined leaves it out. Unreadable text is passed on as typed and refused later. */
  read(text: string): unknown
  /** Left out where a number has no unit. */
  readonly bare?: Bare
}

const DECIMAL = /^[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[-+]?\d+)?$/i

/** A one-line field cannot hold line breaks: a browser would drop them silently. */
function oneLine(value: unknown): string {
  return value === undefined || value === null ? '' : String(value).replace(/\s+/g, ' ')
}

function numberOr(text: string): number | string {
  return DECIMAL.test(text) && Number.isFinite(Number(text)) ? Number(text) : text
}

export const words: Cell = { show: oneLine, read: (text) => text.trim() || undefined }

/** A length with its unit as written; a bare number is millimetres, as in a plan. */
export const length: Cell = {
  show: oneLine,
  read: (text) => (text.trim() === '' ? undefined : numberOr(text.trim())),
  bare: 'length',
}

/** A temperature, or a difference of two, is typed like a length: a bare number, or with its unit. */
export const temperature: Cell = { ...length, bare: 'temperature' }

/** A plain number; a degree or percent sign after it is ignored. */
export const number: Cell = {
  show: oneLine,
  read: (text) => (text.trim() === '' ? undefined : numberOr(text.trim().replace(/ ?[°%]$/, ''))),
}

/** A price stays the text that was typed. */
export const price: Cell = words

/** Several lengths, separated by semicolons or commas. */
export const lengths: Cell = {
  show: (value) => (Array.isArray(value) ? value.map(oneLine).join(', ') : ''),
  read: (text) => {
    const parts = text.split(/[;,]/).filter((part) => part.trim() !== '')
    return parts.length === 0 ? undefined : parts.map((part) => numberOr(part.trim()))
  },
  bare: 'length',
}

/** One of a list; `usual` is shown if the plan has no value. */
export function choice(usual = ''): Cell {
  return {
    show: (value) => (typeof value === 'string' ? value : usual),
    read: (text) => text || undefined,
  }
}

/** A checkbox; `usual` is the meaning of a plan without the value. */
export function tick(usual: boolean): Cell {
  return {
    show: (value) => ((typeof value === 'boolean' ? value : usual) ? 'on' : ''),
    read: (text) => ((text !== '') === usual ? undefined : text !== ''),
  }
}

/** An end that joins existing track. Also ticked if the plan describes that track; the description is preserved. */
export const joinsExistingTick: Cell = {
  show: (value) => (value === true || (typeof value === 'object' && value !== null) ? 'on' : ''),
  read: tick(false).read,
}
