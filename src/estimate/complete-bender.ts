import type { Bender } from '../bending/forming/types.ts'
import { DEFAULT_METHOD_LIMITS, type MethodLimits } from '../bending/method.ts'
import type { RollerBender } from '../bending/roller/roller-bender.ts'
import { formatMm } from '../measure/length.ts'
import type { Assume } from './complete-plan.ts'
import type { BenderInput } from './plan.ts'

/** The figures that make a roller bender: all or none of them are given (see `benderInputFaults`). */
export const ROLLER_FIELDS = ['span', 'outerRollerRadius', 'bearsOn', 'mode'] as const

const LAID_LATER = 'rail is bent before it is laid on its ties'

/** What one bends with. Without a bender: loose rail, by hand. `assume` is told where a default decides something. */
export function completeBender(input: BenderInput | undefined, assume: Assume): Bender {
  const roller = rollerOf(input ?? {})
  const open = <T>(field: keyof BenderInput, given: T | undefined, usual: T, reason: string): T => {
    if (given === undefined) assume(`/bender/${field}`, String(usual), reason)
    return given ?? usual
  }
  const work = open(
    'work',
    input?.work,
    'loose-rail',
    roller ? LAID_LATER : `${LAID_LATER}, by hand where no bender is told of`,
  )
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
    limits: limitsOf(input?.limits ?? {}, assume),
  }
}

/** The roller bender, when its figures are given. */
export function rollerOf(input: BenderInput): RollerBender | null {
  const {
    span: spanMm,
    outerRollerRadius: outerRollerRadiusMm,
    bearsOn,
    mode,
    maxPerPass: maxPerPassMm,
    screwPitch: screwPitchMm,
  } = input
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

const LIMITS: {
  readonly [K in keyof MethodLimits]: { readonly field: string; readonly show: (value: number) => string }
} = {
  overbendRatio: { field: 'overbendRatio', show: (ratio) => `bent up to ${ratio} times as tight as it stays` },
  grip: { field: 'grip', show: (mm) => `hands ${formatMm(mm)} apart` },
  handForceN: { field: 'handForceN', show: (newton) => `${newton} N of each` },
  jointFlat: { field: 'jointFlat', show: (mm) => `${formatMm(mm)} off the curve at a joint` },
}

/** Limits that were left open are assumed together where none is given, else each by itself. */
function limitsOf(given: NonNullable<BenderInput['limits']>, assume: Assume): MethodLimits {
  const names = Object.keys(LIMITS) as (keyof MethodLimits)[]
  const open = names.filter((name) => given[name] === undefined)
  const shown = (name: keyof MethodLimits) => LIMITS[name].show(DEFAULT_METHOD_LIMITS[name])
  const reason = 'what hands do evenly, common practice'
  if (open.length === names.length) assume('/bender/limits', names.map(shown).join(', '), reason)
  else for (const name of open) assume(`/bender/limits/${LIMITS[name].field}`, shown(name), reason)
  return {
    overbendRatio: given.overbendRatio ?? DEFAULT_METHOD_LIMITS.overbendRatio,
    grip: given.grip ?? DEFAULT_METHOD_LIMITS.grip,
    handForceN: given.handForceN ?? DEFAULT_METHOD_LIMITS.handForceN,
    jointFlat: given.jointFlat ?? DEFAULT_METHOD_LIMITS.jointFlat,
  }
}
