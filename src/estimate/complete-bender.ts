import type { Bender } from '../bending/forming/types.ts'
import { DEFAULT_METHOD_LIMITS } from '../bending/method.ts'
import type { RollerBender } from '../bending/roller/roller-bender.ts'
import type { Assume } from './complete-plan.ts'
import type { BenderInput } from './plan.ts'

/** The figures that make a roller bender: all or none of them are given (see `benderInputFaults`). */
export const ROLLER_FIELDS = ['span', 'outerRollerRadius', 'bearsOn', 'mode'] as const

/** What one bends with. Without a bender: loose rail, by hand. */
export function completeBender(input: BenderInput | undefined, assume: Assume): Bender {
  const roller = rollerOf(input ?? {})
  const open = <T>(field: keyof BenderInput, given: T | undefined, usual: T, reason: string): T => {
    if (given === undefined) assume(`/bender/${field}`, String(usual), reason)
    return given ?? usual
  }
  const work = open('work', input?.work, 'loose-rail', 'rail is bent before it is laid on its ties')
  return {
    work,
    roller,
    ends: roller
      ? open('ends', input?.ends, 'finish-by-hand', 'rollers leave half their span straight at each end')
      : 'finish-by-hand',
    fixedEnd:
      work === 'assembled'
        ? open('fixedEnd', input?.fixedEnd, 'start', 'the inner rail creeps out at the end')
        : 'start',
    limits: limitsOf(input?.limits ?? {}),
  }
}

/** The roller bender, when its figures are given. */
export function rollerOf(input: BenderInput): RollerBender | null {
  const { spanMm, outerRollerRadiusMm, bearsOn, mode, maxPerPassMm, screwPitchMm } = input
  if (spanMm === undefined || outerRollerRadiusMm === undefined || bearsOn === undefined || mode === undefined)
    return null
  return {
    spanMm,
    outerRollerRadiusMm,
    bearsOn,
    mode,
    maxPerPassMm: maxPerPassMm ?? null,
    screwPitchMm: screwPitchMm ?? null,
  }
}

function limitsOf(given: NonNullable<BenderInput['limits']>): Bender['limits'] {
  return {
    overbendRatio: given.overbendRatio ?? DEFAULT_METHOD_LIMITS.overbendRatio,
    gripMm: given.gripMm ?? DEFAULT_METHOD_LIMITS.gripMm,
    handForceN: given.handForceN ?? DEFAULT_METHOD_LIMITS.handForceN,
    jointFlatMm: given.jointFlatMm ?? DEFAULT_METHOD_LIMITS.jointFlatMm,
  }
}
