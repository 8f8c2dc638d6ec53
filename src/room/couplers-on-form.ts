import { type CoupledCar, type CouplersOff, coupledLengthMm, worstCouplerOffset } from './coupled-cars.ts'
import { chained, cutPieces, formOf, Line, type LinePiece } from './line.ts'

/** The worst of several kinds of car. */
export interface WorstCouplers extends CouplersOff {
  readonly car: CoupledCar
}

/** So far before and behind an S the line matters: a pair of coupled cars, and something for the arcs. */
const REACH_CARS = 2.2

/** Forms are remembered as long as the list of cars is; a plan is tried many times with other elements. */
const KNOWN = new WeakMap<readonly CoupledCar[], Map<string, WorstCouplers | null>>()
const MOST_KNOWN = 5_000
/** Curves worked out for one list of cars, times its length. Beyond them the offset is not known. */
const MOST_WORK = 2_000

/** How far before and behind an S its offsets depend on the line. */
export function couplersReachMm(cars: readonly CoupledCar[]): number {
  return REACH_CARS * Math.max(0, ...cars.map(coupledLengthMm))
}

/**
 * The kind of car whose couplers are off the most on an S, of which the first curve ends and the second begins at these
 * distances along the pieces; null where none fits. Curves of the same form are worked out once.
 */
export function worstCouplersOn(
  pieces: readonly LinePiece[],
  cars: readonly CoupledCar[],
  fromMm: number,
  toMm: number,
): WorstCouplers | null {
  const reachMm = couplersReachMm(cars)
  const startMm = Math.max(0, fromMm - reachMm)
  const cut = chained(cutPieces(pieces, startMm, toMm + reachMm))
  const known = KNOWN.get(cars) ?? new Map<string, WorstCouplers | null>()
  KNOWN.set(cars, known)
  const key = `${formOf(cut)}|${Math.round((fromMm - startMm) * 1e6)}`
  const there = known.get(key)
  if (there !== undefined) return there && { ...there, atMm: there.atMm + startMm }
  if (known.size >= Math.min(MOST_KNOWN, MOST_WORK / cars.length)) return null
  const worst = worstOf(new Line(cut), cars, fromMm - startMm, toMm - startMm)
  known.set(key, worst)
  return worst && { ...worst, atMm: worst.atMm + startMm }
}

function worstOf(line: Line, cars: readonly CoupledCar[], fromMm: number, toMm: number): WorstCouplers | null {
  return cars.reduce<WorstCouplers | null>((worst, car) => {
    const off = worstCouplerOffset(line, car, fromMm, toMm)
    return off && (!worst || off.offsetMm > worst.offsetMm) ? { ...off, car } : worst
  }, null)
}
