import type { Money } from '../measure/money.ts'

/** One length of rail that is sold or lies in the shed. A stick that is not buyable is only what is on hand. */
export interface Stick {
  readonly length: number
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
  readonly massEachG: number | null
}

/** Ties, singly or as moulded strips that are cut to what is needed. */
export interface Ties extends Pack {
  readonly spacing: number
  readonly fastenersPerTie: number
  /** Ties in one strip; null where they are sold singly. Packs are then packs of strips. */
  readonly tiesPerStrip: number | null
  /** Ties are added where a joint would not have one on either side within half a spacing. */
  readonly jointTies: boolean
}

/**
 * Ready-made track: two rails of a straight, or of a curve of one radius, as one piece; with ties under it or without.
 * A curved piece may be turned round and so fits either turn.
 */
export interface Panel {
  /** How it is called besides its measures; null when it has no name. */
  readonly name: string | null
  /** Along its centre line. */
  readonly lengthMm: number
  /** Of the centre line, and the angle it turns through; null for a straight piece. */
  readonly curve: { readonly radiusMm: number; readonly angleRad: number } | null
  /** Ties that come with one piece; 0 for two rails alone. */
  readonly ties: number
  /** Joiners that come with one piece. */
  readonly joiners: number
  /** Of one pack; null when unknown. */
  readonly price: Money | null
  readonly packSize: number
  readonly onHand: number
  readonly buyable: boolean
  /** Of one piece; null when unknown. */
  readonly massEachG: number | null
}

/** Whether ready-made track takes the place of loose rail: where that is cheaper, wherever a piece fits, or nowhere. */
export type ReadyMadeChoice = 'cheapest' | 'always' | 'never'

export interface Supplies {
  readonly currency: string
  /** Percent on top of the prices; null when nothing is said of tax. */
  readonly taxRatePct: number | null
  /** Each length once. */
  readonly sticks: readonly Stick[]
  readonly panels: readonly Panel[]
  readonly readyMade: ReadyMadeChoice
  readonly joiners: Pack
  /** Where new rail meets another section; absent where it nowhere does. */
  readonly transitionJoiners?: Pack
  readonly ties: Ties
  readonly fasteners: Pack
  readonly insulatedJoiners: Pack
  readonly expansionJoints: Pack
  /** What a saw cut takes. */
  readonly kerf: number
  readonly minimumPiece: number
}

/** Something else for the list: so many for each metre of track, or so many in all. */
export interface Extra extends Pack {
  readonly item: string
  readonly per: 'm' | 'each'
  readonly quantity: number
}
