import { type Assume, completed, SILENT } from '../fields/complete.ts'
import {
  BENDER,
  type BenderInput,
  METHOD_LIMITS,
  type MethodLimits,
  ROLLER_FIELDS,
  type WholeBender,
} from '../rows/bender.ts'

/** Completes the bender. Without one: loose rail, by hand. `assume` is called where a default has an effect. */
export function completeBender(input: BenderInput = {}, assume: Assume): WholeBender {
  const hasRollers = ROLLER_FIELDS.every((field) => input[field] !== undefined)
  const { value, because } = BENDER.fields.work.usual!
  return completed(BENDER, input, '/bender', assume, {
    work: { value, because: hasRollers ? because : `${because}, by hand if no bender is given` },
    ...(!hasRollers && { ends: 'silent' }),
    ...(input.work !== 'assembled' && { fixedEnd: 'silent' }),
    limits: (given = {}, at) => completeLimits(given, at, assume),
  })
}

/** Open limits are one assumption if none is given, otherwise one each. */
function completeLimits(given: NonNullable<BenderInput['limits']>, at: string, assume: Assume): MethodLimits {
  const { overbendRatio, grip, handForceN, jointFlat } = METHOD_LIMITS.fields
  const rows = [overbendRatio, grip, handForceN, jointFlat]
  if (Object.values(given).some((value) => value !== undefined)) return completed(METHOD_LIMITS, given, at, assume)
  assume(at, rows.map(({ usual }) => usual!.shown).join(', '), rows[0]!.usual!.because!)
  return completed(METHOD_LIMITS, given, at, SILENT)
}
