import { toRadians } from '../../measure/angle.ts'
import { parseLength } from '../../measure/length.ts'

/* The rows of this service's own table of elements as tracks and elements of a plan. */

/** What an element of each kind is given by. The rest follows from it and from the elements around it. */
const GIVEN_BY: Readonly<Record<string, readonly string[]>> = {
  tangent: ['kind', 'label', 'length'],
  easement: ['kind', 'label', 'length'],
  arc: ['kind', 'label', 'radius', 'angle', 'turn', 'length'],
  turnout: ['kind', 'label', 'name', 'type', 'enters', 'leaves'],
  crossing: ['kind', 'label', 'name'],
}

/** A row as an element of a plan; of an arc with an angle the length is left out. */
export function elementOfRow(row: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const names = GIVEN_BY[String(row.kind)] ?? Object.keys(row).filter((name) => !(name in START_AND_TRACK))
  const given = Object.fromEntries(names.filter((name) => name in row).map((name) => [name, row[name]]))
  if (row.kind === 'arc' && given.angle !== undefined) delete given.length
  if (row.kind === 'crossing' && row.crossingAngle !== undefined) given.angle = row.crossingAngle
  // Which way a track leaves is open only where it enters at the points.
  if (row.kind === 'turnout' && row.enters !== 'points') delete given.leaves
  return given
}

/** Columns that say something else than a field of an element. */
const START_AND_TRACK = { track: 0, state: 0, x: 0, y: 0, heading: 0, crossingAngle: 0 }

/** A track of the table: where it starts, and how many of the elements are its. */
export interface OwnTrack {
  readonly given: Readonly<Record<string, unknown>>
  readonly elements: number
}

/** The tracks, each of the rows in a row that have the same track; the first row says where it starts. */
export function ownTracks(rows: readonly Readonly<Record<string, unknown>>[]): OwnTrack[] {
  const tracks: { first: Readonly<Record<string, unknown>>; elements: number }[] = []
  for (const row of rows) {
    const last = tracks.at(-1)
    if (last && last.first.track === row.track) last.elements += 1
    else tracks.push({ first: row, elements: 1 })
  }
  return tracks.map(({ first, elements }) => ({ given: trackOf(first), elements }))
}

/** What stands where it is usual is left out. */
function trackOf({ track, state, x, y, heading }: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const start = Object.entries({ x, y, heading }).filter(([, value]) => value !== undefined && !isZero(value))
  return {
    ...(track !== undefined && { name: track }),
    ...(state !== undefined && state !== 'new' && { state }),
    ...(start.length > 0 && { start: Object.fromEntries(start) }),
  }
}

function isZero(value: unknown): boolean {
  return value === 0 || /^0 (?:in|ft)$/.test(String(value))
}

/** How far a length, in sixteenths of an inch, may be from that of its radius rounded in the same way; mm. */
const ROUNDED_MM = 0.8

/** Of an arc with radius, angle and length, the length must follow from the others: an edited one would be lost. */
export function arcFault({ kind, length, radius, angle }: Readonly<Record<string, unknown>>) {
  const [lengthMm, radiusMm] = [length, radius].map(millimetres)
  if (kind !== 'arc' || lengthMm == null || radiusMm == null || typeof angle !== 'number') return null
  const turnedRad = toRadians(angle)
  if (Math.abs(radiusMm * turnedRad - lengthMm) <= ROUNDED_MM * (1 + turnedRad)) return null
  return [
    'contradictory',
    'this is not the length of an arc of this radius and angle',
    'change radius or angle, from which the length follows; or leave one of angle and length empty',
  ] as const
}

function millimetres(value: unknown): number | null {
  if (typeof value === 'number') return value
  const read = typeof value === 'string' ? parseLength(value) : null
  return read?.ok ? read.mm : null
}
