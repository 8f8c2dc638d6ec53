import type { RunTrim } from './trim.ts'

/**
 * Rail to be made of sticks. A run is made of pieces joined end to end; a stick is cut into pieces of any runs. The
 * plan minimises, in this order, the cost of sticks and joiners, then the joints; `cutting` decides between what is
 * left.
 */
export interface CutProblem {
  readonly runs: readonly Run[]
  readonly lengths: readonly StickLength[]
  readonly kerfMm: number
  readonly minimumPieceMm: number
  /** The cost of given numbers of sticks of each length. Never less for more sticks; whole numbers. */
  readonly costOf: (counts: readonly number[]) => number
  /** The cost of joiners for a number of joints beyond those on hand. Never less for more joints; whole numbers. */
  readonly joinersCost: (joints: number) => number
  /** How far apart, along the track, the joints of runs beside each other are kept. */
  readonly apart?: { readonly byMm: number } | undefined
  readonly cutting: CuttingStyle
}

/**
 * Of plans that cost the same with as many joints: the fewest sawn ends, the longest offcuts and only then the longest
 * shortest piece; or the longest shortest piece alone.
 */
export type CuttingStyle = 'whole-sticks' | 'even-pieces'

interface StickLength {
  readonly lengthMm: number
  /** How many are available, infinite where it can be bought. */
  readonly limit: number
  /** How many are on hand and cost nothing, and the least cost of each further one. */
  readonly free: number
  readonly leastCost: number
}

/** A length of rail that is made of pieces joined end to end. */
export interface Run {
  readonly lengthMm: number
  /**
   * The last place at or before `mm` where a joint may be, the one before it being at `fromMm`; negative where there is
   * none. Left out where a joint may be anywhere.
   */
  readonly jointBy?: ((mm: number, fromMm: number) => number) | undefined
  /** The run on the other rail, and the stations of places on this one. Each run names the other. */
  readonly beside?: Beside | undefined
  /** Extra rail that its pieces need and that is cut off after bending; none when left out. */
  readonly trim?: RunTrim | undefined
}

/** For a run that is not to be divided. Runs that have this and the same length are interchangeable. */
export const NOWHERE = (): number => -1

interface Beside {
  readonly run: number
  readonly stationAt: (mm: number) => number
  readonly placeAt: (stationMm: number) => number
}

/**
 * Runs laid end to end over sticks from which nothing else is cut. r runs over b sticks take r + b − 1 pieces, so b − 1
 * joints, and fit when Σ sticks ≥ Σ runs + kerf·(r − 1).
 */
export interface Chain {
  readonly runs: readonly number[]
  /** How many of each length. */
  readonly sticks: readonly number[]
}

/** How much may be done. Counted in steps, not by the clock, so that the same problem gets the same answer. */
export interface Work {
  left: number
}
