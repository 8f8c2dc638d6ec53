import { LENGTH_SLACK_MM } from '../measure/counting.ts'
import type { Network } from './network.ts'

/** A station on a track. */
export interface Station {
  /** Index of the track. */
  readonly track: number
  readonly atMm: number
}

/** A stretch, or a part of one between insulated breaks. Its ends are numbered like those of stretches. */
export interface Section {
  readonly stretch: number
  readonly fromMm: number
  readonly toMm: number
}

/** What conducts: the rails of sections, joined at their ends. */
export interface Sections {
  readonly sections: readonly Section[]
  /** By end: the ends beyond it, and whether the rails are insulated from each other there. */
  readonly beyond: readonly (readonly { readonly end: number; readonly broken: boolean }[])[]
}

/**
 * Divides stretches at the insulated breaks of their tracks, and at further ones. Both legs of a turnout conduct to the
 * track before its points; crossings do not conduct from one track to the other.
 */
export function sectionsOf(network: Network, further: readonly Station[] = []): Sections {
  const { tracks, stretches, links } = network
  const breaksOf = tracks.map(({ breaks }) => breaks.filter(({ kind }) => kind === 'insulated').map(({ at }) => at))
  for (const { track, atMm } of further) breaksOf[track]!.push(atMm)
  const sections: Section[] = []
  const beyond: { end: number; broken: boolean }[][] = []
  const join = (a: number, b: number, broken: boolean) => {
    beyond[a]!.push({ end: b, broken })
    if (a !== b) beyond[b]!.push({ end: a, broken })
  }
  /** The end of a section at each end of a stretch. */
  const endAt: number[] = []
  for (const [index, { fromMm, toMm, track }] of stretches.entries()) {
    const within = breaksOf[track]!.filter((atMm) => isWithin(atMm, index, network)).sort((a, b) => a - b)
    endAt.push(2 * sections.length)
    for (const [at, start] of [fromMm, ...within].entries()) {
      const section = sections.push({ stretch: index, fromMm: start, toMm: within[at] ?? toMm }) - 1
      beyond.push([], [])
      if (at > 0) join(2 * section - 1, 2 * section, true)
    }
    endAt.push(2 * sections.length - 1)
  }
  for (const [end, others] of links.entries())
    for (const other of others) if (end <= other) join(endAt[end]!, endAt[other]!, false)
  return { sections, beyond }
}

/** A break at the points of a turnout lies in the track before them. */
function isWithin(atMm: number, stretch: number, { stretches, tracks, points }: Network): boolean {
  const { fromMm, toMm, track, legOf } = stretches[stretch]!
  if (legOf !== null || atMm < fromMm - LENGTH_SLACK_MM || atMm > toMm + LENGTH_SLACK_MM) return false
  const atFrom = atMm <= fromMm + LENGTH_SLACK_MM
  const atTo = atMm >= toMm - LENGTH_SLACK_MM
  if (!atFrom && !atTo) return true
  const own = (end: number, isEndOfTrack: boolean) => isEndOfTrack || points.has(end)
  return (atFrom && own(2 * stretch, fromMm === 0)) || (atTo && own(2 * stretch + 1, toMm === tracks[track]!.lengthMm))
}
