import { followedBy } from '../../fitting/motion.ts'
import { stretchesBetween } from '../../fitting/trades.ts'
import { type Fit, fits } from '../../fitting/unknowns.ts'
import { DEG_PER_RAD, toDegrees } from '../../measure/angle.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { isOpen } from '../../plan/elements.ts'
import { fieldOf } from '../../plan/faults/unknowns.ts'
import type { ElementAsSent, ElementInput } from '../../plan/rows/track.ts'
import { headingDeg } from '../../track/closure.ts'
import type { PlacedElement } from '../../track/types.ts'
import type { TrackToFit } from './track-to-fit.ts'

export type Fitted<T> = { readonly ok: true; readonly fitted: T } | { readonly ok: false; readonly fault: Fault }

/** The elements of a track with the lengths and angles that bring its end to where it must be. */
export function fitUnknowns(track: TrackToFit, enough: Parameters<typeof fits>[2]): Fitted<readonly ElementInput[]> {
  const open = track.elements.flatMap((element, index) => (isOpen(element) ? [index] : []))
  const unknowns = open.map((index) => {
    const shape = track.placed[index]!
    return { element: index, kind: shape.kind === 'arc' ? ('angle' as const) : ('length' as const), shape }
  })
  const [first, ...stretches] = stretchesBetween(track, unknowns)
  const leverMm = (track.placed.at(-1)?.toMm ?? 0) / (2 * Math.PI)
  const chain = { unknowns, stretches: [followedBy(track.start, first!), ...stretches], leverMm }
  const { found, beyond, nearest } = fits(chain, track.goal, enough)
  const best = found[0]
  if (!best) return { ok: false, fault: noFit(track, open, beyond, nearest) }
  const values = new Map(open.map((index, n) => [index, best.values[n]!]))
  const fitted = track.elements.map((element, index) =>
    values.has(index) ? withValue(element, track.placed[index]!, values.get(index)!) : (element as ElementInput),
  )
  return { ok: true, fitted }
}

function withValue(element: ElementAsSent, { startCurvature }: PlacedElement, value: number): ElementInput {
  if (element.kind !== 'arc') return { ...element, length: value } as ElementInput
  const { angle, length, ...arc } = element
  return angle === undefined
    ? { ...arc, length: value / Math.abs(startCurvature) }
    : { ...arc, angle: value * DEG_PER_RAD }
}

function noFit(
  { index, elements, goal }: TrackToFit,
  open: readonly number[],
  beyond: Fit | null,
  nearest: Fit | null,
): Fault {
  const first = open[0]!
  const path = ['tracks', index, 'elements', first, ...fieldOf(elements[first]!)]
  if (!nearest)
    return {
      path,
      code: 'no-fit',
      detail:
        'what is left open moves the end of the track in one direction only, so that no one answer follows from it',
      hint: 'leave fewer lengths and angles open, or one in another direction, such as a straight that is not parallel',
    }
  const why = beyond ? inWords(elements, open, beyond) : missInWords(nearest)
  return {
    path,
    code: 'no-fit',
    detail: `no ${open.length === 1 ? 'value' : 'values'} of what is left open ${open.length === 1 ? 'brings' : 'bring'} the track to where it must end: ${why}`,
    hint: `the nearest that would do is an end at ${placeInWords(nearest, goal.hasHeading)}`,
  }
}

/** The first value that is out of its range. */
function inWords(elements: readonly ElementAsSent[], open: readonly number[], { values }: Fit): string {
  const words = open.flatMap((index, n) => {
    const value = values[n]!
    const { kind } = elements[index]!
    if (kind === 'arc')
      return value > 1e-8 && value < 2 * Math.PI - 1e-8 ? [] : [`the curve ${index + 1} would not turn at all`]
    return value > 0 ? [] : [`element ${index + 1} would have to be ${formatMm(value, 2)} long`]
  })
  return words.join(', ') || 'a length would be below 0.001 mm'
}

function missInWords({ missMm, missRad }: Fit): string {
  const turn = missRad > 1e-9 ? ` and turned by ${Number(toDegrees(missRad).toFixed(3))}°` : ''
  return `at best its end is ${formatMm(missMm, 2)} away${turn}`
}

function placeInWords({ end }: Fit, hasHeading: boolean): string {
  const heading = hasHeading ? `, heading ${Number(headingDeg(end.headingRad).toFixed(4))}°` : ''
  return `x ${formatMm(end.xMm, 3)}, y ${formatMm(end.yMm, 3)}${heading}`
}
