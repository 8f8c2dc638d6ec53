import { toRadians } from '../../measure/angle.ts'
import type { TurnoutSize } from './types.ts'

/** How a frog number counts; see `frogAngleRad`. */
export const NUMBERINGS = ['half-cot', 'cot', 'half-cosec'] as const

export type Numbering = (typeof NUMBERINGS)[number]

/**
 * The angle of a frog by its number, radians.
 *
 * half-cot    N = ½·cot(F/2), F = 2·arctan(1/2N): length over width, measured along the middle of the frog
 * cot         N = cot F,      F = arctan(1/N):    "1 in N", measured along one side, width square to it
 * half-cosec  N = ½·cosec(F/2), F = 2·arcsin(1/2N): measured along the sides of equal length
 *
 * N the frog number (half-cosec: over ½), F the angle between the two gauge lines that cross.
 * Source: half-cot, AREA and NMRA RP-12; cot, continental practice. Checked in tests/published/nmra-rp-12-7-turnouts.test.ts and
 * tests/track/turnout/frog.test.ts.
 */
export function frogAngleRad(number: number, numbering: Numbering): number {
  if (numbering === 'cot') return Math.atan(1 / number)
  return 2 * (numbering === 'half-cot' ? Math.atan(1 / (2 * number)) : Math.asin(1 / (2 * number)))
}

/** The number of a frog by its angle; the inverse of `frogAngleRad`. */
export function frogNumber(angleRad: number, numbering: Numbering): number {
  if (numbering === 'cot') return 1 / Math.tan(angleRad)
  return 1 / (2 * (numbering === 'half-cot' ? Math.tan(angleRad / 2) : Math.sin(angleRad / 2)))
}

/** The angle of the frog as given by its number or angle; null where neither is given. */
export function givenFrogRad({ number, numbering, angle }: TurnoutSize): number | null {
  if (number != null) return frogAngleRad(number, numbering ?? 'half-cot')
  return angle == null ? null : toRadians(angle)
}
