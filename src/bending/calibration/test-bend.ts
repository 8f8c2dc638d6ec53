import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import type { TestBend } from '../../plan/rows/rail.ts'
import type { Metal } from '../metal.ts'
import { radiusFromMidOrdinateMm } from '../ordinates.ts'
import type { RollerBender } from '../roller/roller-bender.ts'
import type { SectionProperties } from '../section-properties.ts'
import { tangentModulusMpa } from '../stress-strain.ts'

/** A test bend in internal units; `restingRadiusMm` is of the rail's line in both kinds. */
export type ReadBend =
  | {
      readonly kind: 'radii'
      readonly formedRadiusMm: number
      readonly restingRadiusMm: number
      /** Where the resting radius is from an ordinate. */
      readonly readOn?: { readonly chordMm: number; readonly ordinateMm: number }
    }
  | {
      readonly kind: 'pass'
      readonly depthMm: number
      readonly restingRadiusMm: number
      readonly chordMm: number
      readonly ordinateMm: number
    }

export interface Rail {
  readonly section: SectionProperties
  /** Its yield is the nominal one. */
  readonly metal: Metal
  readonly bender: RollerBender | null
}

export type ReadTestBend = { readonly bend: ReadBend } | { readonly fault: Fault }

/** Reads a test bend or says why it is impossible. Paths are relative to the test bend. */
export function readTestBend(test: TestBend, rail: Rail): ReadTestBend {
  const fault = testBendFault(test, rail)
  if (fault) return { fault }
  if ('restingRadius' in test)
    return { bend: { kind: 'radii', formedRadiusMm: test.formedRadius, restingRadiusMm: test.restingRadius } }
  const { chord: chordMm, ordinate: ordinateMm } = test
  const restingRadiusMm = restingRadiusOfReading(rail.section, chordMm, ordinateMm)
  if ('formedRadius' in test) {
    const readOn = { chordMm, ordinateMm }
    return { bend: { kind: 'radii', formedRadiusMm: test.formedRadius, restingRadiusMm, readOn } }
  }
  const depthMm = 'depth' in test ? test.depth : test.turns * rail.bender!.screwPitchMm!
  return { bend: { kind: 'pass', depthMm, restingRadiusMm, chordMm, ordinateMm } }
}

/** Why a test bend is impossible, given what is known of the rail; null: nothing known contradicts it. */
export function testBendFault(test: TestBend, known: Partial<Rail>): Fault | null {
  if (!('formedRadius' in test)) return passFault(test, known)
  if ('restingRadius' in test) return radiiFault(test.formedRadius, test.restingRadius, 'restingRadius', known)
  const { formedRadius, chord, ordinate } = test
  const restingRadiusMm = known.section ? restingRadiusOfReading(known.section, chord, ordinate) : null
  return readingFault(test) ?? radiiFault(formedRadius, restingRadiusMm, 'ordinate', known)
}

/** Radius of the rail's line from an ordinate on the concave side of its head: half the head's width further out. */
export function restingRadiusOfReading(section: SectionProperties, chordMm: number, ordinateMm: number): number {
  const atFace = radiusFromMidOrdinateMm(chordMm, ordinateMm) ?? Number.POSITIVE_INFINITY
  return atFace + section.rectangles.at(-1)!.widthMm / 2
}

/** @param restingRadiusMm null where it cannot be told without the section; `field` is where it comes from */
function radiiFault(
  formedRadiusMm: number,
  restingRadiusMm: number | null,
  field: 'restingRadius' | 'ordinate',
  { section, metal }: Partial<Rail>,
): Fault | null {
  if (section && !(formedRadiusMm > section.extremeFibreMm && Number.isFinite(formedRadiusMm)))
    return {
      path: ['formedRadius'],
      code: 'out-of-range',
      detail: `the rail cannot be bent to ${formatMm(formedRadiusMm, 3)}: half its own width is ${formatMm(section.extremeFibreMm, 3)}`,
      hint: 'formedRadius is the radius of the rail’s line while it is held bent',
    }
  if (restingRadiusMm === null) return null
  if (!Number.isFinite(restingRadiusMm)) return stayedElastic(field)
  if (!(restingRadiusMm > formedRadiusMm))
    return impossible(
      field,
      `a rail bent to ${formatMm(formedRadiusMm, 3)} cannot come to rest at ${formatMm(restingRadiusMm, 3)}: it always springs back to a larger radius`,
      'formedRadius is the smaller one, under load; both are radii of the rail’s line, not diameters',
    )
  if (!metal) return null
  const leastMm = formedRadiusMm / (1 - tangentModulusMpa(metal) / metal.youngsModulusMpa)
  if (!(restingRadiusMm > leastMm))
    return impossible(
      field,
      `with this tangent modulus even the softest metal bent to ${formatMm(formedRadiusMm, 3)} springs back past ${formatMm(leastMm, 3)}`,
      'lower hardening.tangentModulusGpa, or measure the test bend again',
    )
  return null
}

function passFault(test: Exclude<TestBend, { formedRadius: number }>, { bender }: Partial<Rail>): Fault | null {
  const field = 'depth' in test ? 'depth' : 'turns'
  if (bender === null)
    return {
      path: [field],
      code: 'contradictory',
      detail: `${field} needs the bender it was set on`,
      hint: 'describe it under bender, or give formedRadius and restingRadius',
    }
  if (bender && 'turns' in test && bender.screwPitchMm === null)
    return {
      path: ['turns'],
      code: 'contradictory',
      detail: 'turns of the screw need the pitch of the screw',
      hint: 'give bender.screwPitch or bender.turnsPerInch, or the depth instead',
    }
  const depthMm = 'depth' in test ? test.depth : test.turns * (bender?.screwPitchMm ?? 0)
  if (bender && !(depthMm > 0 && depthMm <= bender.spanMm / 2))
    return {
      path: [field],
      code: 'out-of-range',
      detail: `the ${field} must be over zero and less than half the span (${formatMm(bender.spanMm / 2, 3)})`,
      hint: 'measured from just touching the straight rail',
    }
  return readingFault(test)
}

function readingFault({
  chord: chordMm,
  ordinate: ordinateMm,
}: {
  readonly chord: number
  readonly ordinate: number
}): Fault | null {
  if (!(chordMm > 0 && Number.isFinite(chordMm)))
    return { path: ['chord'], code: 'out-of-range', detail: 'the chord must be over zero' }
  if (ordinateMm === 0) return stayedElastic('ordinate')
  if (!(ordinateMm > 0 && ordinateMm <= chordMm / 2))
    return {
      path: ['ordinate'],
      code: 'out-of-range',
      detail: `an ordinate over a chord of ${formatMm(chordMm, 3)} must be between zero and half the chord`,
      hint: 'measure from the middle of the chord to the concave side of the head',
    }
  return null
}

function stayedElastic(field: string): Fault {
  return impossible(field, 'the rail came to rest straight, so it never yielded', 'bend the test piece further')
}

function impossible(field: string, detail: string, hint: string): Fault {
  return { path: [field], code: 'impossible-test-bend', detail, hint }
}
