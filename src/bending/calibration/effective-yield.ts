import { withYield } from '../metal.ts'
import { setCurvature } from '../moment-curvature.ts'
import { rootBetween } from '../numeric/root.ts'
import { onePassDepthMm } from '../roller/model-for.ts'
import { type Rail, type ReadBend, restingRadiusOfReading } from './test-bend.ts'

/** How far each reading may be off, either way. */
export interface Resolution {
  /** Of a radius, at least. */
  readonly radiusMm: number
  /** Of an ordinate. */
  readonly readingMm: number
  /** The chord that radii were read over: nearly straight ones are only as accurate as their ordinate. */
  readonly chordMm: number
  /** Of the bender's depth. */
  readonly depthMm: number
}

export const DEFAULT_RESOLUTION: Resolution = { radiusMm: 5, readingMm: 0.5, chordMm: 500, depthMm: 0.05 }

/** The yield that explains one test bend; null where none does. */
export interface YieldReading {
  readonly yieldMpa: number | null
  /** The same with every reading off by its resolution in the worse direction; null: not bounded on that side. */
  readonly lowMpa: number | null
  readonly highMpa: number | null
  /** Percent of yield per percent of resting radius; null without a yield. */
  readonly sensitivity: number | null
}

/**
 * Effective yield of a test bend: the yield at which the section, bent to the formed radius, comes to rest at the
 * resting one (or, for a pass through a bender, at which `onePassDepthMm` is the depth for it), all else of the
 * metal as named. The set falls as the yield rises, so there is at most one.
 *
 * The band: the yield rises with the resting radius and the depth and falls with the formed radius, so its edges are
 * the yields of the readings' corners. Range: a sound test bend (see `readTestBend`), yields from a thousandth of the
 * named metal's to a tenth of E. Checked by simulated bends in tests/bending/calibration/effective-yield.test.ts.
 */
export function readYield(bend: ReadBend, rail: Rail, resolution: Resolution): YieldReading {
  const yieldMpa = solve(bend, rail)
  if (yieldMpa === null) return { yieldMpa, lowMpa: null, highMpa: null, sensitivity: null }
  return {
    yieldMpa,
    lowMpa: solve(shifted(bend, rail, resolution, -1), rail),
    highMpa: solve(shifted(bend, rail, resolution, 1), rail),
    sensitivity: sensitivity(bend, rail, yieldMpa),
  }
}

const LEAST_SHARE = 1e-3
const GREATEST_STRAIN = 0.1

function solve(bend: ReadBend, rail: Rail): number | null {
  const { excess, least, greatest } = yieldEquation(bend, rail)
  if (!isSolvable({ excess, least, greatest })) return null
  return Math.exp(rootBetween(excess, least, greatest))
}

/** Whether some yield explains a bend; much cheaper than calculating it. */
export function hasYield(bend: ReadBend, rail: Rail): boolean {
  return isSolvable(yieldEquation(bend, rail))
}

interface YieldEquation {
  /** Of ln(yield): negative where it is too low, positive where it is too high; NaN for a bend no yield explains. */
  readonly excess: (logYield: number) => number
  readonly least: number
  readonly greatest: number
}

function isSolvable({ excess, least, greatest }: YieldEquation): boolean {
  return excess(least) < 0 && excess(greatest) > 0
}

function yieldEquation(bend: ReadBend, { section, metal, bender }: Rail): YieldEquation {
  const { restingRadiusMm } = bend
  const ofYield =
    bend.kind === 'radii'
      ? (yieldMpa: number) =>
          1 - restingRadiusMm * setCurvature(section, withYield(metal, yieldMpa), 1 / bend.formedRadiusMm)
      : (yieldMpa: number) => {
          const candidate = withYield(metal, yieldMpa)
          return onePassDepthMm(section, candidate, bender!, 1 / restingRadiusMm) / bend.depthMm - 1
        }
  const isBent = Number.isFinite(restingRadiusMm) && restingRadiusMm > 0
  return {
    excess: (logYield) => (isBent ? ofYield(Math.exp(logYield)) : Number.NaN),
    least: Math.log(metal.yieldMpa * LEAST_SHARE),
    greatest: Math.log(metal.youngsModulusMpa * GREATEST_STRAIN),
  }
}

/** The bend as it would read with every reading off by its resolution towards a lower (−1) or a higher (+1) yield. */
function shifted(bend: ReadBend, rail: Rail, resolution: Resolution, towards: -1 | 1): ReadBend {
  if (bend.kind === 'radii')
    return {
      ...bend,
      formedRadiusMm: Math.max(rail.section.extremeFibreMm, radiusOff(bend.formedRadiusMm, resolution, -towards)),
      restingRadiusMm: radiusOff(bend.restingRadiusMm, resolution, towards),
    }
  const ordinateMm = Math.max(0, bend.ordinateMm - towards * resolution.readingMm)
  return {
    ...bend,
    depthMm: Math.max(0, bend.depthMm + towards * resolution.depthMm),
    ordinateMm,
    restingRadiusMm: restingRadiusOfReading(rail.section, bend.chordMm, ordinateMm),
  }
}

/**
 * A radius off by its resolution, down (−1) or up (1): by `radiusMm`, or by what an ordinate off by e over a chord C is
 * worth, 1/R ± 8e/C², whichever is larger. Infinite where the ordinate might be zero.
 */
function radiusOff(radiusMm: number, resolution: Resolution, way: number): number {
  const share = (8 * resolution.readingMm * radiusMm) / resolution.chordMm ** 2
  if (way < 0) return Math.min(radiusMm - resolution.radiusMm, radiusMm / (1 + share))
  return share < 1 ? Math.max(radiusMm + resolution.radiusMm, radiusMm / (1 - share)) : Number.POSITIVE_INFINITY
}

function sensitivity(bend: ReadBend, rail: Rail, yieldMpa: number): number | null {
  const step = 1e-4
  const further = solve({ ...bend, restingRadiusMm: bend.restingRadiusMm * (1 + step) }, rail)
  return further === null ? null : (further / yieldMpa - 1) / step
}
