import type { Fault } from '../../measure/fault.ts'
import { isOpen, openFields } from '../elements.ts'
import { tooMany } from '../reading/size.ts'
import { LIMITS } from '../rows/limits.ts'
import type { PlanAsSent } from '../rows/plan.ts'
import type { ElementAsSent, TrackAsSent } from '../rows/track.ts'

/** Whether something of a track is to be worked out. */
export function hasUnknowns({ elements }: Pick<TrackAsSent, 'elements'>): boolean {
  return elements.some(isOpen)
}

/** What a track leaves open without saying what it follows from, and what would follow from too little. */
export function unknownFaults({ tracks }: Pick<PlanAsSent, 'tracks'>): Fault[] {
  return [
    ...tooMany(
      ['tracks'],
      tracks.filter(hasUnknowns).length,
      LIMITS.fittedTracks,
      `tracks with something that is to be fitted`,
    ),
    ...tracks.flatMap((track, index) => trackFaults(track, ['tracks', index, 'elements'])),
  ]
}

/** x, y and heading of the end; the height is not met by lengths and angles. */
export function conditionsOn({ closed, end }: Pick<TrackAsSent, 'closed' | 'end'>): 0 | 2 | 3 {
  if (closed || end?.before !== undefined || end?.to !== undefined) return 3
  if (end?.at === undefined) return 0
  return end.at.heading === undefined ? 2 : 3
}

function trackFaults(track: TrackAsSent, at: Fault['path']): Fault[] {
  const open = track.elements.flatMap((element, index) => (isOpen(element) ? [{ element, index }] : []))
  if (open.length === 0) return []
  const conditions = conditionsOn(track)
  const refuse = (index: number, detail: string, hint: string): Fault[] => [
    { path: [...at, index, ...fieldOf(track.elements[index]!)], code: 'cannot-fit', detail, hint },
  ]
  const first = open[0]!.index
  if (conditions === 0)
    return refuse(
      first,
      'the end of this track is free, so any length and any angle would do',
      'say where the track must end: "closed": true, or "end" with at, before or to',
    )
  const path = open.find(({ element }) => element.kind === 'connect')
  if (path && open.length > 1)
    return refuse(
      path.index,
      'a connection finds the whole path from one place to the other, so nothing else of its track can be left to be fitted',
      'give the other elements their lengths and angles, or divide the track',
    )
  if (path && conditions < 3)
    return refuse(
      path.index,
      'a connection needs the heading at its end',
      'give the heading where the track must end, in end.at.heading',
    )
  if (open.length > 2 && open.every(({ element }) => element.kind === 'tangent'))
    return refuse(
      open[2]!.index,
      `${open.length} lengths of straights are left to be fitted, and they move the end along x and y alone`,
      'leave at most two straights open, or a curve as well',
    )
  const figures = open.flatMap(({ element, index }) => fieldsOf(element).map(() => index))
  const most = conditions + (isWidest(open.map(({ element }) => element)) ? 1 : 0)
  if (figures.length > most)
    return refuse(
      figures[most]!,
      `${figures.length} lengths, angles and radii are left to be fitted, and where the track must end gives only ${conditions} conditions`,
      conditions === 2
        ? 'leave at most two open, or give the heading at the end as well'
        : 'leave at most three open: x, y and heading of the end are three conditions',
    )
  return []
}

/** Two straights and the radius of one curve: of those that fit the widest is meant, so that one more may be open. */
export function isWidest(open: readonly ElementAsSent[]): boolean {
  const curves = open.filter(({ kind }) => kind === 'arc')
  return (
    open.length === 3 &&
    open.filter(({ kind }) => kind === 'tangent').length === 2 &&
    curves.length === 1 &&
    openFields(curves[0]!).includes('radius')
  )
}

/** The first field that is open; none of a connection, which is open altogether. */
export function fieldOf(element: ElementAsSent): string[] {
  return fieldsOf(element).slice(0, 1)
}

function fieldsOf(element: ElementAsSent): string[] {
  return element.kind === 'connect' ? [] : openFields(element)
}
