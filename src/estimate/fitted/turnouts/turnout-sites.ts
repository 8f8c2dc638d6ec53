import type { Beyond } from '../../../fitting/paths.ts'
import type { WholeTrack } from '../../../plan/rows/track.ts'
import { placeElements, poseOn } from '../../../track/place.ts'
import { turnoutEnds } from '../../../track/turnout/special-track.ts'
import type { Leg, TurnoutGeometry } from '../../../track/turnout/types.ts'
import type { PlacedElement, Pose } from '../../../track/types.ts'
import type { Plan } from '../../plan.ts'
import { poseOf } from '../places.ts'

/** A straight that a kind of turnout may be put into, either way round. */
export interface TurnoutSite {
  readonly track: number
  readonly element: number
  readonly type: string
  readonly enters: 'points' | 'through'
  /** How far from the start of the straight it can begin at most. */
  readonly mostMm: number
  readonly lengthMm: number
  readonly straightMm: number
  /** Of the straight. */
  readonly label: string | undefined
  /** The end of its diverging leg, facing out of it, where it begins so far from the start of the straight. */
  legAt(mm: number): Pose
  /** The leg, as seen from beyond it by a path that leaves it. */
  readonly leg: Beyond
}

/** An end this close to a straight is meant to leave it there. */
const NEAR_MM = 100
/** Straights of this many tracks at an end: where tracks lie closer than that, the nearest. */
const MOST_STRAIGHTS = 2

/** Why no turnout can be put in at an end that lies on a straight. */
export type NoSite = 'none-near' | 'none-on-hand' | 'too-short'

/**
 * The ways to put a turnout into a straight at a place, so that its diverging leg leads away roughly as the place faces.
 *
 * @param free how many of each kind are on hand, beyond those in the plan
 * @param tracks those that may be changed
 */
export function sitesAt(
  place: Pose,
  tracks: readonly number[],
  free: ReadonlyMap<string, number>,
  plan: Plan,
): readonly TurnoutSite[] | NoSite {
  const straights = tracks
    .flatMap((track) => straightsOf(plan.tracks[track]!, plan).map((element) => ({ track, element })))
    .map((each) => ({ ...each, apartMm: distanceTo(each.element, place) }))
    .filter(({ apartMm }) => apartMm <= NEAR_MM)
    .toSorted((a, b) => a.apartMm - b.apartMm)
    .slice(0, MOST_STRAIGHTS)
  if (straights.length === 0) return 'none-near'
  const kinds = [...plan.special.turnouts].filter(([id, geometry]) => (free.get(id) ?? 0) > 0 && isStraight(geometry))
  if (kinds.length === 0) return 'none-on-hand'
  const sites = straights.flatMap(({ track, element }) =>
    kinds.flatMap(([type, geometry]) =>
      (['points', 'through'] as const)
        .map((enters) => siteOf(track, element, type, geometry, enters))
        .filter(({ mostMm, legAt }) => mostMm >= 0 && Math.cos(legAt(0).headingRad - place.headingRad) > 1e-9),
    ),
  )
  return sites.length === 0 ? 'too-short' : sites
}

function straightsOf({ start, elements, closed }: WholeTrack, { special }: Plan): PlacedElement[] {
  return placeElements(poseOf(start), elements, closed, special).filter(({ kind }) => kind === 'tangent')
}

function distanceTo({ start, lengthMm }: PlacedElement, { xMm, yMm }: Pose): number {
  const [x, y] = [xMm - start.xMm, yMm - start.yMm]
  const [cos, sin] = [Math.cos(start.headingRad), Math.sin(start.headingRad)]
  const along = x * cos + y * sin
  return Math.hypot(along - Math.min(lengthMm, Math.max(0, along)), y * cos - x * sin)
}

/** Whether its through leg can take the place of a straight. */
function isStraight({ legs: { through } }: TurnoutGeometry): boolean {
  return through.pieces.every(({ startCurvature, turnedRad }) => startCurvature === 0 && turnedRad === 0)
}

function siteOf(
  track: number,
  element: PlacedElement,
  type: string,
  geometry: TurnoutGeometry,
  enters: TurnoutSite['enters'],
): TurnoutSite {
  const { through, diverging } = geometry.legs
  return {
    ...{ track, element: element.index, type, enters },
    mostMm: element.lengthMm - through.lengthMm,
    lengthMm: through.lengthMm,
    straightMm: element.lengthMm,
    label: element.label ?? undefined,
    legAt: (mm) => turnoutEnds(geometry, enters, poseOn(element, element.fromMm + mm)).diverging,
    leg: beyondLeg(diverging),
  }
}

/** The last curve of a leg, and the straight after it. */
function beyondLeg({ pieces }: Leg): Beyond {
  let straightMm = 0
  for (const { lengthMm, endCurvature } of pieces.toReversed()) {
    if (endCurvature !== 0) return { curvature: endCurvature, straightMm, hasEasement: false }
    straightMm += lengthMm
  }
  return { curvature: 0, straightMm, hasEasement: false }
}

/** How many of each kind of turnout are on hand beyond those that the plan has. */
export function freeTurnouts({ turnoutTypes, tracks }: Plan): Map<string, number> {
  const used = tracks.flatMap(({ elements }) =>
    elements.flatMap((each) => (each.kind === 'turnout' ? [each.type] : [])),
  )
  return new Map(turnoutTypes.map(({ id, onHand }) => [id, (onHand ?? 0) - used.filter((type) => type === id).length]))
}
