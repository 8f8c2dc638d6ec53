import type { ListField, OpenItem, ValueField } from './fields/field.ts'
import { POWER_SUPPLY } from './rows/ballast-power-extras.ts'
import { PLAN } from './rows/plan.ts'
import { STICK, SUPPLIES, TIES } from './rows/supplies.ts'

/** What stands where a field is left open. Throws for a field without a usual value. */
function usualOf<T>(field: ValueField<T>): T
function usualOf<I>(field: ListField & { readonly item: I }): readonly OpenItem<I>[]
function usualOf(field: ValueField | ListField): unknown {
  if (!field.usual) throw new TypeError('this field has no usual value')
  return field.usual.value
}

/** The usual values of some rows, for questions that have no whole plan around them. To change one, change its row. */
export const USUAL = {
  gauge: usualOf(PLAN.fields.gauge),
  chords: usualOf(PLAN.fields.chords),
  resolution: usualOf(PLAN.fields.resolution),
  effort: usualOf(PLAN.fields.effort),
  stick: usualOf(SUPPLIES.fields.sticks)[0]!,
  onHand: usualOf(STICK.fields.onHand),
  kerf: usualOf(SUPPLIES.fields.kerf),
  minimumPiece: usualOf(SUPPLIES.fields.minimumPiece),
  tieSpacing: usualOf(TIES.fields.spacing),
  supplyVoltageV: usualOf(POWER_SUPPLY.fields.supplyVoltageV),
} as const
