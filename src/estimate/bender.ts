import type { Bender } from '../bending/forming/types.ts'
import type { RollerBender } from '../bending/roller/roller-bender.ts'
import { MM_PER_INCH } from '../measure/length.ts'
import type { BenderInput, WholeBender } from '../plan/rows/bender.ts'

/** The bender with its roller bender, if its figures are given. */
export function benderOf({ work, ends, fixedEnd, limits, ...rollers }: WholeBender): Bender {
  return { work, roller: rollerOf(rollers), ends, fixedEnd, limits }
}

type Rollers = 'span' | 'outerRollerRadius' | 'bearsOn' | 'mode' | 'maxPerPass' | 'screwPitch' | 'turnsPerInch'

/** The roller bender; null where one of its four figures is not given. */
export function rollerOf(bender: { readonly [K in Rollers]?: BenderInput[K] | null | undefined }): RollerBender | null {
  const { span, outerRollerRadius, bearsOn, mode, maxPerPass, screwPitch, turnsPerInch } = bender
  if (span == null || outerRollerRadius == null || bearsOn == null || mode == null) return null
  return {
    spanMm: span,
    outerRollerRadiusMm: outerRollerRadius,
    bearsOn,
    mode,
    maxPerPassMm: maxPerPass ?? null,
    screwPitchMm: screwPitch ?? (turnsPerInch == null ? null : MM_PER_INCH / turnsPerInch),
  }
}
