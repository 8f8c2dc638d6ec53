import type { ExpansionAnswer, JointAnswer } from '../../../estimate/answer.ts'
import { parseTemperature } from '../../../measure/temperature.ts'
import type { Html } from '../../html.ts'
import { type LengthsIn, temperatureText } from '../../show-length.ts'
import { question } from '../question.ts'
import type { SheetContext } from '../sheet.ts'

/** The name of the field for the temperature of the rail. */
export const RAIL_AT = 'railAt'

/** The temperature that was asked for, °C: of laying where nothing was typed, null where it cannot be read. */
export function railTemperatureC(
  { layingC }: ExpansionAnswer,
  typed: string | null,
  lengthsIn: LengthsIn,
): number | null {
  const text = typed?.trim() ?? ''
  if (text === '') return layingC
  const read = parseTemperature(BARE.test(text) ? `${text} ${lengthsIn === 'feet' ? 'F' : 'C'}` : text)
  return read.ok ? read.value : null
}

const BARE = /^[+−-]?\d+(?:\.\d+)?$/

/**
 * The gap that a joint has when the rail is at T: it changes evenly with the temperature,
 *
 * gap(T) = g + (g₀ − g)·(T_laying − T)/(T_laying − T₀), at least 0
 *
 * g the gap at laying, g₀ that at T₀, the coldest; at the hottest where it is laid at the coldest. Derived from `gapsIn`
 * (src/laying/gaps.ts); checked in tests/page/gap-question.test.ts. Null where the gap is not known.
 */
export function gapAtMm(
  { gapMm, gapColdestMm, gapHottestMm }: Pick<JointAnswer, 'gapMm' | 'gapColdestMm' | 'gapHottestMm'>,
  { layingC, coldestC, hottestC }: Pick<ExpansionAnswer, 'layingC' | 'coldestC' | 'hottestC'>,
  railC: number,
): number | null {
  if (gapMm === null || gapColdestMm === null || gapHottestMm === null) return null
  const [otherC, otherMm] = layingC > coldestC ? [coldestC, gapColdestMm] : [hottestC, gapHottestMm]
  if (otherC === layingC) return gapMm
  return Math.max(0, gapMm + ((otherMm - gapMm) * (layingC - railC)) / (layingC - otherC))
}

/** Asks for the temperature of the rail on the day. */
export function gapQuestion({ links, railAt, lengthsIn }: SheetContext, expansion: ExpansionAnswer): Html {
  const railC = railTemperatureC(expansion, railAt, lengthsIn)
  const text = railAt?.trim() ?? ''
  return question(links, 'garden', {
    name: RAIL_AT,
    label: 'Rail temperature today',
    value: text === '' ? temperatureText(expansion.layingC, lengthsIn) : text,
    hint: `such as ${lengthsIn === 'feet' ? '77 F or 25 C' : '25 C or 77 F'}; measure the rail, not the air`,
    button: 'Show the gaps',
    fault: railC === null ? `“${text}” is not a temperature.` : null,
  })
}
