import type { Money } from '../measure/money.ts'
import type { Turn } from '../plan/rows/track.ts'

export interface Cutting {
  sticks: CutStick[]
  sticksUsed: number
  sticksLowerBound: number
  wasteMm: number
  reusableMm: number
  /** What the sticks and joiners that are bought for it cost, whole packs; null where sticks have no price. */
  cost: Money | null
  /** No cut plan costs less. */
  costLowerBound: Money | null
  /** No cut plan is cheaper (buys less rail, where sticks have no price). */
  provenOptimal: boolean
}

export interface CutStick {
  lengthMm: number
  fromStock: boolean
  kerfMm: number
  /** Cut off bent pieces: their straight ends, or what assembled track creeps. Stick = pieces + trim + kerf + offcut. */
  trimMm: number
  offcutMm: number
  pieces: CutPiece[]
}

export interface CutPiece {
  track: string
  rail: Turn
  /** Along that rail from its own start. */
  fromMm: number
  /** As it is laid; it is sawn longer by its trim. */
  lengthMm: number
  trimMm: number
  bends: BendMark[]
}

/**
 * Where on a piece a bend begins and ends, from the piece's own start. On an arc `radiusMm` is the radius of the rail's
 * line; along an easement it is null and the radius runs from `startRadiusMm` to `endRadiusMm` (null = straight).
 */
export interface BendMark {
  fromMm: number
  toMm: number
  radiusMm: number | null
  startRadiusMm?: number | null
  endRadiusMm?: number | null
  turn: Turn
}
