import { SECTIONS } from '../../catalogue/sections.ts'
import type { ElementAnswer, Estimate, TrackAnswer } from '../../estimate/answer.ts'
import { toRadians } from '../../measure/angle.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import { USUAL } from '../../plan/usual.ts'
import type { Point } from '../../track/sample.ts'
import { NO_SPECIAL_TRACK, type SpecialTrack, specialTrackOf } from '../../track/turnout/special-track.ts'
import type { PlacedElement } from '../../track/types.ts'
import { bridgesToDraw } from './bridge-marks.ts'
import type { PlanToDraw, StretchToDraw } from './drawn-plan.ts'
import { obstaclesToDraw, sweptOutline } from './room-to-draw.ts'
import { placedTurnout, poseOf, turnoutsToDraw } from './turnouts-to-draw.ts'

/** What the drawing of a plan needs: its tracks where the estimate says they lie. */
export function planToDraw(plan: PlanInput, estimate: Estimate): PlanToDraw {
  const special = specialTrackIn(plan)
  const { gaugeMm } = special
  const tracks = estimate.tracks.map((track, index) => {
    const { joinsExisting, closed = false } = plan.tracks[index]!
    return {
      name: track.name,
      closed,
      state: track.state,
      joinsExisting: { start: Boolean(joinsExisting?.start), end: Boolean(joinsExisting?.end) },
      placed: placedElements(track, closed, special),
      turnouts: turnoutsToDraw(track, special),
      tieSpacingMm: track.tieSpacingMm,
      readyMade: stretchesOf(track.name, estimate),
    }
  })
  return {
    title: estimate.title,
    gaugeMm,
    headWidthMm: headWidthMm(plan.rail.section),
    fouling: estimate.foulingPoints ?? [],
    swept: sweptOutlines(plan, estimate, special),
    obstacles: obstaclesToDraw(plan),
    outline: (plan.outline ?? []).map(({ x, y }) => ({ xMm: x, yMm: y })),
    pegs: estimate.pegs ?? [],
    bridges: bridgesToDraw(tracks, estimate),
    tracks,
  }
}

function sweptOutlines(plan: PlanInput, { tracks, envelope = [] }: Estimate, special: SpecialTrack): Point[][] {
  return tracks.flatMap((track, index) => {
    const own = envelope.filter((row) => row.track === track.name)
    return own.length === 0
      ? []
      : [sweptOutline(placedElements(track, plan.tracks[index]!.closed ?? false, special), own)]
  })
}

/** The geometry of a plan's kinds of turnout. */
export function specialTrackIn({ gauge, turnoutTypes = [] }: Pick<PlanInput, 'gauge' | 'turnoutTypes'>): SpecialTrack {
  return specialTrackOf(turnoutTypes, gauge ?? USUAL.gauge)
}

/** The width of a rail's head, as its section is given. */
export function headWidthMm(section: PlanInput['rail']['section']): number {
  if (typeof section === 'string') return SECTIONS.find(({ id }) => id === section)!.headWidthMm
  return 'rectangles' in section ? section.rectangles.at(-1)!.width : section.headWidth
}

/** The elements of a track as they were placed, from their poses, radii and turns in the answer. */
export function placedElements(
  { elements }: TrackAnswer,
  closed: boolean,
  special: SpecialTrack = NO_SPECIAL_TRACK,
): PlacedElement[] {
  const last = elements.length - 1
  return elements.map((element, index) => {
    const { kind, label, fromMm, toMm, lengthMm, angleDeg, turn, start, end } = element
    const before = elements[index === 0 && closed ? last : index - 1]
    const after = elements[index === last && closed ? 0 : index + 1]
    if (element.turnout) return placedTurnout(element, element.turnout, special)
    const turned = kind === 'arc' && turn === 'right' ? -angleDeg : angleDeg
    return {
      ...{ index, kind, label, fromMm, toMm, lengthMm },
      startCurvature: kind === 'easement' ? arcCurvature(before) : arcCurvature(element),
      endCurvature: kind === 'easement' ? arcCurvature(after) : arcCurvature(element),
      turnedRad: toRadians(turned),
      start: poseOf(start),
      end: poseOf(end),
    }
  })
}

/** The curvature of an arc, left positive; 0 for anything else and where there is nothing. */
function arcCurvature(element: ElementAnswer | undefined): number {
  if (element?.radiusMm == null) return 0
  return (element.turn === 'right' ? -1 : 1) / element.radiusMm
}

function stretchesOf(track: string, { readyMade }: Estimate): StretchToDraw[] {
  const own = readyMade?.stretches.filter((stretch) => stretch.track === track) ?? []
  return own.map(({ element, fromMm, toMm, pieces }) => ({
    ...{ element, fromMm, toMm },
    endsMm: [fromMm, ...pieces.map((piece) => piece.toMm)],
  }))
}
