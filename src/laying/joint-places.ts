import { exceeds, LENGTH_SLACK_MM, piecesToCover } from '../measure/counting.ts'
import { firstIndexWhere } from '../measure/search.ts'
import type { KeepOut } from '../plan/rows/track.ts'
import { type RailLine, railDistanceAt, stationAtRailDistance } from '../track/rails.ts'
import type { RunOfRail } from './divided-rails.ts'

type Stretch = Pick<KeepOut, 'from' | 'to'>

/** Where the joints of a track may be. */
export interface JointPlaces {
  /** In order, apart (see `inOrder`). */
  readonly keepOut: readonly Stretch[]
  /** Joints are midway between ties at this spacing, the first at station 0; null: joints may also be at ties. */
  readonly tieSpacingMm: number | null
}

/**
 * The last station at or before the given one where a joint may be; negative where there is none.
 *
 * Midway between two ties is at (n + ½)·s, s the tie spacing.
 */
export function lastJointStation(stationMm: number, { keepOut, tieSpacingMm }: JointPlaces): number {
  let mm = stationMm
  for (;;) {
    const before = mm
    if (tieSpacingMm !== null) {
      const midway = (Math.floor((mm + LENGTH_SLACK_MM) / tieSpacingMm - 0.5) + 0.5) * tieSpacingMm
      if (exceeds(mm, midway)) mm = midway
    }
    const stretch = keepOut[firstIndexWhere(keepOut.length, (n) => exceeds(keepOut[n]!.to, mm))]
    if (stretch && exceeds(mm, stretch.from)) mm = stretch.from
    if (mm === before || mm < 0) return mm
  }
}

/** Stretches without joints in order, those that overlap as one. */
export function inOrder(keepOut: readonly Pick<KeepOut, 'from' | 'to'>[]): Stretch[] {
  const merged: { from: number; to: number }[] = []
  for (const { from, to } of keepOut.toSorted((a, b) => a.from - b.from)) {
    const last = merged.at(-1)
    if (last && from < last.to - LENGTH_SLACK_MM) last.to = Math.max(last.to, to)
    else merged.push({ from, to })
  }
  return merged
}

/** Whether joints of this track have any restriction. */
export function restricts({ keepOut, tieSpacingMm }: JointPlaces): boolean {
  return keepOut.length > 0 || tieSpacingMm !== null
}

/** A run whose joints follow the rules of its track. */
export function withJointPlaces(run: RunOfRail, line: RailLine, places: JointPlaces): RunOfRail {
  if (!restricts(places)) return run
  return {
    ...run,
    jointBy: (mm) => {
      const stationMm = stationAtRailDistance(line, run.startMm + mm)
      const allowed = lastJointStation(stationMm, places)
      if (allowed === stationMm) return mm
      return allowed < 0 ? -1 : Math.min(mm, railDistanceAt(line, allowed) - run.startMm)
    },
  }
}

/** The runs of a track's two rails, each linked to the one beside it. Both rails have the same breaks. */
export function sideBySide(
  left: readonly RunOfRail[],
  right: readonly RunOfRail[],
  lines: { readonly left: RailLine; readonly right: RailLine },
  firstIndex: number,
): RunOfRail[] {
  const told = (runs: readonly RunOfRail[], line: RailLine, otherFirst: number) =>
    runs.map((run, n) => ({
      ...run,
      beside: {
        run: otherFirst + n,
        stationAt: (mm: number) => stationAtRailDistance(line, run.startMm + mm),
        placeAt: (stationMm: number) => railDistanceAt(line, stationMm) - run.startMm,
      },
    }))
  return [...told(left, lines.left, firstIndex + left.length), ...told(right, lines.right, firstIndex)]
}

/**
 * Stations at which both rails of a track are divided so that their joints are opposite each other: as few as the
 * longest stick allows, and then as evenly as the places for joints allow.
 *
 * @param breaksMm stations at which the rails are divided anyway, ascending
 * @returns null where the places for joints force a piece longer than every stick
 */
export function squareStations(
  lines: { readonly left: RailLine; readonly right: RailLine },
  lengthMm: number,
  breaksMm: readonly number[],
  longestMm: number,
  places: JointPlaces,
): number[] | null {
  const ends = [0, ...breaksMm.filter((mm) => exceeds(mm, 0) && exceeds(lengthMm, mm)), lengthMm]
  const stations: number[] = []
  for (const [n, toMm] of ends.slice(1).entries()) {
    const fromMm = ends[n]!
    const fewest = panels(lines, fromMm, toMm, longestMm, places)
    if (!fewest) return null
    let best = fewest
    let low = (toMm - fromMm) / (fewest.length + 1) / 2
    let high = longestMm
    while (high - low > EVEN_TO_MM) {
      const middle = (low + high) / 2
      const tried = panels(lines, fromMm, toMm, middle, places)
      if (tried && tried.length === fewest.length) {
        best = tried
        high = middle
      } else low = middle
    }
    stations.push(...best)
  }
  return stations
}

const EVEN_TO_MM = 0.01

/** The stations between two others, each as far along as a rail of this length reaches on both rails. */
function panels(
  lines: { readonly left: RailLine; readonly right: RailLine },
  fromMm: number,
  toMm: number,
  longestMm: number,
  places: JointPlaces,
): number[] | null {
  const stations: number[] = []
  let at = fromMm
  const most = 4 * piecesToCover(toMm - fromMm, longestMm) + 1000
  for (;;) {
    const reach = Math.min(
      ...[lines.left, lines.right].map((line) => stationAtRailDistance(line, railDistanceAt(line, at) + longestMm)),
    )
    if (!exceeds(toMm, reach)) return stations
    const station = lastJointStation(reach, places)
    if (!exceeds(station, at) || stations.length > most) return null
    stations.push(station)
    at = station
  }
}
