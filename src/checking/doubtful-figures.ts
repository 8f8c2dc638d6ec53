import { formatFeetInches, formatMm, parseLength } from '../measure/length.ts'
import { listAt, valueAt } from '../plan/reading/value-at.ts'
import type { WholeTrack } from '../plan/rows/track.ts'
import type { Finding } from './finding.ts'

/** A curve that is tighter by its diameter may have been meant by its radius. Own choice, no source. */
const TIGHT_RADIUS_MM = 1200

/** A number under this, without a unit, among others so many times as long, is hardly meant in millimetres. */
const SHORT_MM = 50
const TIMES_AS_LONG = 20

type Sent = Readonly<Record<string, unknown>>

/** Figures that can be read, but were perhaps not meant as they stand. */
export function doubtfulFigures(sent: unknown, tracks: readonly WholeTrack[]): Finding[] {
  return tracks.flatMap((track, index) => {
    const elements = listAt(sent, ['tracks', index, 'elements']) as readonly Sent[]
    return [
      ...diameters(track, elements),
      ...withoutUnit(track, elements),
      ...inchesOverAFoot(track, elements),
      ...overATurn(track),
    ]
  })
}

/** One note for each diameter of a track, however many curves have it. */
function diameters({ name, elements }: WholeTrack, sent: readonly Sent[]): Finding[] {
  const seen = new Set<unknown>()
  return elements.flatMap((element, index): Finding[] => {
    const given = sent[index]?.diameter
    if (element.kind !== 'arc' || given === undefined || element.radius >= TIGHT_RADIUS_MM || seen.has(given)) return []
    seen.add(given)
    return [
      {
        rule: 'diameter-or-radius',
        severity: 'note',
        track: name,
        element: index,
        message: `A diameter of ${shown(given)} is a radius of ${formatMm(element.radius)}, which is a tight curve. Is it the radius that is ${shown(given)}?`,
        measured: element.radius,
        limit: TIGHT_RADIUS_MM,
        unit: 'mm',
        cure: 'If the radius was meant, give it as radius. Otherwise leave it.',
      },
    ]
  })
}

function withoutUnit({ name, elements }: WholeTrack, sent: readonly Sent[]): Finding[] {
  const longestMm = Math.max(...elements.map((element) => ('length' in element ? (element.length ?? 0) : 0)))
  return elements.flatMap((_, index): Finding[] => {
    const given = sent[index]?.length
    if (typeof given !== 'number' || given >= SHORT_MM || longestMm < TIMES_AS_LONG * given) return []
    return [
      {
        rule: 'unit-in-doubt',
        severity: 'note',
        track: name,
        element: index,
        message: `A length of ${given} without a unit is ${formatMm(given, 3)}, but other elements of this track are up to ${formatMm(longestMm, 0)} long.`,
        measured: given,
        limit: SHORT_MM,
        unit: 'mm',
        cure: `If it is not millimetres, write the unit, such as "${given} ft".`,
      },
    ]
  })
}

const FEET_AND_INCHES = /(?:ft|feet|foot|'|’|′)\s*-?\s*(\d+(?:\.\d+)?)/i

const LENGTH_FIELDS = ['length', 'radius', 'diameter'] as const

/** The field of an element with feet and twelve inches or more. */
export function fieldOverAFoot(element: Sent | undefined): (typeof LENGTH_FIELDS)[number] | null {
  const over = LENGTH_FIELDS.find((field) => {
    const given = valueAt(element, [field])
    return typeof given === 'string' && Number(FEET_AND_INCHES.exec(given)?.[1] ?? 0) >= 12
  })
  return over ?? null
}

function inchesOverAFoot({ name, elements }: WholeTrack, sent: readonly Sent[]): Finding[] {
  return elements.flatMap((_, index): Finding[] => {
    const field = fieldOverAFoot(sent[index])
    if (field === null) return []
    const given = String(sent[index]![field])
    const parsed = parseLength(given)
    return [
      {
        rule: 'inches-over-a-foot',
        severity: 'note',
        track: name,
        element: index,
        message: `${shown(given)} has more inches than a foot has: it was read as ${parsed.ok ? formatFeetInches(parsed.mm, 64) : given}.`,
        measured: Number(FEET_AND_INCHES.exec(given)![1]),
        limit: 12,
        unit: 'in',
        cure: 'Check the figure, and write at most 11 whole inches after the feet.',
      },
    ]
  })
}

/** More than a turn between two straights: a slip, unless it is a helix, which climbs. */
function overATurn({ name, closed, elements, gradeLine }: WholeTrack): Finding[] {
  const hasGrades = gradeLine.some(({ at, gradePct }) => at > 0 || gradePct !== null)
  return elements.flatMap((element, index): Finding[] => {
    if (element.kind !== 'arc' || element.angle == null || element.angle <= 360 || hasGrades) return []
    const beside = [elements.at(index - 1), elements[(index + 1) % elements.length]]
    const wraps = closed || (index > 0 && index < elements.length - 1)
    if (!wraps || beside.some((each) => each?.kind !== 'tangent')) return []
    return [
      {
        rule: 'more-than-a-turn',
        severity: 'note',
        track: name,
        element: index,
        message: `This curve turns ${element.angle}°, more than a full circle, between two straights on level track.`,
        measured: element.angle,
        limit: 360,
        unit: '°',
        cure: `For the same direction after it, give ${Number((element.angle % 360).toFixed(6))}°; for a helix, give it a grade line.`,
      },
    ]
  })
}

function shown(given: unknown): string {
  return typeof given === 'number' ? formatMm(given, 3) : `"${String(given)}"`
}
