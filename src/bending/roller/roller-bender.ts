import type { Fault } from '../../measure/fault.ts'
import type { SectionProperties } from '../section-properties.ts'

/**
 * A three-roller bender: two outer rollers on the side that becomes convex, a centre roller that is screwed in from the
 * other side. `rolled`: the rail is pulled through under load; `pressed`: it is pressed, moved on and pressed again.
 */
export interface RollerBender {
  /** Between the outer rollers' centres. */
  readonly spanMm: number
  readonly outerRollerRadiusMm: number
  /** The part of the rail the rollers touch. */
  readonly bearsOn: 'head' | 'web' | 'foot'
  readonly mode: 'rolled' | 'pressed'
  /** Depth that one pass may add; null: all in one. */
  readonly maxPerPassMm: number | null
  /** Depth of one turn of the screw; null: unknown. */
  readonly screwPitchMm: number | null
}

/** Impossible figures of a bender. Paths are relative to the bender. */
export function benderFaults(bender: RollerBender): Fault[] {
  const faults: Fault[] = []
  const refuse = (field: string, detail: string, hint?: string) =>
    faults.push({ path: [field], code: 'out-of-range', detail, hint })
  if (!(bender.spanMm > 0)) refuse('span', 'the span must be over zero')
  if (!(bender.outerRollerRadiusMm >= 0)) refuse('outerRollerRadius', 'the roller radius must not be negative')
  else if (bender.spanMm > 0 && bender.spanMm <= 2 * bender.outerRollerRadiusMm)
    faults.push({
      path: ['span'],
      code: 'contradictory',
      detail: 'the outer rollers overlap: the span is not more than their diameter',
      hint: 'span is measured between the outer rollers’ centres; outerRollerRadius is half a roller’s diameter',
    })
  for (const field of ['maxPerPass', 'screwPitch'] as const) {
    const value = bender[`${field}Mm`]
    if (value !== null && !(value > 0)) refuse(field, `${field} must be over zero`, 'leave it out when it is unknown')
  }
  return faults
}

/** From the rail's vertical axis to the face the outer rollers touch, plus their radius. */
export function axisToRollerCentreMm(section: SectionProperties, bender: RollerBender): number {
  return halfWidthMm(section, bender.bearsOn) + bender.outerRollerRadiusMm
}

function halfWidthMm(section: SectionProperties, part: RollerBender['bearsOn']): number {
  const widths = section.rectangles.map(({ widthMm }) => widthMm)
  if (part === 'head') return widths.at(-1)! / 2
  return (part === 'foot' ? widths[0]! : Math.min(...widths)) / 2
}

/**
 * Depth of the centre roller from just touching the straight bar, if the rail were one circular arc between the outer
 * rollers:
 *
 * h = ρ − √(ρ² − a²), ρ = R + c1 + r1, computed as a²/(ρ + √(ρ² − a²))
 *
 * R radius of the rail's line under load, c1 from its axis to the face the outer rollers touch, r1 their radius, a half
 * the span, mm; the centre roller's radius cancels. Exact for an arc and therefore an upper limit: under three rollers
 * the rail is straighter towards the outer ones. Range: ρ ≥ a; null below (the rail would have to reach round the
 * rollers). Closed form; derived values in tests/published/roller-arc-depths.test.ts.
 */
export function arcDepthMm(section: SectionProperties, bender: RollerBender, loadedRadiusMm: number): number | null {
  const a = bender.spanMm / 2
  const rho = loadedRadiusMm + axisToRollerCentreMm(section, bender)
  if (!(rho >= a)) return null
  return (a * a) / (rho + Math.sqrt((rho - a) * (rho + a)))
}
