import { withPoint } from './decimals.ts'

/*
 * Formulas that write a track as one word, as `src/estimate/questions/compact-track/` reads it. They use only the
 * oldest functions of spreadsheets, so that they work everywhere.
 */

const UNITS = ['ft', 'in', 'mm', 'cm', 'm']

/**
 * A length as people write it (7 ft 6 1/2 in, 7' 6-1/2") or a number alone, without characters an address would have to
 * encode: 7ft6-1o2in.
 */
function lengthWord(cell: string): string {
  const inWords = replaced(replaced(`TRIM(${cell})`, "'", 'ft'), '""', 'in')
  const withoutSpaces = UNITS.reduce((text, unit) => replaced(text, ` ${unit}`, unit), inWords)
  const joined = replaced(replaced(withoutSpaces, 'ft ', 'ft'), ' ', '-')
  return numberWord(replaced(joined, '/', 'o'))
}

function numberWord(text: string): string {
  return replaced(withPoint(text), '.', 'p')
}

function replaced(text: string, what: string, by: string): string {
  return `SUBSTITUTE(${text},"${what}","${by}")`
}

/** One element of a track, from the cells of its row; empty where no kind is chosen. */
export function elementWord(row: { kind: string; length: string; diameter: string; angle: string; turn: string }) {
  const { kind, length, diameter, angle, turn } = row
  const extent = `IF(${angle}="","l"&${lengthWord(length)},"a"&${numberWord(angle)})`
  const arc = `IF(${turn}="right","R","L")&"d"&${lengthWord(diameter)}&"-"&${extent}`
  return `IF(${kind}="","",IF(${kind}="arc",${arc},IF(${kind}="easement","E","S")&${lengthWord(length)}))`
}

/** A track from the cells of its elements' words; empty ones are skipped. */
export function trackWord(words: readonly string[]): string {
  return `MID(${words.map((word) => `IF(${word}="","","_"&${word})`).join('&')},2,2000)`
}
