import { toDegrees } from '../../measure/angle.ts'
import { innerRailCreep, oneSettingErrors } from '../assembled-track.ts'
import { depthOnLineMm } from '../calibration/bender-line.ts'
import type { Metal } from '../metal.ts'
import { adviseMethod, handForceN } from '../method.ts'
import { residualStress } from '../residual-stress.ts'
import { MOST_PASSES, passesTo, passSchedule, straightEnds, turnsOf } from '../roller/pass-schedule.ts'
import type { RollerBender } from '../roller/roller-bender.ts'
import { rollerSetting } from '../roller/roller-setting.ts'
import { elasticDepthMm } from '../roller/three-point-depth.ts'
import { springIn } from '../spring-in.ts'
import { elasticLimit, forming, formingCurvature } from '../springback.ts'
import { formingBand, formingOverTempers } from '../yield-band.ts'
import type { RailToBend } from './rail-to-bend.ts'
import { reasonInWords } from './reason.ts'
import type { AssembledAnswer, Bender, BendForming, MachineSetting, SpringInAnswer } from './types.ts'
import { type MetalOfRail, metalsOf, type Weighed, weigh, worstOf } from './weighed.ts'

const NMM_PER_NM = 1000

/** What bending needs of one rail of one curve. */
export interface CurveRail {
  readonly rail: 'outer' | 'inner'
  /** Of the rail's own line. */
  readonly radiusMm: number
  readonly trackRadiusMm: number
  readonly gaugeMm: number
  /** Angle of the curve, > 0. */
  readonly turnedRad: number
  /** Joints of this rail inside the curve. */
  readonly jointsInBend: number
}

/** What depends only on the radius, the rail and the bender. */
type ByRadius = Omit<BendForming, 'method' | 'reasonId' | 'reason' | 'checks' | 'assembled'> & {
  /** For the advice. */
  readonly weighed: Weighed
}

/**
 * How to bend the rails of one plan. Curves of the same radius are calculated once; the rest of a bend (its joints, its
 * place in assembled track) is cheap. The formulas are those of the imported modules; their combination is
 * checked in tests/bending/forming/form-bend.test.ts.
 */
export class BendFormer {
  private readonly rail: RailToBend
  private readonly bender: Bender
  private readonly tieSpacingMm: number
  private elasticDepthMm: number | null = null
  private readonly known = new Map<number, ByRadius>()
  private readonly formedOf = new Map<number, number>()
  /** The one metal of the rail, or those of its possible tempers. */
  private readonly metals: readonly MetalOfRail[]

  constructor(rail: RailToBend, bender: Bender, tieSpacingMm: number) {
    this.rail = rail
    this.bender = bender
    this.tieSpacingMm = tieSpacingMm
    this.metals = metalsOf(rail, bender.limits.overbendRatio)
  }

  form(curve: CurveRail): BendForming {
    const { radiusMm, jointsInBend } = curve
    const { weighed, ...byRadius } = this.byRadius(radiusMm)
    const { tieSpacingMm } = this
    const advice = adviseMethod(
      { work: this.bender.work, wantedRadiusMm: radiusMm, tieSpacingMm, jointsInBend, ...weighed },
      this.bender.limits,
    )
    return {
      method: advice.method,
      reasonId: advice.reason,
      reason: reasonInWords(advice, this.bender.limits),
      checks: [...advice.checks],
      ...byRadius,
      assembled: this.bender.work === 'assembled' ? this.assembled(curve) : null,
    }
  }

  /** Curvature (≥ 0, per mm) to bend to so that the rail keeps a curvature ≥ 0; null where there is no single yield. */
  formingCurvature(wantedPerMm: number): number | null {
    const { section, metal } = this.rail
    if (!metal) return null
    const known = this.formedOf.get(wantedPerMm) ?? formingCurvature(section, metal, wantedPerMm)
    this.formedOf.set(wantedPerMm, known)
    return known
  }

  private byRadius(radiusMm: number): ByRadius {
    const known =
      this.known.get(radiusMm) ?? (this.rail.metal ? this.ofMetal(radiusMm, this.rail.metal) : this.ofTempers(radiusMm))
    this.known.set(radiusMm, known)
    return known
  }

  private ofMetal(radiusMm: number, metal: Metal): ByRadius {
    const { section, basis, yields } = this.rail
    const formed = forming(section, metal, radiusMm)
    const weighed = weigh(section, this.metals[0]!, radiusMm, formed.formingRadiusMm)
    const limit = elasticLimit(section, metal)
    const residual = residualStress(section, metal, 1 / formed.formingRadiusMm)
    return {
      basis,
      formingRadiusMm: formed.formingRadiusMm,
      overbendRatio: formed.overbendRatio,
      band: { ...formingBand(section, metal, radiusMm, yields!) },
      tempers: [],
      elasticLimitRadiusMm: limit.radiusMm,
      elasticLimitSetShare: limit.setShare,
      momentNm: formed.momentNmm / NMM_PER_NM,
      maxStrainPct: formed.maxStrain * 100,
      elongationPct: metal.elongationPct,
      residualStressMpa: residual.atFaceMpa,
      residualStressInsideMpa: residual.insideMpa,
      springIn: this.sprungIn(metal, radiusMm, weighed.setShare),
      ...this.machine(metal, radiusMm),
      weighed,
    }
  }

  private ofTempers(radiusMm: number): ByRadius {
    const { section, tempers } = this.rail
    const range = formingOverTempers(section, { tempers }, radiusMm)
    const each = this.metals.map((of, index) => weigh(section, of, radiusMm, range.tempers[index]!.formingRadiusMm))
    const weighed = worstOf(each)
    const stiffest = this.metals[each.findIndex((of) => of.springMomentNmm === weighed.springMomentNmm)]!
    return {
      basis: null,
      formingRadiusMm: null,
      overbendRatio: null,
      band: { lowMm: range.lowMm, highMm: range.highMm },
      tempers: range.tempers.map((row) => ({ ...row, band: { ...row.band } })),
      elasticLimitRadiusMm: null,
      elasticLimitSetShare: null,
      momentNm: null,
      maxStrainPct: null,
      elongationPct: null,
      residualStressMpa: null,
      residualStressInsideMpa: null,
      springIn: this.sprungIn(stiffest.metal, radiusMm, weighed.setShare),
      machine: null,
      noMachine: this.bender.roller ? 'yield-unknown' : 'no-rollers',
      weighed,
    }
  }

  private sprungIn(metal: Metal, radiusMm: number, setShare: number): SpringInAnswer | null {
    const { section } = this.rail
    const { limits } = this.bender
    if (setShare > limits.setShare && radiusMm < elasticLimit(section, metal).radiusMm) return null
    const { endCoupleNmm, jointKinkRad, setEnds, ...sprung } = springIn(section, metal, radiusMm, this.tieSpacingMm)
    return {
      ...sprung,
      endCoupleNm: endCoupleNmm / NMM_PER_NM,
      setEndsFromMm: setEnds.fromMm,
      setEndsToMm: setEnds.toMm,
      jointKinkDeg: toDegrees(jointKinkRad),
      handForceN: handForceN(endCoupleNmm, limits.grip),
    }
  }

  /**
   * None where the depth would be more than half the span, which three rollers that far apart cannot reach.
   * The bender's own line, where test passes gave one, decides the depth; otherwise the estimate does. Far
   * from the passes that made it, a line with a negative offset may end before the rail is touched.
   */
  private machine(metal: Metal, radiusMm: number): Pick<BendForming, 'machine' | 'noMachine'> {
    const { section, line } = this.rail
    const { roller } = this.bender
    if (!roller) return { machine: null, noMachine: 'no-rollers' }
    const setting = rollerSetting(section, metal, { ...roller, maxPerPassMm: null }, radiusMm)
    const depthMm = line ? depthOnLineMm(line.line, line.rail, radiusMm) : setting.depthMm
    if (depthMm > roller.spanMm / 2) return { machine: null, noMachine: 'span-too-long' }
    if (!(depthMm > 0)) return { machine: null, noMachine: 'before-touching' }
    const ends = straightEnds(roller)
    const machine: MachineSetting = {
      depthMm,
      depthFrom: line ? 'test-passes' : 'starting-estimate',
      turns: turnsOf(roller, depthMm),
      arcDepthMm: setting.arcDepthMm,
      elasticDepthMm: this.elasticDepth(roller, metal),
      passes: passesTo(roller, depthMm) > MOST_PASSES ? [] : passSchedule(roller, depthMm),
      pressStepMm: setting.pressStepMm,
      straightEndMm: ends.eachMm,
      trimLengthMm: ends.extraLengthMm,
      ends: this.bender.ends,
    }
    return { machine, noMachine: null }
  }

  /** The same for every radius of a rail. */
  private elasticDepth(roller: RollerBender, metal: Metal): number {
    this.elasticDepthMm ??= elasticDepthMm(this.rail.section, metal, roller)
    return this.elasticDepthMm
  }

  private assembled({ rail, trackRadiusMm, gaugeMm, turnedRad }: CurveRail): AssembledAnswer {
    const { missMm, missPct } = oneSettingErrors(trackRadiusMm, gaugeMm, this.rail.headWidthMm)[rail]
    const creep = innerRailCreep(gaugeMm, this.rail.headWidthMm, turnedRad, this.bender.fixedEnd)
    return { missMm, missPct, ...creep }
  }
}
