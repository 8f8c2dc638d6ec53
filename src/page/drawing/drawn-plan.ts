import { signedRailOffsetMm } from '../../track/rails.ts'
import { type Point, sampleLine } from '../../track/sample.ts'
import type { PlacedElement, Pose } from '../../track/types.ts'
import { type Bounds, boundsOf, type Spot, type View, viewOf } from './view.ts'

/** A track to draw: its placed elements and its ends. */
export interface TrackToDraw {
  readonly name: string
  readonly closed: boolean
  /** New if omitted. */
  readonly state?: 'new' | 'existing' | 'lifted'
  readonly joinsExisting: { readonly start: boolean; readonly end: boolean }
  readonly placed: readonly PlacedElement[]
  readonly tieSpacingMm: number
  /** Stretches of ready-made pieces, as stations; none if omitted. */
  readonly readyMade?: readonly StretchToDraw[]
  /** None if omitted. */
  readonly turnouts?: readonly TurnoutToDraw[]
}

/** What is drawn of a turnout beside the leg that its track runs along. */
export interface TurnoutToDraw {
  readonly name: string
  /** The other leg, from the points. */
  readonly otherLeg: readonly PlacedElement[]
  readonly points: Pose
  readonly frog: Point
}

/** A stretch of one element that ready-made pieces cover. */
export interface StretchToDraw {
  readonly element: number
  readonly fromMm: number
  readonly toMm: number
  /** The ends of its pieces, including the ends of the stretch. */
  readonly endsMm: readonly number[]
}

export interface PlanToDraw {
  readonly title: string | null
  readonly gaugeMm: number
  readonly headWidthMm: number
  readonly tracks: readonly TrackToDraw[]
  /** Fouling points; none if omitted. */
  readonly fouling?: readonly Point[]
  /** The room of the cars along tracks, as outlines; none if omitted. */
  readonly swept?: readonly (readonly Point[])[]
  /** None if omitted. */
  readonly obstacles?: readonly ObstacleToDraw[]
  /** The edge of the garden; none if omitted. */
  readonly outline?: readonly Point[]
  /** None if omitted. */
  readonly pegs?: readonly PegToDraw[]
  /** None if omitted. */
  readonly bridges?: readonly BridgeToDraw[]
}

/** Poses of the upper track from one abutment to the other. */
export interface BridgeToDraw {
  readonly poses: readonly Pose[]
}

export interface PegToDraw extends Point {
  readonly name: string
}

export interface ObstacleToDraw {
  readonly name: string
  readonly outline: readonly Point[]
}

/** A track's lines on the drawing. */
export interface DrawnTrack {
  readonly track: TrackToDraw
  readonly centre: readonly Spot[]
  readonly rails: { readonly left: readonly Spot[]; readonly right: readonly Spot[] }
  readonly otherLegs: readonly Lines<Spot>[]
}

/** The largest error of a drawn line, in drawing units. */
const ERROR = 0.12

/**
 * All lines of a plan on a drawing to scale; null if there is no track to draw. They are sampled twice: coarsely to find
 * the scale, then as finely as that scale can show.
 *
 * @param given a view of one's own; one that shows everything if omitted
 */
export function drawnPlan(plan: PlanToDraw, given?: View): { view: View; tracks: readonly DrawnTrack[] } | null {
  const bounds = boundsOfPlan(plan)
  if (!bounds) return null
  const view = given ?? viewOf(bounds)
  const tracks = plan.tracks.map((track) => {
    const lines = linesOf(plan, track, ERROR / view.scale)
    return {
      track,
      centre: lines.centre.map(view.spotOf),
      rails: { left: lines.left.map(view.spotOf), right: lines.right.map(view.spotOf) },
      otherLegs: otherLegs(track).map((leg) => {
        const { centre, left, right } = linesOf(plan, leg, ERROR / view.scale)
        return { centre: centre.map(view.spotOf), left: left.map(view.spotOf), right: right.map(view.spotOf) }
      }),
    }
  })
  return { view, tracks }
}

/** The bounding box of all rails and obstacles of a plan; null if there is no track. */
export function boundsOfPlan(plan: PlanToDraw): Bounds | null {
  const lengthMm = plan.tracks.reduce((sum, { placed }) => sum + (placed.at(-1)?.toMm ?? 0), 0)
  if (!(lengthMm > 0)) return null
  const coarse = plan.tracks.flatMap((track) =>
    [track, ...otherLegs(track)].flatMap((each) => Object.values(linesOf(plan, each, lengthMm / 5000))),
  )
  const around = [
    ...(plan.obstacles ?? []).map(({ outline }) => outline),
    ...(plan.outline?.length ? [plan.outline] : []),
    ...(plan.pegs?.length ? [plan.pegs] : []),
  ]
  return boundsOf([...coarse, ...around])
}

function otherLegs({ turnouts = [] }: TrackToDraw): { placed: readonly PlacedElement[] }[] {
  return turnouts.map(({ otherLeg: placed }) => ({ placed }))
}

type Lines<P = Point> = Readonly<Record<'centre' | 'left' | 'right', readonly P[]>>

function linesOf(
  { gaugeMm, headWidthMm }: PlanToDraw,
  { placed }: Pick<TrackToDraw, 'placed'>,
  errorMm: number,
): Lines {
  const along = (offsetMm: number) => sampleLine(placed, offsetMm, errorMm).points
  return {
    centre: along(0),
    left: along(signedRailOffsetMm('left', gaugeMm, headWidthMm)),
    right: along(signedRailOffsetMm('right', gaugeMm, headWidthMm)),
  }
}
