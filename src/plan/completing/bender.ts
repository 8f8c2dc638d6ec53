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

const ALL_LIMITS = 'limits for bending by hand and springing in, common practice, no source'

/** Open limits are one assumption if none is given, otherwise one each. */
function completeLimits(given: NonNullable<BenderInput['limits']>, at: string, assume: Assume): MethodLimits {
  const { overbendRatio, grip, handForceN, jointFlat, setShare, tieForceN, jointForceN } = METHOD_LIMITS.fields
  const rows = [overbendRatio, grip, handForceN, jointFlat, setShare, tieForceN, jointForceN]
  if (Object.values(given).some((value) => value !== undefined)) return completed(METHOD_LIMITS, given, at, assume)
  assume(at, rows.map(({ usual }) => usual!.shown).join(', '), ALL_LIMITS)
  return completed(METHOD_LIMITS, given, at, SILENT)
}
