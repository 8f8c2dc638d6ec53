import { QUICK_RULES } from '../../checking/rules.ts'
import { tolerancesOf } from '../../fitting/closings.ts'
import type { Fault } from '../../measure/fault.ts'
import { touchedOn } from '../../network/touched.ts'
import { completeTrack } from '../../plan/completing/track.ts'
import { hasUnknowns } from '../../plan/faults/unknowns.ts'
import { SILENT } from '../../plan/fields/complete.ts'
import type { PlanAsSent, PlanInput } from '../../plan/rows/plan.ts'
import type { Connect, ElementInput, TrackInput } from '../../plan/rows/track.ts'
import { poseOn } from '../../track/place.ts'
import type { Pose } from '../../track/types.ts'
import { type Plan, preparePlan } from '../plan.ts'
import { checkLine } from '../stages/check-line.ts'
import { type LaidTrack, layTrack } from '../track/laid-track.ts'
import { placedObstacles, roomOfPlan } from '../track/room-of-plan.ts'
import { placesBeside, reachOf } from './around.ts'
import { aroundSeveral } from './around-several.ts'
import { type ConnectOption, connectBy, connectOptions } from './connect.ts'
import { type Fitted, fitUnknowns } from './fit-unknowns.ts'
import { circularFault, placeOf, type TrackPlace, tracksNeeded } from './places.ts'
import { type TrackToFit, trackToFit } from './track-to-fit.ts'

/** A plan with everything worked out. */
export interface FittedPlan {
  readonly plan: PlanInput
  /** The ways its connections can be made, the one in the plan among them. */
  readonly connections: readonly Connection[]
}

export interface Connection {
  /** Of its track. */
  readonly track: number
  readonly options: readonly ConnectOption[]
  readonly chosen: ConnectOption
}

/** Whether nothing of a plan is left to be worked out. */
export function isFitted(plan: PlanAsSent): plan is PlanAsSent & PlanInput {
  return !plan.tracks.some(hasUnknowns)
}

/**
 * Works out what a plan leaves open: lengths and angles that bring the end of a track to where it must be, and
 * connections. A track comes after those that give it its place. Of a connection the shortest way is taken whose track has no
 * finding above a note by itself; where every way has some, the one with the fewest of the gravest.
 *
 * @param plan one whose fields and tracks have no faults but for what is open (see `readPlan`)
 */
export function fitPlan(plan: PlanAsSent): { ok: true; fitted: FittedPlan } | { ok: false; faults: Fault[] } {
  const fitting = new Fitting(plan)
  for (const index of plan.tracks.keys()) fitting.track(index)
  if (fitting.faults.length > 0) return { ok: false, faults: fitting.faults }
  const tracks = plan.tracks.map((_, index) => fitting.track(index)!)
  return { ok: true, fitted: { plan: { ...plan, tracks }, connections: fitting.connections } }
}

class Fitting {
  readonly faults: Fault[] = []
  readonly connections: Connection[] = []
  private readonly done = new Map<number, TrackInput | null>()
  private readonly underWay = new Set<number>()
  private readonly budget = { looks: MOST_LOOKS }
  private readonly tracks: PlanAsSent['tracks']
  /** Without its tracks. */
  private readonly plan: Plan

  constructor(plan: PlanAsSent) {
    this.tracks = plan.tracks
    this.plan = preparePlan({ ...plan, tracks: [] }).plan
  }

  /** The track with everything worked out; null where that fails, which is then a fault. */
  track(index: number): TrackInput | null {
    const there = this.done.get(index)
    if (there !== undefined) return there
    const track = this.tracks[index]!
    if (!hasUnknowns(track)) return this.finished(index, track as TrackInput)
    const circular = circularFault(this.tracks, index)
    if (circular) return this.failed(index, circular)
    const others = tracksNeeded(this.tracks, index).filter((other) => other !== index)
    const circle = others.find((other) => this.underWay.has(other))
    if (circle !== undefined) return this.failed(index, this.together(index, circle))
    this.underWay.add(index)
    const hasAll = others.every((other) => this.track(other) !== null)
    this.underWay.delete(index)
    // What is wrong with another track is reported there.
    if (!hasAll) return this.finished(index, null)
    const place = placeOf(this.tracks, index, (other) => this.track(other)!, this.plan.special)
    const elements = this.elementsOf(index, place)
    return elements.ok
      ? this.finished(index, { ...track, elements: elements.fitted })
      : this.failed(index, elements.fault)
  }

  private finished(index: number, track: TrackInput | null): TrackInput | null {
    this.done.set(index, track)
    return track
  }

  private failed(index: number, fault: Fault): null {
    this.faults.push(fault)
    this.done.set(index, null)
    return null
  }

  private together(index: number, other: number): Fault {
    const [own, its] = [this.tracks[index]!.name, this.tracks[other]!.name]
    return {
      path: ['tracks', index, 'end'],
      code: 'cannot-fit',
      detail: `what is left open in "${own}" depends on "${its}", and what is left open there on "${own}"`,
      hint: 'give the lengths and angles of one of them, or the place of its end with at',
    }
  }

  private elementsOf(index: number, place: TrackPlace): Fitted<readonly ElementInput[]> {
    const { elements, closed = false } = this.tracks[index]!
    const { start, goal } = place
    const track = trackToFit({ index, elements, closed, start, goal }, this.plan.special)
    const { standards } = this.plan
    if (!elements.some(({ kind }) => kind === 'connect')) {
      const { gapMm, headingRad } = tolerancesOf(standards)
      return fitUnknowns(track, { mm: gapMm, rad: headingRad })
    }
    const { minimumTangentBetweenReverseCurves, minimumRadius } = standards
    const kept = { reverseMm: minimumTangentBetweenReverseCurves ?? 0, radiusMm: minimumRadius ?? 0 }
    const found = connectOptions(track, kept)
    if (!found.ok) return found
    const direct = this.best(found.fitted, index, place)
    const around = this.around(direct, track, index, place)
    const options = distinct([...found.fitted, ...around])
    const chosen = around.length === 0 ? direct : this.best(options, index, place)
    this.connections.push({ track: index, options, chosen })
    return { ok: true, fitted: chosen.elements }
  }

  /** Where even the best of the direct ways runs into something: ways round it that do not. */
  private around(direct: ConnectOption, track: TrackToFit, index: number, place: TrackPlace): ConnectOption[] {
    const { obstacles, cars, standards } = this.plan
    if (obstacles.length === 0 || cars.length === 0) return []
    const laid = this.laidWith(direct, index, place)
    const touched = this.touchedBy(laid)
    if (touched.length === 0) return []
    const { minimumRadius } = track.elements.find(({ kind }) => kind === 'connect') as Connect
    const places = placesBeside(
      touched,
      { start: laid.start, end: laid.end, poseAt: poseOnTrack(laid) },
      this.plan,
      minimumRadius,
    )
    const reverseMm = standards.minimumTangentBetweenReverseCurves ?? 0
    const clear = connectBy(places, track, reverseMm).filter(
      (option) => this.budget.looks-- > 0 && this.touchedBy(this.laidWith(option, index, place)).length === 0,
    )
    if (clear.length > 0) return clear
    const look = (option: ConnectOption) => {
      const way = this.laidWith(option, index, place)
      return { touched: this.touchedBy(way), poseAt: poseOnTrack(way) }
    }
    return aroundSeveral(track, { reverseMm, reachMm: reachOf(cars, minimumRadius), look, budget: this.budget })
  }

  /** The obstacles that cars touch on this track alone. */
  private touchedBy(laid: LaidTrack): ReturnType<typeof touchedOn>['touched'] {
    const { lines, railAt } = roomOfPlan([laid], this.plan)
    return touchedOn(lines, placedObstacles(this.plan), railAt).touched
  }

  /** The first of the options, which are in order of length, that has no finding above a note; or the least grave. */
  private best(options: readonly ConnectOption[], index: number, place: TrackPlace): ConnectOption {
    let best = options[0]!
    let least = Number.POSITIVE_INFINITY
    for (const option of options) {
      const gravity = this.gravityOf(option, index, place)
      if (gravity < least) [best, least] = [option, gravity]
      if (least === 0) break
    }
    return best
  }

  /** Of the findings on the track alone: a stop outweighs every warning. */
  private gravityOf(option: ConnectOption, index: number, place: TrackPlace): number {
    const findings = checkLine([this.laidWith(option, index, place)], this.plan, [], QUICK_RULES)
    return findings.reduce((sum, { severity }) => sum + GRAVITY[severity], 0)
  }

  private laidWith({ elements }: ConnectOption, index: number, { whole }: TrackPlace): LaidTrack {
    const { start, end } = whole
    const track = completeTrack({ ...(this.tracks[index]! as TrackInput), elements }, index, SILENT)
    return layTrack({ ...track, start: { ...start, after: null, from: null }, end }, this.plan)
  }
}

/** Ways over different places may come to the same. */
function distinct(options: readonly ConnectOption[]): ConnectOption[] {
  const shown = new Set<string>()
  return options.filter(({ pieces }) => {
    const key = JSON.stringify(pieces, (_, value: unknown) => (typeof value === 'number' ? value.toFixed(3) : value))
    return !shown.has(key) && shown.add(key)
  })
}

function poseOnTrack({ placed }: LaidTrack): (mm: number) => Pose {
  return (mm) => poseOn(placed.find(({ toMm }) => toMm >= mm) ?? placed.at(-1)!, mm)
}

/** Ways round obstacles that are looked at for all connections of a plan together, 20 ms each where there are many. */
const MOST_LOOKS = 480

const GRAVITY = { stop: 1_000_000, warn: 1, note: 0 } as const
