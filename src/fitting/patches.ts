import { toDegrees } from '../measure/angle.ts'
import { angleLike, FINEST, lengthLike, type Rounding } from '../measure/as-written.ts'
import { degreeOfRadius, radiusOfDegree } from '../measure/degree-of-curve.ts'
import { parseLength } from '../measure/length.ts'
import type { Change } from './change.ts'
import type { Patch } from './json-patch.ts'

/** An element as it was sent. */
export type SentElement = Readonly<Record<string, unknown>>

/** A rounded figure this close to the calculated one is what was meant. */
const SAME_DEG = 0.02
const SAME_MM = 0.25

/**
 * Changes of elements as patches of what was sent, in the field and the unit that each was given in: first with the
 * roundest figures that are still close, then with finer ones.
 *
 * @param at the pointer to the list of elements
 */
export function patchesOf(changes: readonly Change[], at: string, sent: readonly SentElement[]): Patch[] {
  const from = Math.max(...changes.map((change) => coarsest(change, sent[change.element]!)))
  const patches: Patch[] = []
  for (let step = from; step <= FINEST; step++)
    patches.push(changes.map((change) => stepOf(change, at, sent[change.element]!, step)))
  return patches.slice(0, MOST_STEPS)
}

const MOST_STEPS = 3

function stepOf(change: Change, at: string, element: SentElement, step: number): Patch[number] {
  const { field, value } = written(change, element, step)
  return { op: 'replace', path: `${at}/${change.element}/${field}`, value }
}

function written(change: Change, element: SentElement, step: number, rounding: Rounding = 'nearest') {
  switch (change.field) {
    case 'turn':
      return { field: 'turn', value: change.to }
    case 'length':
      return { field: 'length', value: lengthLike(element.length, change.toMm, step, rounding) }
    case 'radius':
      return radiusLike(element, change.toMm, step, rounding)
    case 'angle': {
      if (element.angle !== undefined) return { field: 'angle', value: angleLike(toDegrees(change.toRad), step) }
      const mm = mmOf(element.length) * (change.toRad / change.fromRad)
      return { field: 'length', value: lengthLike(element.length, mm, step) }
    }
  }
}

/** The size of a curve, by radius, diameter or degree as it was given; a larger radius has a smaller degree. */
export function radiusLike(element: SentElement, radiusMm: number, step: number, rounding: Rounding) {
  if (element.degree !== undefined) {
    const degree = degreeOfRadius(radiusMm, mmOf(element.chord)) ?? 180
    return { field: 'degree', value: angleLike(degree, step + 1, OTHER_WAY[rounding]) }
  }
  if (element.diameter === undefined)
    return { field: 'radius', value: lengthLike(element.radius, radiusMm, step, rounding) }
  return { field: 'diameter', value: lengthLike(element.diameter, 2 * radiusMm, step, rounding) }
}

const OTHER_WAY: Readonly<Record<Rounding, Rounding>> = { nearest: 'nearest', up: 'down', down: 'up' }

/** The radius of a curve that was given in this way, mm. */
export function radiusOfSize(element: SentElement, { field, value }: { field: string; value: unknown }): number {
  if (field === 'degree') return radiusOfDegree(Number(value), mmOf(element.chord))
  return mmOf(value) / (field === 'diameter' ? 2 : 1)
}

/** The first step that is close to what was calculated. */
function coarsest(change: Change, element: SentElement): number {
  if (change.field === 'turn') return 0
  for (let step = 0; step < FINEST; step++) {
    const { field, value } = written(change, element, step)
    const close =
      field === 'angle' && change.field === 'angle'
        ? Math.abs(Number(value) - toDegrees(change.toRad)) < SAME_DEG
        : field === 'degree' && change.field === 'radius'
          ? Math.abs(radiusOfSize(element, { field, value }) - change.toMm) < SAME_MM
          : Math.abs(mmOf(value) - calculatedMm(change, element, field)) < SAME_MM
    if (close) return step
  }
  return FINEST
}

function calculatedMm(change: Change, element: SentElement, field: string): number {
  if (change.field === 'angle') return mmOf(element.length) * (change.toRad / change.fromRad)
  return change.field === 'turn' ? 0 : change.toMm * (field === 'diameter' ? 2 : 1)
}

export function mmOf(given: unknown): number {
  if (typeof given === 'number') return given
  const parsed = parseLength(String(given))
  return parsed.ok ? parsed.mm : Number.NaN
}
