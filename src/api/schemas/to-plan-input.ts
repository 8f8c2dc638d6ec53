import type { z } from '@hono/zod-openapi'
import type {
  ExistingEnd,
  GradePoint,
  PlanInput,
  StandardsInput,
  StickInput,
  SuppliesInput,
  TrackInput,
} from '../../estimate/plan.ts'
import type { Element } from '../../track/types.ts'
import { toBreak, toClimate, toJoints, toKeepOut } from './joints.ts'
import type * as wire from './plan.ts'
import { toBender, toRail } from './rail.ts'
import { toPanel } from './ready-made.ts'
import { toExtra, toPack, toPower, toRoadbed, toTies } from './way.ts'

/*
 * From the wire's names to the program's. Values are in the program's units already (the leaves of the schema read
 * them), except angles, which the geometry wants in radians.
 */

export function toPlanInput(plan: z.output<typeof wire.PlanSchema>): PlanInput {
  return {
    title: plan.title,
    gaugeMm: plan.gauge,
    rail: toRail(plan.rail),
    tracks: plan.tracks.map(toTrack),
    supplies: plan.supplies && toSupplies(plan.supplies),
    standards: plan.standards && toStandards(plan.standards),
    chordsMm: plan.chords,
    bender: plan.bender && toBender(plan.bender),
    climate: plan.climate && toClimate(plan.climate),
    joints: plan.joints && toJoints(plan.joints),
    resolutionMm: plan.resolution,
    roadbed: plan.roadbed && toRoadbed(plan.roadbed),
    power: plan.power && toPower(plan.power),
    extras: plan.extras?.map(toExtra),
    effort: plan.effort,
  }
}

function toTrack({
  name,
  label,
  start,
  closed,
  state,
  joinsExisting,
  gradeLine,
  breaks,
  keepOut,
  elements,
}: z.output<typeof wire.Track>): TrackInput {
  return {
    name,
    label,
    start: start && { xMm: start.x, yMm: start.y, headingDeg: start.heading, elevationMm: start.elevation },
    closed,
    state,
    joinsExisting: joinsExisting && { start: toJoinedEnd(joinsExisting.start), end: toJoinedEnd(joinsExisting.end) },
    gradeLine: gradeLine?.map(toGradePoint),
    breaks: breaks?.map(toBreak),
    keepOut: keepOut?.map(toKeepOut),
    elements: elements.map(toElement),
  }
}

export function toJoinedEnd(end: z.output<typeof wire.JoinedEnd> | undefined): boolean | ExistingEnd | undefined {
  if (typeof end !== 'object') return end
  const { section, material, radius, turn } = end
  return { section, material, radiusMm: radius, turn }
}

export function toElement(element: z.output<typeof wire.Element>): Element {
  if (element.kind !== 'arc') return { kind: element.kind, lengthMm: element.length, label: element.label }
  const { radius, diameter, angle, length, turn, label } = element
  return {
    kind: 'arc',
    radiusMm: radius ?? diameter! / 2,
    size: angle === undefined ? { lengthMm: length! } : { angleRad: (angle * Math.PI) / 180 },
    turn,
    label,
  }
}

export function toGradePoint({ at, elevation }: z.output<typeof wire.GradePoint>): GradePoint {
  return { atMm: at, elevationMm: elevation }
}

function toSupplies(supplies: z.output<typeof wire.Supplies>): SuppliesInput {
  const {
    currency,
    taxRatePct,
    sticks,
    panels,
    readyMade,
    joiners,
    transitionJoiners,
    ties,
    fasteners,
    insulatedJoiners,
    expansionJoints,
    kerf,
    minimumPiece,
  } = supplies
  return {
    currency,
    taxRatePct,
    sticks: sticks?.map(toStick),
    panels: panels?.map(toPanel),
    readyMade,
    joiners: joiners && toPack(joiners),
    transitionJoiners: transitionJoiners && toPack(transitionJoiners),
    ties: ties && toTies(ties),
    fasteners: fasteners && toPack(fasteners),
    insulatedJoiners: insulatedJoiners && toPack(insulatedJoiners),
    expansionJoints: expansionJoints && toPack(expansionJoints),
    kerfMm: kerf,
    minimumPieceMm: minimumPiece,
  }
}

export function toStick({ length, price, packSize, onHand, buyable }: z.output<typeof wire.Stick>): StickInput {
  return { lengthMm: length, price, packSize, onHand, buyable }
}

function toStandards(standards: z.output<typeof wire.Standards>): StandardsInput {
  return {
    minimumRadiusMm: standards.minimumRadius,
    maximumGradePct: standards.maximumGradePct,
    longestCarMm: standards.longestCar,
    minimumTangentBetweenReverseCurvesMm: standards.minimumTangentBetweenReverseCurves,
    closureGapMm: standards.closureGap,
    closureHeadingDeg: standards.closureHeading,
  }
}
