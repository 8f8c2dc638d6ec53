import type { Metal } from './metal.ts'
import { momentNmm, yieldCurvature } from './moment-curvature.ts'
import type { SectionProperties } from './section-properties.ts'
import { plasticStrain, stressMpa, tangentModulusMpa } from './stress-strain.ts'

/**
 * Residual stress after unloading, on the side that was stretched: + for tension. The other side is its mirror
 * image with the sign changed.
 */
export interface ResidualStress {
  /** At the outermost fibre: compression (negative) once the rail has yielded. */
  readonly atFaceMpa: number
  /** The greatest opposite stress inside, and its distance from the vertical axis. */
  readonly insideMpa: number
  readonly insideAtMm: number
  /**
   * False when the face would yield in the opposite direction while it unloads; the rail then springs back further than
   * computed.
   */
  readonly unloadsElastically: boolean
}

/**
 * Residual stress after bending to a curvature and releasing: r(y) = s(κy) − M·y/I, y from the vertical axis.
 *
 * At the face y = c. The largest value inside is where ds/dy = M/I: for linear and perfectly plastic metals at the
 * edge of the elastic core, y = sy/(E·κ); for Ramberg–Osgood where the tangent modulus 1/(1/E + n·εp/s) is M/(I·κ).
 *
 * Range: curvature > 0, elastic unloading. Source: superposition of the unloading moment, Beer & Johnston, *Mechanics
 * of Materials*, ch. 4; tests/published/beer-johnston-elastoplastic-bar.test.ts, tests/bending/residual-stress.test.ts.
 */
export function residualStress(section: SectionProperties, metal: Metal, curvaturePerMm: number): ResidualStress {
  const moment = momentNmm(section, metal, curvaturePerMm)
  const I = section.lateralSecondMomentMm4
  const c = section.extremeFibreMm
  const at = (y: number) => stressMpa(metal, curvaturePerMm * y) - (moment * y) / I
  const insideAtMm = insideAt(section, metal, curvaturePerMm, moment)
  const atFaceMpa = at(c)
  return { atFaceMpa, insideMpa: at(insideAtMm), insideAtMm, unloadsElastically: unloadsElastically(metal, atFaceMpa) }
}

/** Whether the face stays within the yield of the opposite sign while it unloads to a residual stress. */
export function unloadsElastically(metal: Metal, atFaceMpa: number): boolean {
  return -atFaceMpa <= metal.yieldMpa
}

function insideAt(section: SectionProperties, metal: Metal, k: number, moment: number): number {
  const { youngsModulusMpa: E, hardening } = metal
  const { lateralSecondMomentMm4: I, extremeFibreMm: c } = section
  if (hardening.model !== 'ramberg-osgood')
    return tangentModulusMpa(metal) < E ? Math.min(c, (yieldCurvature(section, metal) * c) / k) : c
  const { n } = hardening
  const { yieldMpa } = metal
  // n·εp/s = n·0.002·s^(n−1)/sy^n must make up what I·κ/M exceeds 1/E by.
  const missing = (I * k) / moment - 1 / E
  const atYield = (n * plasticStrain(metal, n, yieldMpa)) / yieldMpa
  const s = yieldMpa * Math.max(0, missing / atYield) ** (1 / (n - 1))
  return Math.min(c, (s / E + plasticStrain(metal, n, s)) / k)
}
