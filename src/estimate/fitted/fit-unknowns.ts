import { type Fit, type Fits, fits, MOST_RADIUS_MM } from '../../fitting/unknowns.ts'
import { DEG_PER_RAD, toDegrees } from '../../measure/angle.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { isOpen } from '../../plan/elements.ts'
import { fieldOf, isWidest } from '../../plan/faults/unknowns.ts'
import type { ElementAsSent, ElementInput } from '../../plan/rows/track.ts'
import { headingDeg } from '../../track/closure.ts'
import { type OpenFigure, openChain, openFigures } from './open-chain.ts'
import type { TrackToFit } from './track-to-fit.ts'
import { widestCurve } from './widest-curve.ts'

export type Fitted<T> = { readonly ok: true; readonly fitted: T } | { readonly ok: false; readonly fault: Fault }

/** The elements of a track with the lengths, angles and radii that bring its end to where it must be. */
export function fitUnknowns(track: TrackToFit, enough: Parameters<typeof fits>[2]): Fitted<readonly ElementInput[]> {
  const open = openFigures(track)
  const isOneTooMany = open.length > (track.goal.hasHeading ? 3 : 2)
  const result = isOneTooMany ? NOTHING : fits(openChain(track, open), track.goal, enough)
  const mayBeWidest = !result.found[0] && !result.beyond && isWidest(track.elements.filter(isOpen))
  const widest = mayBeWidest ? widestCurve(track, open, enough) : null
  if (widest === 'any') return { ok: false, fault: asWideAsYouLike(track, open) }
  const best = widest?.found ?? result.found[0]
  if (!best) return { ok: false, fault: noFit(track, open, widest ?? result) }
  const fitted = track.elements.map((element, index) => withFigures(element, index, open, best.values))
  return { ok: true, fitted }
}

const NOTHING: Fits = { found: [], beyond: null, nearest: null }

function withFigures(
  element: ElementAsSent,
  index: number,
  open: readonly OpenFigure[],
  values: readonly number[],
): ElementInput {
  const figureOf = (isRadius: boolean) =>
    values[open.findIndex((each) => each.element === index && (each.kind === 'radius') === isRadius)]
  const size = figureOf(false)
  if (element.kind !== 'arc') return (size === undefined ? element : { ...element, length: size }) as ElementInput
  const { angle, length, radius: given, ...rest } = element
  const radius = figureOf(true) ?? given
  if (typeof radius !== 'number') throw new Error('a radius that is open has a value')
  const arc = { ...rest, radius }
  if (size !== undefined)
    return angle === undefined ? { ...arc, length: size * radius } : { ...arc, angle: size * DEG_PER_RAD }
  return { ...arc, ...(typeof angle === 'number' && { angle }), ...(typeof length === 'number' && { length }) }
}

function placeOfFirst({ index, elements }: TrackToFit, open: readonly OpenFigure[]): Fault['path'] {
  const first = open[0]!.element
  return ['tracks', index, 'elements', first, ...fieldOf(elements[first]!)]
}

function asWideAsYouLike(track: TrackToFit, open: readonly OpenFigure[]): Fault {
  const at = open.find(({ kind }) => kind === 'radius')!.element
  return {
    path: ['tracks', track.index, 'elements', at, 'radius'],
    code: 'no-fit',
    detail:
      'the straights on either side of the curve become longer with its radius, so that it could be as wide as you like',
    hint: 'give one of the straights its length, or the curve its radius',
  }
}

function noFit(track: TrackToFit, open: readonly OpenFigure[], { beyond, nearest }: Omit<Fits, 'found'>): Fault {
  const path = placeOfFirst(track, open)
  if (!nearest)
    return {
      path,
      code: 'no-fit',
      detail:
        'what is left open moves the end of the track in one direction only, so that no one answer follows from it',
      hint: 'leave fewer lengths and angles open, or one in another direction, such as a straight that is not parallel',
    }
  const why = beyond ? inWords(track.elements, open, beyond) : missInWords(nearest)
  return {
    path,
    code: 'no-fit',
    detail: `no ${open.length === 1 ? 'value' : 'values'} of what is left open ${open.length === 1 ? 'brings' : 'bring'} the track to where it must end: ${why}`,
    hint: `the nearest that would do is an end at ${placeInWords(nearest, track.goal.hasHeading)}`,
  }
}

/** The values that are out of their range. */
function inWords(elements: readonly ElementAsSent[], open: readonly OpenFigure[], { values }: Fit): string {
  const words = open.flatMap(({ element, kind }, n) => {
    const value = values[n]!
    const number = element + 1
    if (kind === 'radius') {
      if (value > 0 && value <= MOST_RADIUS_MM) return []
      const wanted = value > 0 ? `a radius of ${formatMm(value, 0)}` : 'to turn to the other side'
      return [`the curve ${number} would need ${wanted}`]
    }
    if (kind === 'angle' && elements[element]!.kind === 'arc')
      return value > 1e-8 && value < 2 * Math.PI - 1e-8 ? [] : [`the curve ${number} would not turn at all`]
    return value > 0 ? [] : [`element ${number} would have to be ${formatMm(value, 2)} long`]
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
