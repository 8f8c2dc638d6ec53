import { joinFindings } from '../../checking/at-joins.ts'
import { averagedGradeFindings } from '../../checking/averaged-grade.ts'
import type { Rule } from '../../checking/checked-track.ts'
import type { Finding } from '../../checking/finding.ts'
import { foulingFindings } from '../../checking/fouling.ts'
import { heightStepFindings } from '../../checking/height-step.ts'
import { notChecked } from '../../checking/not-checked.ts'
import { obstacleFindings } from '../../checking/obstacles.ts'
import { overCrossingFindings } from '../../checking/over-crossing.ts'
import { polarityFindings } from '../../checking/polarity.ts'
import { reverseAcross } from '../../checking/reverse-across.ts'
import { RULES } from '../../checking/rules.ts'
import { selfCrossings } from '../../checking/self-crossing.ts'
import { trackSpacingFindings } from '../../checking/track-spacing.ts'
import { trainFindings, trainsNotChecked } from '../../checking/trains.ts'
import { turnoutSpacing } from '../../checking/turnout-spacing.ts'
import { verticalCurveFindings } from '../../checking/vertical-curve.ts'
import { WEATHER_SHARE } from '../../hauling/train.ts'
import { heightSteps } from '../../network/height-steps.ts'
import { networkOf } from '../../network/network.ts'
import type { StoodOn } from '../../network/train-ways.ts'
import type { Plan } from '../plan.ts'
import { besideOfPlan } from '../track/beside-of-plan.ts'
import { bridgeMm, clearanceMm, crossingsOfPlan, deckMm } from '../track/crossings-of-plan.ts'
import { joinsToCheck, type TrackToJoin } from '../track/joins.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import { standingOfPlan } from '../track/standing-of-plan.ts'
import { averagedTooSteep } from '../trains/averaged-grade.ts'
import { checkedTrain, haulsOfPlan } from '../trains/hauls.ts'

/**
 * The rules for the line itself, before anything is cut or bent. Existing track is also checked against them; lifted
 * track is not.
 */
export function checkLine(
  drawn: readonly LaidTrack[],
  plan: Plan,
  joins: readonly TrackToJoin[],
  rules: readonly Rule[] = RULES,
): Finding[] {
  const { standards, gauge: gaugeMm, metal } = plan
  const tracks = drawn
    .filter(({ state }) => state !== 'lifted')
    .map((track) => ({ ...track, gaugeMm, cars: plan.fleet.cars }))
  const ofTracks = tracks.flatMap((track) => rules.flatMap((rule) => rule(track, standards)))
  return [
    ...ofTracks,
    ...heightStepFindings(
      heightSteps(drawn, standards.closureGap, standards.closureHeading),
      drawn,
      standards.closureGap,
    ),
    ...selfCrossings(crossingsOfPlan(drawn, plan), tracks.length > 1, {
      clearanceMm: clearanceMm(plan),
      bridgeMm: bridgeMm(plan),
    }),
    ...joinFindings(joinsToCheck(joins, drawn, plan), metal, standards.minimumTangentBetweenReverseCurves, {
      cars: plan.fleet.cars,
      maximumCouplerOffsetMm: standards.maximumCouplerOffset,
    }),
    ...networkFindings(drawn, plan),
    ...roomFindings(drawn, plan),
    ...gradeFindings(drawn, plan),
    ...averagedGradeFindings(averagedTooSteep(drawn, plan).filter(({ under }) => !isTooSteep(under, ofTracks, drawn))),
    ...notChecked(standards),
  ]
}

/** Where a grade itself is too steep, what it is on average is not found as well. */
function isTooSteep(under: readonly StoodOn[], findings: readonly Finding[], drawn: readonly LaidTrack[]): boolean {
  return findings.some(
    ({ rule, track: name }) => rule === 'maximum-grade' && under.some(({ track }) => drawn[track]!.name === name),
  )
}

/** What takes all tracks together to see. */
function networkFindings(drawn: readonly LaidTrack[], plan: Plan): Finding[] {
  const { standards, power, fleet } = plan
  const { minimumTangentBetweenReverseCurves: limitMm, longestCar } = standards
  const standing = standingOfPlan(drawn, plan)
  const powered = power !== null && power !== 'none'
  if (limitMm === null && longestCar === null && !powered && !standing) return []
  const network = networkOf(drawn, standards)
  return [
    ...(limitMm === null ? [] : reverseAcross(network, limitMm, fleet.cars, standards.maximumCouplerOffset)),
    ...(longestCar === null ? [] : turnoutSpacing(network, longestCar)),
    ...(standing ? foulingFindings(standing.network, standing.room, standing.stock) : []),
    ...(powered ? polarityFindings(network) : []),
  ]
}

/** What takes the cars and trains of the plan to see on its grades. */
function gradeFindings(drawn: readonly LaidTrack[], plan: Plan): Finding[] {
  const { hauls, unknown } = haulsOfPlan(drawn, plan)
  const { couplerHeightDifference } = plan.standards
  const cars = plan.cars.map(({ undersideHeight: undersideMm, name, length, truckCentres, couplerLength }) => {
    return { name, lengthMm: length, truckCentresMm: truckCentres, couplerMm: couplerLength, undersideMm }
  })
  const isChecked = couplerHeightDifference !== null || cars.some(({ undersideMm }) => undersideMm !== null)
  const tracks = drawn.filter(({ state }) => state !== 'lifted')
  return [
    ...(isChecked ? verticalCurveFindings(tracks, cars, couplerHeightDifference) : []),
    ...trainFindings(
      hauls.map((haul) => checkedTrain(haul, drawn)),
      WEATHER_SHARE,
    ),
    ...trainsNotChecked(unknown),
  ]
}

/** What takes the room of the cars to see. */
function roomFindings(drawn: readonly LaidTrack[], plan: Plan): Finding[] {
  const { bridges } = crossingsOfPlan(drawn, plan)
  const clearance = clearanceMm(plan)
  const ofBridges = overCrossingFindings(bridges, drawn, {
    clearanceMm: clearance,
    isGiven: plan.standards.clearance !== null || plan.cars.some(({ height }) => height !== null),
    deckMm: deckMm(plan),
    maximumGradePct: plan.standards.maximumGradePct,
  })
  const hasObstacles = plan.obstacles.length > 0 || plan.outline.length > 0
  if (!hasObstacles && plan.cars.length === 0) return ofBridges
  const { obstacles, tracks } = besideOfPlan(drawn, plan)
  return [
    ...(!hasObstacles
      ? []
      : obstacleFindings(drawn, obstacles, { hasCars: plan.cars.length > 0, hasOutline: plan.outline.length > 0 })),
    ...trackSpacingFindings(tracks, plan.tracks),
    ...ofBridges,
  ]
}
