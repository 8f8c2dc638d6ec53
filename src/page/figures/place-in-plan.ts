import type { TrackAnswer } from '../../estimate/answer.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { meant } from '../../measure/meant.ts'
import { LENGTH } from '../../plan/fields/bounds.ts'
import type { FigureName } from '../../plan/rows/figures.ts'
import { isObject } from '../form/plan-shape.ts'
import type { FiguresTyped } from './figure-fields.ts'

/** A place in a plan for the first track of a figure, and what of the plan is replaced. */
export interface FigurePlace {
  readonly track: number
  /** Elements before it, and how many of the elements there it replaces: one straight, or none. */
  readonly index: number
  readonly replaces: 0 | 1
  /** Length of that straight. */
  readonly straightMm: number | null
  readonly start: { readonly x: number; readonly y: number; readonly heading: number }
}

type Wire = Readonly<Record<string, unknown>>

export function listIn(wire: unknown, name: string): readonly Wire[] {
  const list = isObject(wire) ? wire[name] : undefined
  return Array.isArray(list) ? list : []
}

/** Where a figure is put, or what is wrong with the place; faults are at the fields of the form. */
export function placeFor(
  figure: FigureName,
  { track: trackText, where, element: elementText }: FiguresTyped,
  tracks: readonly TrackAnswer[],
): { readonly ok: true; readonly place: FigurePlace } | { readonly ok: false; readonly fault: Fault } {
  const track = Number(trackText)
  const answer = tracks[track]
  if (!answer) return refused('track', 'there is no such track', 'choose a track of the plan')
  const { elements, closure } = answer
  if (figure === 'reverse-loop' && where !== 'end')
    return refused('where', 'a reverse loop leads back, so nothing can follow it', 'put it at the end of the track')
  if (where === 'end' || figure === 'parallel') {
    const [first, last] = [elements[0]!, elements.at(-1)!]
    const { xMm: x, yMm: y, headingDeg: heading } = figure === 'parallel' ? first.start : last.end
    if (figure === 'parallel' && closure !== null)
      return refused('track', 'the end of this track is held in its place', 'double a track that is open')
    return {
      ok: true,
      place: { track, index: elements.length, replaces: 0, straightMm: null, start: { x, y, heading } },
    }
  }
  const asked = elementText.trim() === '' ? longestStraight(answer) : Number(elementText) - 1
  const element = elements[asked]
  if (!element) return refused('element', `the track has ${elements.length} elements`, 'give the number of one of them')
  if (where === 'after') {
    const { xMm: x, yMm: y, headingDeg: heading } = element.end
    return { ok: true, place: { track, index: asked + 1, replaces: 0, straightMm: null, start: { x, y, heading } } }
  }
  if (element.kind !== 'tangent')
    return refused('element', `element ${asked + 1} is not a straight`, 'give the number of a straight')
  const { xMm: x, yMm: y, headingDeg: heading } = element.start
  return {
    ok: true,
    place: { track, index: asked, replaces: 1, straightMm: element.lengthMm, start: { x, y, heading } },
  }
}

/** Its index; -1 where there is none. */
function longestStraight({ elements }: TrackAnswer): number {
  const straights = elements.filter(({ kind }) => kind === 'tangent')
  return straights.reduce<number>((best, { index, lengthMm }) => {
    return best < 0 || lengthMm > elements[best]!.lengthMm ? index : best
  }, -1)
}

function refused(field: string, detail: string, hint: string) {
  return { ok: false, fault: { path: [field], code: 'contradictory', detail, hint } } as const
}

/** The same place, with the figure in the middle of its straight. */
export function inTheMiddle(place: FigurePlace, lengthMm: number): FigurePlace | Fault {
  if (place.straightMm === null) return place
  const beforeMm = (place.straightMm - lengthMm) / 2
  if (beforeMm < 0)
    return {
      path: ['element'],
      code: 'contradictory',
      detail: `the straight is ${formatMm(place.straightMm)} long, and the figure takes ${formatMm(lengthMm)} of it`,
      hint: 'make the straight longer, or choose another one',
    }
  const { x, y, heading } = place.start
  const rad = (heading * Math.PI) / 180
  return { ...place, start: { x: x + beforeMm * Math.cos(rad), y: y + beforeMm * Math.sin(rad), heading } }
}

/** The plan, as it was sent, with a figure put in: its first track at the place, the others after the tracks there are. */
export function withFigureAt(
  plan: Wire,
  place: FigurePlace,
  {
    tracks,
    lengthMm,
    turnoutTypes,
  }: { readonly tracks: readonly Wire[]; readonly lengthMm: number; readonly turnoutTypes: readonly unknown[] },
): Record<string, unknown> {
  const [main, ...others] = meant(tracks)
  const into = listIn(plan, 'tracks')
  const own = listIn(into[place.track], 'elements')
  const straight = place.replaces === 1 ? own[place.index] : undefined
  const restMm = straight ? (place.straightMm! - lengthMm) / 2 : 0
  const rest = restMm >= LENGTH.least ? [meant({ ...straight, length: restMm })] : []
  const elements = own.toSpliced(place.index, place.replaces, ...rest, ...listIn(main, 'elements'), ...rest)
  return {
    ...plan,
    ...(turnoutTypes.length > 0 && { turnoutTypes }),
    tracks: [...into.map((track, index) => (index === place.track ? { ...track, elements } : track)), ...others],
  }
}
