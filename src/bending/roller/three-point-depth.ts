import { type Metal, yieldStrain } from '../metal.ts'
import { momentNmm, setCurvature, yieldCurvature } from '../moment-curvature.ts'
import { integralsBetween } from '../numeric/quadrature.ts'
import type { SectionProperties } from '../section-properties.ts'
import { axisToRollerCentreMm, type RollerBender } from './roller-bender.ts'

/**
 * Depth of the centre roller, from just touching the straight bar, that bends the rail under it to a curvature: a
 * starting estimate from the moment–curvature law.
 *
 * Under three rollers the moment falls linearly from M0 = M(κ0) at the centre roller to zero at the outer
 * ones, M = M0·m with m = 1 − x/s. Over the half span s between the points of touch each side adds
 *
 * slope θ = s·∫κ dm = s·K1, deflection y = s²·∫κ·m dm = s²·K2 (m from 0 to 1)
 *
 * - a side that is being loaded: K1 = κ0 − ∫(M/M0)dκ, K2 = ½[κ0 − ∫(M/M0)²dκ], κ from 0 to κ0 (integrated by parts, so
 *   the law does not have to be inverted);
 * - a side that has passed the centre roller and unloads elastically: K1 = κset + M0/(2EI), K2 = κset/2 + M0/(3EI).
 *
 * The point of touch moves inwards as the rail tilts: a = s + o·θ and h = y + o·θ²/2, o from the rail's axis to the
 * outer rollers' centres, a half the span. Pressed: both sides load; rolled: the mean of a loading and an unloading
 * side.
 *
 * Range: depth small compared with the span (for an arc the small angles cost 1 % at a twentieth of it); one pass on
 * straight rail, pressed once; see `RolledModel` and `PressedModel` for rail that was bent before. Derived; it gives 0.63–0.67 of the arc's depth for rolled Ramberg–Osgood metals and to ⅔ of it where
 * nothing yields (tests/bending/roller/three-point-depth.test.ts). Friction, play and the flex of the frame are not
 * included: calibrate.
 */
export function threePointDepthMm(
  section: SectionProperties,
  metal: Metal,
  bender: RollerBender,
  loadedCurvature: number,
): number {
  if (loadedCurvature === 0) return 0
  const a = bender.spanMm / 2
  const offset = axisToRollerCentreMm(section, bender)
  const entry = sideDepth(a, offset, loadingSide(section, metal, loadedCurvature))
  if (bender.mode === 'pressed') return entry
  return (entry + sideDepth(a, offset, unloadingSide(section, metal, loadedCurvature))) / 2
}

/**
 * Depth up to which the rail springs back straight (Ramberg–Osgood: to the proof strain at the outermost fibre): the
 * same for every bend of a rail in a bender.
 */
export function elasticDepthMm(section: SectionProperties, metal: Metal, bender: RollerBender): number {
  return threePointDepthMm(section, metal, bender, yieldCurvature(section, metal))
}

/** Slope and deflection of one side: K1 and K2 of `threePointDepthMm`. */
export interface Side {
  readonly k1: number
  readonly k2: number
}

/** What a side adds to the depth, mm: h of `threePointDepthMm`. */
export function sideDepth(a: number, offset: number, { k1, k2 }: Side): number {
  const s = a / (1 + offset * k1)
  return s * s * (k2 + (offset * k1 * k1) / 2)
}

function loadingSide(section: SectionProperties, metal: Metal, k0: number): Side {
  const m0 = momentNmm(section, metal, k0)
  const { ofF, ofSquare } = integralsBetween(
    (k) => momentNmm(section, metal, k) / m0,
    edgesOfYielding(section, metal, k0),
  )
  return { k1: k0 - ofF, k2: (k0 - ofSquare) / 2 }
}

function unloadingSide(section: SectionProperties, metal: Metal, k0: number): Side {
  const stays = setCurvature(section, metal, k0)
  const springsBack = k0 - stays
  return { k1: stays + springsBack / 2, k2: stays / 2 + springsBack / 3 }
}

/**
 * Curvatures around which M(κ) changes slope: where each width starts to yield, and for a rounded knee its two ends.
 */
function edgesOfYielding(section: SectionProperties, metal: Metal, k0: number): number[] {
  const knees = section.rectangles.flatMap(({ widthMm }) => {
    const knee = (2 * yieldStrain(metal)) / widthMm
    return metal.hardening.model === 'ramberg-osgood' ? [0.85 * knee, 1.3 * knee] : [knee]
  })
  const inside = [...new Set(knees)].filter((knee) => knee < k0).sort((x, y) => x - y)
  return [0, ...inside, k0]
}
