import type { Metal } from '../metal.ts'
import { setCurvature } from '../moment-curvature.ts'
import type { SectionProperties } from '../section-properties.ts'
import { formingCurvature } from '../springback.ts'
import type { BendingModel } from './bending-model.ts'
import type { LoadingCurve } from './loading-curve.ts'
import { axisToRollerCentreMm, type RollerBender } from './roller-bender.ts'
import { type Side, sideDepth, threePointDepthMm } from './three-point-depth.ts'

/**
 * Rail that is drawn through the rollers under load, in one pass or several.
 *
 * The depth is that of `threePointDepthMm`, with the side that enters already bent by an earlier pass. Under the moment
 * M = M0·m it is elastic up to the earlier peak p, at m1 = M(p)/M0, and follows the law beyond, with κp the curvature p
 * left:
 *
 * K1 = κp·m1 + (M0/EI)·m1²/2 + [κ0 − m1·p − ∫(M/M0)dκ]
 * K2 = κp·m1²/2 + (M0/EI)·m1³/3 + ½[κ0 − m1²·p − ∫(M/M0)²dκ], κ from p to κ0.
 *
 * Derived. Range as there, with rail bent evenly by the earlier pass. Checked against rail that is followed through
 * all its passes in small steps in tests/bending/roller/pass-schedule.test.ts.
 */
export class RolledModel implements BendingModel {
  private readonly section: SectionProperties
  private readonly metal: Metal
  private readonly bender: RollerBender
  private readonly curve: LoadingCurve

  constructor(section: SectionProperties, metal: Metal, bender: RollerBender, curve: LoadingCurve) {
    this.section = section
    this.metal = metal
    this.bender = bender
    this.curve = curve
  }

  peakFor(wantedPerMm: number): number {
    return formingCurvature(this.section, this.metal, wantedPerMm)
  }

  leavesPerMm(peak: number): number {
    return setCurvature(this.section, this.metal, peak)
  }

  depthMm(before: number, peak: number): number {
    if (before === 0) return threePointDepthMm(this.section, this.metal, this.bender, peak)
    const a = this.bender.spanMm / 2
    const offset = axisToRollerCentreMm(this.section, this.bender)
    return (sideDepth(a, offset, this.entering(before, peak)) + sideDepth(a, offset, this.leaving(peak))) / 2
  }

  private entering(p: number, k0: number): Side {
    const { curve } = this
    const m0 = curve.momentNmm(k0)
    const m1 = curve.momentNmm(p) / m0
    const elastic = m0 / curve.stiffness
    const left = curve.setPerMm(p)
    const [toPeak, toEarlier] = [curve.integralsTo(k0), curve.integralsTo(p)]
    return {
      k1: left * m1 + (elastic * m1 ** 2) / 2 + (k0 - m1 * p - (toPeak.ofMoment - toEarlier.ofMoment) / m0),
      k2:
        (left * m1 ** 2) / 2 +
        (elastic * m1 ** 3) / 3 +
        (k0 - m1 ** 2 * p - (toPeak.ofSquare - toEarlier.ofSquare) / m0 ** 2) / 2,
    }
  }

  private leaving(k0: number): Side {
    const stays = this.curve.setPerMm(k0)
    const springsBack = k0 - stays
    return { k1: stays + springsBack / 2, k2: stays / 2 + springsBack / 3 }
  }
}
