import type { WholeSurvey } from '../plan/rows/survey.ts'
import type { Point } from '../track/sample.ts'

/** A reading between two pegs or points. */
export interface Reading {
  readonly kind: 'distance' | 'rise'
  /** Indices of `Net.names`. */
  readonly from: number
  readonly to: number
  readonly measuredMm: number
  /** One standard deviation. */
  readonly errorMm: number
  /** Of a distance: taped along the slope. */
  readonly isSlope: boolean
  /** Where it stands in the survey. */
  readonly list: 'distances' | 'levels' | 'lines'
  readonly index: number
}

/** A survey as a net: what is known of each peg and point, and every reading between two of them. */
export interface Net {
  /** Pegs first, then points in the order in which readings name them. */
  readonly names: readonly string[]
  readonly pegs: number
  /** Null for a point. */
  readonly places: readonly (Point | null)[]
  /** Null where it is not given. */
  readonly elevationsMm: readonly (number | null)[]
  readonly readings: readonly Reading[]
}

/**
 * A survey without faults as a net. A line of n steps that ends at a peg or a point is one rise, with the error of a
 * step times √n.
 */
export function netOf({ pegs, distances, levels, lines, tapeError, levelError }: WholeSurvey): Net {
  const indexByName = new Map(pegs.map(({ name }, index) => [name, index]))
  const indexOf = (name: string): number => {
    const known = indexByName.get(name) ?? indexByName.size
    indexByName.set(name, known)
    return known
  }
  const readings: Reading[] = distances.map(({ from, to, length, slope }, index) => ({
    kind: 'distance',
    from: indexOf(from),
    to: indexOf(to),
    measuredMm: length,
    errorMm: tapeError,
    isSlope: slope,
    list: 'distances',
    index,
  }))
  const rise = (
    from: string,
    to: string,
    measuredMm: number,
    errorMm: number,
    list: 'levels' | 'lines',
    index: number,
  ) =>
    readings.push({
      kind: 'rise',
      from: indexOf(from),
      to: indexOf(to),
      measuredMm,
      errorMm,
      isSlope: false,
      list,
      index,
    })
  for (const [index, level] of levels.entries()) rise(level.from, level.to, level.rise, levelError, 'levels', index)
  for (const [index, { from, to, readings: steps }] of lines.entries()) {
    indexOf(from)
    if (to === null) continue
    const totalMm = steps.reduce((sum, step) => sum + step.rise, 0)
    rise(from, to, totalMm, levelError * Math.sqrt(steps.length), 'lines', index)
  }
  const names = [...indexByName.keys()]
  return {
    names,
    pegs: pegs.length,
    places: names.map((_, index) => placeOf(pegs[index])),
    elevationsMm: names.map((_, index) => pegs[index]?.elevation ?? null),
    readings,
  }
}

function placeOf(peg: WholeSurvey['pegs'][number] | undefined): Point | null {
  return peg ? { xMm: peg.x, yMm: peg.y } : null
}

/** The other end of a reading. */
export function farEnd({ from, to }: Reading, near: number): number {
  return from === near ? to : from
}
