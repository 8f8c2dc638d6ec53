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

/** A thing sold in packs, counted singly or, where its line on the bill says so, measured in metres, litres or kilograms. */
export interface Pack {
  readonly packSize: number
  readonly pricePerPack: Money | null
  readonly onHand: number
  /** Bought beyond what is required, percent of it; 0 when not asked for. */
  readonly sparePct: number
  /** Of one piece (one metre, one litre); null when unknown. */
  readonly massEachKg: number | null
}

/** Ties, singly or as moulded strips that are cut to what is needed. */
export interface Ties extends Pack {
  readonly spacingMm: number
  readonly fastenersPerTie: number
  /** Ties in one strip; null where they are sold singly. Packs are then packs of strips. */
  readonly tiesPerStrip: number | null
  /** Ties are added where a joint would not have one on either side within half a spacing. */
  readonly jointTies: boolean
}

export interface Supplies {
  readonly currency: string
  /** Percent on top of the prices; null when nothing is said of tax. */
  readonly taxRatePct: number | null
  /** Each length once. */
  readonly sticks: readonly Stick[]
  readonly joiners: Pack
  /** Where new rail meets another section; absent where it nowhere does. */
  readonly transitionJoiners?: Pack
  readonly ties: Ties
  readonly fasteners: Pack
  readonly insulatedJoiners: Pack
  readonly expansionJoints: Pack
  /** What a saw cut takes. */
  readonly kerfMm: number
  readonly minimumPieceMm: number
}

/** Something else for the list: so many for each metre of track, or so many in all. */
export interface Extra extends Pack {
  readonly item: string
  readonly per: 'm' | 'each'
  readonly quantity: number
}
