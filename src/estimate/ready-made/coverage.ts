import { bareRun, type OpenedRun } from '../../laying/bare-runs.ts'
import type { SearchEffort } from '../../laying/cutting/effort.ts'
import type { Work } from '../../laying/cutting/problem.ts'
import type { RunOfRail } from '../../laying/divided-rails.ts'
import { distinctPlaces } from '../../laying/joints.ts'
import {
  type CoveringPiece,
  coverStretches,
  type PanelKind,
  type Stretch,
  type UsedPanel,
} from '../../laying/ready-made.ts'
import { exceeds, LENGTH_SLACK_MM, wholePiecesIn } from '../../measure/counting.ts'
import { firstIndexWhere } from '../../measure/search.ts'
import { panelLengthMm } from '../../plan/panels.ts'
import { layRail, type RailLine, railDistanceAt, stationAtRailDistance } from '../../track/rails.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import type { Coverable, CoverableElements } from './coverable.ts'

/** For each element that can be covered, the chosen kind of pieces, or null: loose rail. */
export type Choice = readonly (number | null)[]

/** A covered part of an element. */
export interface CoveredStretch {
  readonly track: number
  readonly element: number
  readonly radiusMm: number | null
  /** Stations. */
  readonly fromMm: number
  readonly toMm: number
  readonly withTies: boolean
  readonly leftOpenMm: number
  /** A turnout that is bought: it has no pieces. */
  readonly turnout?: true
  readonly pieces: readonly (CoveringPiece & { readonly fromStationMm: number; readonly toStationMm: number })[]
}

/** What ready-made pieces cover. */
export interface Coverage {
  readonly stretches: readonly CoveredStretch[]
  /** `stretch` of their pieces is an index in `stretches`. */
  readonly used: readonly UsedPanel[]
}

/** Makes stretches of pieces of one kind, see `coverStretches`. */
export type CoverStretches = (
  stretches: readonly Stretch[],
  kind: PanelKind,
  supplies: Plan['supplies'],
  work: Work,
) => ReturnType<typeof coverStretches>

/** What of a plan's coverings is worked out once: most choices differ in one kind of pieces. */
export interface CoverOnce {
  readonly stretches: CoverStretches
  /** What one kind covers of the elements chosen for it. */
  readonly kind: (kind: PanelKind, chosen: readonly number[], make: () => Coverage | null) => Coverage | null
}

export function coveringOnce(effort: SearchEffort): CoverOnce {
  const made = new Map<PanelKind, Map<string, ReturnType<typeof coverStretches>>>()
  const kinds = new Map<PanelKind, Map<string, Coverage | null>>()
  return {
    stretches: (stretches, kind, supplies, work) =>
      once(made, kind, stretches.map(({ lengthMm }) => lengthMm).join(), () =>
        coverStretches(stretches, kind, supplies.panels, supplies, effort, work),
      ),
    kind: (kind, chosen, make) => once(kinds, kind, chosen.join(), make),
  }
}

function once<T>(known: Map<PanelKind, Map<string, T>>, kind: PanelKind, key: string, make: () => T): T {
  const ofKind = known.get(kind) ?? new Map<string, T>()
  known.set(kind, ofKind)
  const value = ofKind.has(key) ? (ofKind.get(key) as T) : make()
  ofKind.set(key, value)
  return value
}

/**
 * Covers elements with the kinds of pieces chosen for them.
 *
 * @param opened the gaps along a run of a rail; null where pieces leave no gaps
 * @returns null where there are too few pieces and none can be bought
 */
export function coverageOf(
  choice: Choice,
  { kinds, coverable }: CoverableElements,
  laid: readonly LaidTrack[],
  { supplies }: Pick<Plan, 'supplies'>,
  opened: ((run: RunOfRail) => OpenedRun) | null,
  cover: CoverOnce,
  work: Work,
): Coverage | null {
  const stretches: CoveredStretch[] = []
  const used: UsedPanel[] = []
  const centres = new Map<number, RailLine>()
  const centreOf = (track: number) => {
    const line = centres.get(track) ?? layRail(laid[track]!.placed, laid[track]!.grades, 0)
    centres.set(track, line)
    return line
  }
  const coveredBy = (kind: PanelKind, chosen: readonly number[]): Coverage | null => {
    const longestMm = Math.max(...kind.panels.map((panel) => panelLengthMm(supplies.panels[panel]!)))
    const parts = chosen.flatMap((index) => coverable[index]!.parts.map((part) => ({ ...coverable[index]!, ...part })))
    const runs = parts.map((part) => runOfPart(part, laid[part.track]!, centreOf(part.track), longestMm, opened))
    const stretchesOfKind = runs.map(({ lengthMm }, index) => ({ lengthMm, radiusMm: parts[index]!.radiusMm }))
    const covered = cover.stretches(stretchesOfKind, kind, supplies, work)
    if (!covered) return null
    const ofKind = covered.coverings.map(({ pieces, leftOpenMm }, index): CoveredStretch => {
      const { track, element, radiusMm, fromMm, toMm } = parts[index]!
      const { lengthMm, placeAt } = runs[index]!
      const along = (mm: number) => placeAt((mm * lengthMm) / (lengthMm - leftOpenMm))
      const centre = centreOf(track)
      const startMm = railDistanceAt(centre, fromMm)
      const stations = pieces.slice(1).map((piece) => stationAtRailDistance(centre, startMm + along(piece.fromMm)))
      const ends = [fromMm, ...stations, toMm]
      return {
        ...{ track, element, radiusMm, fromMm, toMm, leftOpenMm },
        withTies: kind.withTies,
        pieces: pieces.map((piece, n) => ({ ...piece, fromStationMm: ends[n]!, toStationMm: ends[n + 1]! })),
      }
    })
    return { stretches: ofKind, used: covered.used }
  }
  for (const [index, kind] of kinds.entries()) {
    const chosen = [...coverable.keys()].filter((at) => choice[at] === index)
    const make = () => coveredBy(kind, chosen)
    // Gaps depend on all that is chosen.
    const covered = opened ? make() : cover.kind(kind, chosen, make)
    if (!covered) return null
    const first = stretches.length
    for (const stretch of covered.stretches) stretches.push(stretch)
    for (const panel of covered.used)
      used.push({ ...panel, pieces: panel.pieces.map((piece) => ({ ...piece, stretch: first + piece.stretch })) })
  }
  return { stretches, used }
}

/** A part of an element as rail alone along its centre line, and the place as laid of a place along it. */
function runOfPart(
  { track, fromMm, toMm }: Coverable & { readonly fromMm: number; readonly toMm: number },
  { rails }: LaidTrack,
  centre: RailLine,
  longestMm: number,
  opened: ((run: RunOfRail) => OpenedRun) | null,
): { readonly lengthMm: number; readonly placeAt: (mm: number) => number } {
  const on = (line: RailLine) => {
    const startMm = railDistanceAt(line, fromMm)
    return { rail: 2 * track, startMm, lengthMm: railDistanceAt(line, toMm) - startMm }
  }
  const whole = on(centre)
  const { lengthMm, runAt } = opened
    ? bareRun(whole, { ...opened(on(rails.left)), longestMm })
    : { ...whole, runAt: null }
  return { lengthMm, placeAt: runAt ?? ((mm) => mm) }
}

/** Stations of a track at which ready-made pieces begin or end, ascending, each once. */
export function stationsCovered({ stretches }: Pick<Coverage, 'stretches'>, track: number): number[] {
  return distinctPlaces(
    stretches
      .filter((stretch) => stretch.track === track)
      .flatMap(({ fromMm, toMm, pieces }) => [fromMm, ...pieces.map(({ toStationMm }) => toStationMm), toMm]),
  )
}

/** From one place of a track to another. */
type Span = readonly [fromMm: number, toMm: number]

/** Where a track is ready-made, in order; adjacent stretches are merged. */
function spansOf(stretches: readonly CoveredStretch[], track: number): Span[] {
  const spans: [number, number][] = []
  const ofTrack = stretches.filter((stretch) => stretch.track === track)
  for (const { fromMm, toMm } of ofTrack.sort((a, b) => a.fromMm - b.fromMm)) {
    const last = spans.at(-1)
    if (last && !exceeds(fromMm, last[1])) last[1] = toMm
    else spans.push([fromMm, toMm])
  }
  return spans
}

/** Stations of joints are calculated along either rail. */
const PLACE_SLACK_MM = 1e-3

function outside<J extends { readonly stationMm: number }>(
  joints: readonly J[],
  spans: readonly Span[],
  endsToo: boolean,
): J[] {
  const slackMm = endsToo ? PLACE_SLACK_MM : -PLACE_SLACK_MM
  return joints.filter(({ stationMm }) => {
    const span = spans[firstIndexWhere(spans.length, (index) => spans[index]![1] + slackMm >= stationMm)]
    return !span || stationMm < span[0] - slackMm
  })
}

/** The rules for joints of loose rail do not apply to those of ready-made pieces, which are at their ends. */
export function looseJoints<J extends { readonly stationMm: number }>(
  joints: readonly J[],
  { stretches }: Coverage,
  track: number,
): J[] {
  return outside(joints, spansOf(stretches, track), true)
}

/** Joints with no tie of a ready-made piece on at least one side. */
export function jointsToTie<J extends { readonly stationMm: number }>(
  joints: readonly J[],
  { stretches }: Coverage,
  track: number,
): J[] {
  const tied = stretches.filter(({ withTies }) => withTies)
  return outside(joints, spansOf(tied, track), false)
}

/**
 * Ties of a track's row that come with its ready-made pieces: those from the start of a stretch up to its end, and one
 * at the end of the track.
 *
 * @param row the ties, the first at station 0; `sharedStart` and `sharedEnd` where a neighbour has that tie
 */
export function tiesCovered(
  { stretches }: Coverage,
  track: number,
  row: {
    readonly lengthMm: number
    readonly spacingMm: number
    readonly closed: boolean
    readonly sharedStart: boolean
    readonly sharedEnd: boolean
  },
): number {
  const { lengthMm, spacingMm, closed, sharedStart, sharedEnd } = row
  const last = closed ? Math.round(lengthMm / spacingMm) - 1 : wholePiecesIn(lengthMm, spacingMm)
  const from = sharedStart ? 1 : 0
  const to = sharedEnd ? last - 1 : last
  /** Ties before a station. */
  const before = (mm: number) => Math.ceil((mm - LENGTH_SLACK_MM) / spacingMm)
  return stretches
    .filter((stretch) => stretch.track === track && stretch.withTies)
    .reduce((sum, { fromMm, toMm }) => {
      const first = Math.max(from, before(fromMm))
      const end = exceeds(lengthMm, toMm) ? before(toMm) - 1 : last
      return sum + Math.max(0, Math.min(to, end) - first + 1)
    }, 0)
}
