/** How one value of a plan stands in a text field, and how what is typed there becomes a value of the plan again. */
export interface Cell {
  /** The text for a value; undefined is a value the plan leaves out. */
  show(value: unknown): string
  /** The value for a text; undefined leaves it out. What cannot be read goes on as it was typed, to be complained of. */
  read(text: string): unknown
}

const DECIMAL = /^[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[-+]?\d+)?$/i

/** A field of one line holds no line breaks: a browser would drop them without a word. */
function oneLine(value: unknown): string {
  return value === undefined || value === null ? '' : String(value).replace(/\s+/g, ' ')
}

function numberOr(text: string): number | string {
  return DECIMAL.test(text) && Number.isFinite(Number(text)) ? Number(text) : text
}

export const words: Cell = { show: oneLine, read: (text) => text.trim() || undefined }

/** A length with its unit as written; a bare number is millimetres, in the form as in a plan. */
export const length: Cell = {
  show: oneLine,
  read: (text) => (text.trim() === '' ? undefined : numberOr(text.trim())),
}

/** A plain number; a sign of degrees or percent behind it does no harm. */
export const number: Cell = {
  show: oneLine,
  read: (text) => (text.trim() === '' ? undefined : numberOr(text.trim().replace(/ ?[°%]$/, ''))),
}

/** A price is kept as the text it was written in. */
export const price: Cell = words

/** Lengths one behind the other, divided by semicolons or commas. */
export const lengths: Cell = {
  show: (value) => (Array.isArray(value) ? value.map(oneLine).join(', ') : ''),
  read: (text) => {
    const parts = text.split(/[;,]/).filter((part) => part.trim() !== '')
    return parts.length === 0 ? undefined : parts.map((part) => numberOr(part.trim()))
  },
}

/** One of a list; `usual` is shown where the plan says nothing. */
export function choice(usual = ''): Cell {
  return {
    show: (value) => (typeof value === 'string' ? value : usual),
    read: (text) => text || undefined,
  }
}

/** A box to tick; `usual` is what a plan means that does not say. */
export function tick(usual: boolean): Cell {
  return {
    show: (value) => ((typeof value === 'boolean' ? value : usual) ? 'on' : ''),
    read: (text) => ((text !== '') === usual ? undefined : text !== ''),
  }
}

/** An end that joins track that is there: ticked also where the plan says what lies there, which is carried along. */
export const endTick: Cell = {
  show: (value) => (value === true || (typeof value === 'object' && value !== null) ? 'on' : ''),
  read: tick(false).read,
}
