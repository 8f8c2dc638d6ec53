import { formatMm } from '../measure/length.ts'
import type { TooClose } from '../network/too-close.ts'
import type { Finding } from './finding.ts'
import { unchecked } from './not-checked.ts'

interface BesideTrack {
  readonly name: string
  readonly interlaced: boolean
}

/** Where cars on two tracks, or on two parts of one, would touch as they pass each other. */
export function trackSpacingFindings(
  { found, complete }: { readonly found: readonly TooClose[]; readonly complete: boolean },
  tracks: readonly BesideTrack[],
): Finding[] {
  const isInterlaced = ({ track, other }: TooClose) =>
    track !== other && tracks[track]!.interlaced && tracks[other]!.interlaced
  const findings = found.filter((each) => !isInterlaced(each)).map((each) => findingOf(each, tracks))
  const together = new Map(found.filter(isInterlaced).map((each) => [`${each.track} ${each.other}`, each]))
  return [
    ...findings,
    ...[...together.values()].map((each) => oneTrainAtATime(each, tracks)),
    ...(complete ? [] : [NOT_ALL]),
  ]
}

function findingOf(close: TooClose, tracks: readonly BesideTrack[]): Finding {
  const { track, element, other, apartMm, neededMm, cars } = close
  const [own, their] = [tracks[track]!.name, tracks[other]!.name]
  const [at, otherAt, from, to] = [close.atMm, close.otherMm, close.fromMm, close.toMm].map((mm) => formatMm(mm, 0))
  const needed = formatMm(Math.ceil(neededMm * 10 - 1e-6) / 10)
  const by = formatMm(Math.ceil((neededMm - apartMm) * 10 - 1e-6) / 10)
  const what = cars[0] === cars[1] ? `two of ${cars[0]}` : `${cars[0]} and ${cars[1]}`
  return {
    rule: 'track-spacing',
    severity: 'warn',
    track: own,
    element,
    message: `${own} lies ${formatMm(apartMm)} beside ${track === other ? 'itself' : their} at ${at} from its start (${otherAt} on the other): ${what} touch as they pass. They need ${needed} there; it is too close from ${from} to ${to}.`,
    measured: apartMm,
    limit: neededMm,
    unit: 'mm',
    cure: `Move ${own} there ${by} to the ${away(close.side)}, or ${track === other ? 'its other part' : their} ${by} to the ${away(close.otherSide)}, or, if trains never pass there, say that both are interlaced.`,
  }
}

/** Seen along the track, from the side on which the other lies. */
function away(side: TooClose['side']): string {
  return side === 1 ? 'right' : 'left'
}

function oneTrainAtATime({ track, element, other }: TooClose, tracks: readonly BesideTrack[]): Finding {
  return {
    rule: 'track-spacing',
    severity: 'note',
    track: tracks[track]!.name,
    element,
    message: `${tracks[track]!.name} and ${tracks[other]!.name} are interlaced: one train at a time may be on either.`,
    measured: null,
    limit: null,
    unit: null,
    cure: 'See that no train can come onto one of them while there is one on the other.',
  }
}

const NOT_ALL = unchecked(
  'Not all tracks were looked at for cars that touch as they pass: too much of the line lies close together.',
  'Split the plan into several.',
)
