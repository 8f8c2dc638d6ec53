import type { Extra, Ties } from '../laying/supplies.ts'
import { type Assume, assumed, completePack, DEFAULTS, mm } from './complete-plan.ts'
import type { ExtraInput, TiesInput } from './plan.ts'

/** Ties with their spacing, singly or in strips. Moulded strips hold the rail with what is moulded on them. */
export function completeTies(ties: TiesInput, assume: Assume): Ties {
  const at = '/supplies/ties'
  const { strip, perLength } = ties
  const pack = strip ? completePack(strip, `${at}/strip`, assume) : completePack(ties, at, assume)
  const given = ties.spacingMm ?? (perLength && perLength.lengthMm / perLength.count)
  const [usual, reason] = strip
    ? [0, 'moulded strips hold the rail themselves']
    : [DEFAULTS.fastenersPerTie, 'two a rail a tie, common practice']
  return {
    ...pack,
    spacingMm: given ?? assumed(assume, `${at}/spacing`, DEFAULTS.tieSpacingMm, mm, 'not given; centre to centre'),
    fastenersPerTie: ties.fastenersPerTie ?? assumed(assume, `${at}/fastenersPerTie`, usual, String, reason),
    tiesPerStrip: strip?.ties ?? null,
    jointTies: ties.jointTies ?? false,
  }
}

export function completeExtra(extra: ExtraInput, index: number, assume: Assume): Extra {
  const { item, per, quantity } = extra
  return { item, per, quantity, ...completePack(extra, `/extras/${index}`, assume) }
}
