import { toDegrees } from '../../measure/angle.ts'
import { innerRailCreep, oneSettingErrors } from '../assembled-track.ts'
import type { Metal } from '../metal.ts'
import { adviseMethod, handForceN } from '../method.ts'
import { residualStress } from '../residual-stress.ts'
import { LoadingCurve } from '../roller/loading-curve.ts'
import { straightEnds, turnsOf } from '../roller/pass-schedule.ts'
import { AS_ESTIMATED, depthsAlong, type RailInBender, rollerSetting } from '../roller/roller-setting.ts'
import { elasticDepthMm } from '../roller/three-point-depth.ts'
import { springIn } from '../spring-in.ts'
import { type ElasticLimit, elasticLimit, forming } from '../springback.ts'
import { bandOf, formingOverTempers } from '../yield-band.ts'
import { type FormedAtYields, formedAtYields } from './formed-curvatures.ts'
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
  private inBender: RailInBender | null = null
  private readonly known = new Map<number, ByRadius>()
  private formedOnce: FormedAtYields | null | undefined
  /** The one metal of the rail, or those of its possible tempers. */
  private readonly metals: readonly MetalOfRail[]
  private readonly elasticLimits = new Map<Metal, ElasticLimit>()
  private readonly alongOf = new Map<string, (number | null)[]>()

  constructor(rail: RailToBend, bender: Bender, tieSpacingMm: number) {
    this.rail = rail
    this.bender = bender
    this.tieSpacingMm = tieSpacingMm
    this.metals = metalsOf(rail, bender.limits.overbendRatio)
  }

  /** Null where there is no single yield. Worked out when it is asked for: a bill alone needs no bends. */
  private get formed(): FormedAtYields | null {
    this.formedOnce ??= formedAtYields(this.rail)
    return this.formedOnce
  }

  form(curve: CurveRail): BendForming {
    const { radiusMm, jointsInBend } = curve
    const { weighed, ...byRadius } = this.byRadius(radiusMm)
    const { tieSpacingMm } = this
    const isAssembled = this.bender.work === 'assembled'
    // Both rails of assembled track are in the bender at once: one setting, for the centre line.
    const { machine, noMachine } = isAssembled ? this.byRadius(curve.trackRadiusMm) : byRadius
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
      machine,
      noMachine,
      assembled: isAssembled ? this.assembled(curve) : null,
    }
  }

  /** Curvature (≥ 0, per mm) to bend to so that the rail keeps a curvature ≥ 0; null where there is no single yield. */
  formingCurvature(wantedPerMm: number): number | null {
    return this.formed?.nominal(wantedPerMm) ?? null
  }

  private byRadius(radiusMm: number): ByRadius {
    const known = this.known.get(radiusMm) ?? this.worked(radiusMm)
    this.known.set(radiusMm, known)
    return known
  }

  private worked(radiusMm: number): ByRadius {
    const { metal } = this.rail
    const { formed } = this
    return metal && formed ? this.ofMetal(radiusMm, metal, formed) : this.ofTempers(radiusMm)
  }

  private ofMetal(radiusMm: number, metal: Metal, { nominal, low, high }: FormedAtYields): ByRadius {
    const { section, basis } = this.rail
    const formed = forming(section, metal, radiusMm, nominal)
    const weighed = weigh(section, this.metals[0]!, radiusMm, formed.formingRadiusMm)
    const limit = this.limitOf(metal)
    const residual = residualStress(section, metal, 1 / formed.formingRadiusMm)
    return {
      basis,
      formingRadiusMm: formed.formingRadiusMm,
      overbendRatio: formed.overbendRatio,
      band: bandOf(radiusMm, low, high),
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

  /** The same for every radius. */
  private limitOf(metal: Metal): ElasticLimit {
    const limit = this.elasticLimits.get(metal) ?? elasticLimit(this.rail.section, metal)
    this.elasticLimits.set(metal, limit)
    return limit
  }

  private sprungIn(metal: Metal, radiusMm: number, setShare: number): SpringInAnswer | null {
    const { section } = this.rail
    const { limits } = this.bender
    if (setShare > limits.setShare && radiusMm < this.limitOf(metal).radiusMm) return null
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
    const { roller } = this.bender
    if (!roller) return { machine: null, noMachine: 'no-rollers' }
    const rail = this.railInBender(metal)!
    const { depthMm, turns, arcDepthMm, passes, pressed } = rollerSetting(rail, radiusMm)
    if (depthMm > roller.spanMm / 2) return { machine: null, noMachine: 'span-too-long' }
    if (!(depthMm > 0)) return { machine: null, noMachine: 'before-touching' }
    const ends = straightEnds(roller)
    const machine: MachineSetting = {
      depthMm,
      depthFrom: this.rail.line ? 'test-passes' : 'starting-estimate',
      turns,
      arcDepthMm,
      elasticDepthMm: Math.max(0, rail.line.offsetMm + rail.line.scale * rail.elasticDepthMm),
      passes: [...passes],
      pressStepMm: pressed?.stepMm ?? null,
      scallopMm: pressed?.scallopMm ?? null,
      straightEndMm: ends.eachMm,
      trimLengthMm: ends.extraLengthMm,
      ends: this.bender.ends,
    }
    return { machine, noMachine: null }
  }

  /**
   * Depth and turns at places of an easement, for curvatures ≥ 0 (per mm) of which the greatest is that of the curve it
   * leads to; null where the yield is unknown, there are no rollers, or they cannot reach so deep. 0 is straight.
   */
  settingsAlong(wantedPerMm: readonly number[]): ({ depthMm: number; turns: number | null } | null)[] {
    const { roller } = this.bender
    const rail = this.rail.metal && this.railInBender(this.rail.metal)
    if (!roller || !rail) return wantedPerMm.map(() => null)
    const key = wantedPerMm.join(' ')
    const known = this.alongOf.get(key) ?? depthsAlong(rail, wantedPerMm)
    this.alongOf.set(key, known)
    return known.map((mm) => {
      const depthMm = Math.max(0, mm ?? 0)
      return depthMm > roller.spanMm / 2 ? null : { depthMm, turns: turnsOf(roller, depthMm) }
    })
  }

  /** The same for every radius of a rail; null without rollers. */
  private railInBender(metal: Metal): RailInBender | null {
    const { roller: bender } = this.bender
    if (!bender) return null
    const { section, line: calibrated } = this.rail
    if (this.inBender) return this.inBender
    // A bender's line is made of estimates with the metal it was calibrated with.
    const ofLine = calibrated?.rail.metal ?? metal
    this.inBender = {
      section,
      metal: ofLine,
      bender,
      curve: new LoadingCurve(section, ofLine),
      elasticDepthMm: elasticDepthMm(section, ofLine, bender),
      line: calibrated?.line ?? AS_ESTIMATED,
      schedules: new Map(),
    }
    return this.inBender
  }

  private assembled({ rail, trackRadiusMm, gaugeMm, turnedRad }: CurveRail): AssembledAnswer {
    const { missMm, missPct } = oneSettingErrors(trackRadiusMm, gaugeMm, this.rail.headWidthMm)[rail]
    const creep = innerRailCreep(gaugeMm, this.rail.headWidthMm, turnedRad, this.bender.fixedEnd)
    return { missMm, missPct, ...creep }
  }
}
