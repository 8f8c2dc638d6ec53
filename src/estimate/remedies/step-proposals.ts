import type { Finding } from '../../checking/finding.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import { mmOf } from '../../fitting/patches.ts'
import { lengthLike } from '../../measure/as-written.ts'
import { heightOf, heightSteps } from '../../network/height-steps.ts'
import type { TrackEnd } from '../../network/meeting-ends.ts'
import { listAt, valueAt } from '../../plan/reading/value-at.ts'
import type { Line } from './line.ts'

/** Either end brought to the height of the other. */
export function stepProposals({ measured }: Finding, line: Line, track: number): Patch[] {
  const { closureGap, closureHeading } = line.plan.standards
  return heightSteps(line.tracks, closureGap, closureHeading)
    .filter(({ own, stepMm }) => own.track === track && Math.abs(stepMm) === measured)
    .flatMap(({ own, other }) => [
      ...endAt(own, heightOf(other, line.tracks), line),
      ...endAt(other, heightOf(own, line.tracks), line),
    ])
}

/** The height where the track starts, or of the last point of its grade line; without one, a grade all along it. */
function endAt({ track, end }: TrackEnd, elevationMm: number, { sent, tracks }: Line): Patch[] {
  const points = listAt(sent, ['tracks', track, 'gradeLine']) as readonly Readonly<Record<string, unknown>>[]
  const at = `/tracks/${track}`
  const { startElevationMm, lengthMm } = tracks[track]!
  if (points.length === 0) {
    const [from, to] = end === 'start' ? [elevationMm, startElevationMm] : [startElevationMm, elevationMm]
    const graded: Patch = [
      { op: 'add', path: `${at}/gradeLine`, value: [] },
      { op: 'add', path: `${at}/gradeLine/0`, value: { at: 0, elevation: from } },
      { op: 'add', path: `${at}/gradeLine/1`, value: { at: lengthMm, elevation: to } },
    ]
    return [...(end === 'start' ? startsAt(at, track, elevationMm, sent) : []), graded]
  }
  const index = end === 'end' ? points.length - 1 : points.findIndex(({ at: mm }) => mmOf(mm) === 0)
  const given = points[index]?.elevation
  const startsThere = end === 'start' ? startsAt(at, track, elevationMm, sent) : []
  if (given === undefined) return startsThere
  const point = {
    op: 'replace' as const,
    path: `${at}/gradeLine/${index}/elevation`,
    value: lengthLike(given, elevationMm, 0),
  }
  // Where the start has its height as well, both change.
  return [[point], ...startsThere.map((start): Patch => [...start, point])]
}

/** All of the track higher or lower. */
function startsAt(at: string, track: number, elevationMm: number, sent: unknown): Patch[] {
  const given = valueAt(sent, ['tracks', track, 'start', 'elevation'])
  if (given !== undefined)
    return [[{ op: 'replace', path: `${at}/start/elevation`, value: lengthLike(given, elevationMm, 0) }]]
  return valueAt(sent, ['tracks', track, 'start']) === undefined
    ? []
    : [[{ op: 'add', path: `${at}/start/elevation`, value: elevationMm }]]
}
