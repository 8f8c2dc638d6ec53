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
    gauge: plan.gauge,
    rail: toRail(plan.rail),
    tracks: plan.tracks.map(toTrack),
    supplies: plan.supplies && toSupplies(plan.supplies),
    standards: plan.standards && toStandards(plan.standards),
    chords: plan.chords,
    bender: plan.bender && toBender(plan.bender),
    climate: plan.climate && toClimate(plan.climate),
    joints: plan.joints && toJoints(plan.joints),
    resolution: plan.resolution,
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
    start: start && { x: start.x, y: start.y, heading: start.heading, elevation: start.elevation },
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
  return { section, material, radius: radius, turn }
}

export function toElement(element: z.output<typeof wire.Element>): Element {
  if (element.kind !== 'arc') return { kind: element.kind, length: element.length, label: element.label }
  const { radius, diameter, angle, length, turn, label } = element
  return {
    kind: 'arc',
    radius: radius ?? diameter! / 2,
    angle,
    length,
    turn,
    label,
  }
}

export function toGradePoint({ at, elevation }: z.output<typeof wire.GradePoint>): GradePoint {
  return { at: at, elevation: elevation }
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
    kerf: kerf,
    minimumPiece: minimumPiece,
  }
}

export function toStick({ length, price, packSize, onHand, buyable }: z.output<typeof wire.Stick>): StickInput {
  return { length: length, price, packSize, onHand, buyable }
}

function toStandards(standards: z.output<typeof wire.Standards>): StandardsInput {
  return {
    minimumRadius: standards.minimumRadius,
    maximumGradePct: standards.maximumGradePct,
    longestCar: standards.longestCar,
    minimumTangentBetweenReverseCurves: standards.minimumTangentBetweenReverseCurves,
    closureGap: standards.closureGap,
    closureHeading: standards.closureHeading,
  }
}
