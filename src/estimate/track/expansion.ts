import type { OpenedRun } from '../../laying/bare-runs.ts'
import { clampedLengths } from '../../laying/clamped-lengths.ts'
import type { RunOfRail } from '../../laying/divided-rails.ts'
import { breathingMm, bucklingLengthMm, growthMm, heldStressMpa, longestFor } from '../../laying/expansion.ts'
import {
  type Along,
  byRail,
  type Gap,
  type GrowingRail,
  gapsIn,
  type LayingConditions,
  openPerMm,
} from '../../laying/gaps.ts'
import type { JoinedEnds } from '../../laying/joins.ts'
import type { RailJoint } from '../../laying/joints.ts'
import { exceeds, LENGTH_SLACK_MM } from '../../measure/counting.ts'
import { formatFeetInches } from '../../measure/length.ts'
import type { Climate } from '../../plan/rows/joints.ts'
import { thereAt, type WholeTrack } from '../../plan/rows/track.ts'
import type { LegPlace } from '../../plan/rows/turnouts.ts'
import { railDistanceAt } from '../../track/rails.ts'
import type { ExpansionAnswer, JointAnswer } from '../answer.ts'
import type { Plan } from '../plan.ts'
import { metalOf } from '../rail.ts'
import type { LaidTrack } from './laid-track.ts'

/** Fractions of an inch in which gaps are printed. */
const GAP_STEPS = 64

/** The laying conditions of the rails of a plan; null without a climate, or without the metal's expansion. */
export function layingConditions({
  climate,
  joints,
  metal,
}: Pick<Plan, 'climate' | 'joints' | 'metal'>): LayingConditions | null {
  if (!climate || metal.expansionPerK === null) return null
  const { kind, held, insulatorThickness: insulatorThicknessMm } = joints
  return { ...railTemperatures(climate), joints: kind, held, expansionPerK: metal.expansionPerK, insulatorThicknessMm }
}

/** The temperatures of the rail: when it is laid, and at both extremes, including the sun. */
export function railTemperatures({ laying, coldest, hottest, sunAllowance }: Climate) {
  return { layingC: laying, coldestC: coldest, hottestC: hottest + sunAllowance }
}

/** The expansion of the existing rail at an end of a track; null where it is the same metal, or not known. */
export function expansionThere(
  track: Pick<WholeTrack, 'joinsExisting'>,
  end: 'start' | 'end',
  metal: Plan['metal'],
): number | null {
  const material = thereAt(track, end)?.material ?? metal.id
  return material === metal.id ? null : metalOf({ material, temper: null }).expansionPerK
}

/**
 * The rails of a plan for the calculation of gaps, left and right of each track.
 *
 * @param turnouts where they lie on the tracks, by stations
 */
export function growingRails(
  laid: readonly LaidTrack[],
  joined: readonly JoinedEnds[],
  turnouts: readonly (Along & { readonly track: number })[],
  expansionAt: (track: number, end: 'start' | 'end') => number | null,
): GrowingRail[] {
  const legs = new Map(laid.flatMap((track) => track.turnouts.map(({ name, geometry }) => [name, geometry.legs])))
  const legMm = (place: LegPlace | null) => {
    const own = place && legs.get(place.turnout)
    if (!own) return null
    return place.leg === 'points' ? own.through.lengthMm : own[place.leg].lengthMm
  }
  return laid.flatMap((track, index) =>
    (['left', 'right'] as const).map((side) => {
      const beyond = (end: 'start' | 'end') => {
        const join = joined[index]!.ofPlan.find((each) => each.end === end)
        if (!join) return null
        const other = laid[join.otherTrack]!
        const here = track[end]
        const away = (there: 'start' | 'end') => Math.hypot(other[there].xMm - here.xMm, other[there].yMm - here.yMm)
        const otherEnd = away('start') <= away('end') ? 'start' : 'end'
        // Two starts or two ends that meet face each other: the left rail of one continues as the right one of the other.
        const sameSide = otherEnd !== end
        const right = (side === 'right') === sameSide
        return { rail: 2 * join.otherTrack + (right ? 1 : 0), end: otherEnd } as const
      }
      return {
        lengthMm: track.rails[side].lengthMm,
        closed: track.closed,
        continuesAs: { start: beyond('start'), end: beyond('end') },
        expansionBeyond: { start: expansionAt(index, 'start'), end: expansionAt(index, 'end') },
        legBeyondMm: { start: legMm(track.legs.start), end: legMm(track.legs.end) },
        turnouts: turnouts
          .filter((turnout) => turnout.track === index)
          .map(({ fromMm, toMm }) => ({
            fromMm: railDistanceAt(track.rails[side], fromMm),
            toMm: railDistanceAt(track.rails[side], toMm),
          })),
      }
    }),
  )
}

/**
 * An upper limit of what a piece can lose to the gaps at its two ends, so that the pieces of the cut plan are still
 * long enough when shortened. Where rail is clamped the gaps do not depend on its pieces: `fixed` are the joints that
 * always exist.
 */
export function mostLostMm(
  laid: LayingConditions | null,
  fixed: readonly RailJoint[],
  rails: readonly GrowingRail[],
  longestStickMm: number,
): number {
  if (!laid) return 0
  if (laid.joints === 'clamped') return 2 * Math.max(0, ...gapsIn(fixed, rails, laid).map(({ gapMm }) => gapMm))
  const riseK = Math.max(0, laid.hottestC - laid.layingC)
  const keptMm = fixed.some(({ kind }) => kind === 'insulated') ? laid.insulatorThicknessMm : 0
  const turnoutsMm = rails.flatMap(({ turnouts = [] }) => turnouts.map(({ fromMm, toMm }) => toMm - fromMm))
  return 2 * (keptMm + growthMm(laid.expansionPerK, Math.max(longestStickMm, ...turnoutsMm), riseK))
}

/**
 * The gaps along each run of the rails, so that the cut plan can leave them out; null where rail is clamped: its gaps
 * do not depend on its pieces.
 *
 * @param fixed the joints that exist however the rails are cut
 */
export function openedRuns(
  laid: LayingConditions,
  fixed: readonly RailJoint[],
  rails: readonly GrowingRail[],
  longestMm: number,
): ((run: RunOfRail) => OpenedRun) | null {
  if (laid.joints === 'clamped') return null
  const perMm = openPerMm(laid)
  const ofRails = byRail(fixed, rails.length)
  return ({ rail, startMm, lengthMm }) => {
    const { lengthMm: railMm, closed, turnouts = [] } = rails[rail]!
    const isAt = (mm: number, atMm: number) =>
      Math.abs(mm - atMm) <= LENGTH_SLACK_MM || (closed && Math.abs(Math.abs(mm - atMm) - railMm) <= LENGTH_SLACK_MM)
    const endOfRun = (atMm: number) => {
      const atEnd = !(exceeds(atMm, 0) && exceeds(railMm, atMm))
      const placeMm = closed && atEnd ? 0 : atMm
      const joint = ofRails[rail]!.find((each) => Math.abs(each.atMm - placeMm) <= LENGTH_SLACK_MM)
      const keptMm = joint?.kind === 'insulated' ? laid.insulatorThicknessMm : 0
      // A turnout is not cut: what it needs is taken off the run beside it.
      const turnout = turnouts.find(({ fromMm, toMm }) => isAt(fromMm, atMm) || isAt(toMm, atMm))
      const offMm = turnout ? (perMm / 2) * (turnout.toMm - turnout.fromMm) : 0
      const isWhole = (atEnd && !closed) || turnout !== undefined
      return { keptMm: (isWhole ? keptMm : keptMm / 2) + offMm, free: atEnd && !joint }
    }
    const [start, end] = [endOfRun(startMm), endOfRun(startMm + lengthMm)]
    return {
      openPerMm: perMm,
      keptMm: { start: start.keptMm, end: end.keptMm },
      free: { start: start.free, end: end.free },
      longestMm,
    }
  }
}

/** Joints for the answer; gaps are null where they are not known. */
export function jointAnswers(
  joints: readonly RailJoint[],
  gaps: readonly Gap[] | null,
  laid: readonly LaidTrack[],
): JointAnswer[] {
  return joints.map(({ track, rail, atMm, stationMm, kind }, index) => {
    const gap = gaps?.[index]
    return {
      track: laid[track]!.name,
      rail,
      atMm,
      stationMm,
      kind,
      gapMm: gap?.gapMm ?? null,
      gapInch64: gap ? formatFeetInches(gap.gapMm, GAP_STEPS) : null,
      gapColdestMm: gap?.gapColdestMm ?? null,
      gapHottestMm: gap?.gapHottestMm ?? null,
    }
  })
}

/** The expansion of a plan's rails between the coldest and the hottest; null where the plan has no climate. */
export function expansionAnswer(plan: Plan, laid: readonly LaidTrack[]): ExpansionAnswer | null {
  const { climate, joints, metal, section } = plan
  if (!climate) return null
  const { layingC, coldestC, hottestC } = railTemperatures(climate)
  const alpha = metal.expansionPerK
  const rangeK = hottestC - coldestC
  const heatingK = Math.max(0, hottestC - layingC)
  const coolingK = Math.max(0, layingC - coldestC)
  const clamped = joints.kind === 'clamped'
  const stress = (riseK: number) =>
    alpha === null ? null : heldStressMpa(metal.nominal.youngsModulusMpa, alpha, riseK)
  const force = (stressMpa: number | null) => (stressMpa === null ? null : stressMpa * section.properties.areaMm2)
  const [hotMpa, coldMpa] = [stress(heatingK), stress(coolingK)]
  const limitMm = clamped ? joints.expansionJointLimit : joints.gapLimit
  const longestLengthMm = alpha === null || joints.held ? null : longestFor(alpha, limitMm, rangeK)
  const floats = clamped && !joints.held && alpha !== null
  return {
    joints: joints.kind,
    held: joints.held,
    layingC,
    coldestC,
    hottestC,
    expansionPerK: alpha,
    growthPerMetreMm: alpha === null ? null : growthMm(alpha, 1000, rangeK),
    gapLimitMm: joints.gapLimit,
    expansionJointLimitMm: joints.expansionJointLimit,
    longestLengthMm,
    heldStressHottestMpa: hotMpa,
    heldStressColdestMpa: coldMpa,
    heldForceHottestN: force(hotMpa),
    heldForceColdestN: force(coldMpa),
    bucklingLengthMm: alpha === null ? null : bucklingLengthMm(section.properties, alpha, heatingK),
    lengths: floats
      ? laid.flatMap((track) =>
          clampedLengths(track, longestLengthMm).map((length) => ({
            track: track.name,
            ...length,
            growthMm: growthMm(alpha, Math.max(length.leftMm, length.rightMm), rangeK),
          })),
        )
      : [],
    breathing: floats
      ? laid.flatMap(({ name, placed }) =>
          placed
            .filter(({ kind }) => kind === 'arc')
            .map(({ index, startCurvature }) => {
              const radiusMm = 1 / Math.abs(startCurvature)
              return {
                track: name,
                element: index,
                radiusMm,
                outwardMm: breathingMm(alpha, radiusMm, heatingK),
                inwardMm: breathingMm(alpha, radiusMm, coolingK),
              }
            }),
        )
      : [],
  }
}
