import { LENGTH_OR_ZERO, readLength } from '../plan/fields/bounds.ts'
import { listAt, valueAt } from '../plan/reading/value-at.ts'
import type { Stock } from './stock.ts'

/** Lengths as people wrote them, by millimetres: `{ "1828.8": "6 ft" }`. */
export type LengthTexts = Readonly<Record<string, string>>

const LISTS = ['sticks', 'panels'] as const
const LENGTHS = ['length', 'lengthMm', 'radius', 'radiusMm', 'diameter'] as const

/** The lengths that were written as text, with their units. */
export function lengthTextsIn(raw: unknown): LengthTexts {
  const texts: Record<string, string> = {}
  for (const row of LISTS.flatMap((list) => listAt(raw, [list])))
    for (const name of LENGTHS) {
      const written = valueAt(row, [name])
      const read = typeof written === 'string' ? readLength(written, LENGTH_OR_ZERO) : null
      if (read?.ok) texts[keyOf(read.value)] = (written as string).trim()
    }
  return texts
}

/** How a length was written; null if it was not written as text. */
export function lengthText(texts: LengthTexts, mm: number): string | null {
  return Object.hasOwn(texts, keyOf(mm)) ? texts[keyOf(mm)]! : null
}

/**
 * The texts of the lengths that are in the stock, so that no others pile up: as written now, otherwise as known. Of a
 * curve it is either its radius or its diameter.
 */
export function textsOfStock(written: LengthTexts, known: LengthTexts, { sticks, panels }: Stock): LengthTexts {
  const texts: Record<string, string> = {}
  const keep = (...lengthsMm: readonly number[]) => {
    for (const from of [written, known])
      for (const mm of lengthsMm) {
        const text = lengthText(from, mm)
        if (text === null) continue
        texts[keyOf(mm)] = text
        return
      }
  }
  for (const { lengthMm } of sticks) keep(lengthMm)
  for (const { lengthMm, radiusMm } of panels) keep(...(radiusMm === null ? [lengthMm] : [2 * radiusMm, radiusMm]))
  return texts
}

/** Lengths are the same to a millionth of a millimetre, as in the stock. */
function keyOf(mm: number): string {
  return String(Math.round(mm * 1e6) / 1e6)
}
