import type { Money } from '../measure/money.ts'

/** One length of rail that is sold or lies in the shed. A stick that is not buyable is only what is on hand. */
export interface Stick {
  readonly lengthMm: number
  /** Of one pack; null when unknown. */
  readonly price: Money | null
  readonly packSize: number
  readonly onHand: number
  readonly buyable: boolean
}

/** A thing counted singly and sold in packs. */
export interface Pack {
  readonly packSize: number
  readonly pricePerPack: Money | null
  readonly onHand: number
}

export interface Supplies {
  readonly currency: string
  /** Each length once. */
  readonly sticks: readonly Stick[]
  readonly joiners: Pack
  /** Where new rail meets another section; absent where it nowhere does. */
  readonly transitionJoiners?: Pack
  readonly ties: Pack & { readonly spacingMm: number; readonly fastenersPerTie: number }
  readonly fasteners: Pack
  /** What a saw cut takes. */
  readonly kerfMm: number
  readonly minimumPieceMm: number
}
