/** The page's words for the identifiers of plans and estimates. */

const KINDS: Readonly<Record<string, string>> = {
  tangent: 'Straight',
  arc: 'Curve',
  easement: 'Easement',
  turnout: 'Turnout',
  crossing: 'Crossing',
  connect: 'Connection',
}

export function kindName(kind: string): string {
  return KINDS[kind] ?? kind
}

/** `1 stick`, `2 sticks`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`
}

/** The number of an element, counted from 1; with several tracks the track's number comes first: `2.3`. */
export function elementNumber(element: number, track: number, severalTracks: boolean): string {
  return `${severalTracks ? `${track + 1}.` : ''}${element + 1}`
}

/** A list in a sentence: `1, 4 and 7`. */
export function spoken(items: readonly (string | number)[]): string {
  if (items.length < 2) return items.join('')
  return `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`
}
