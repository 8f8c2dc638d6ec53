import { type Network, networkOf } from '../../network/network.ts'
import { type StandingRoom, type Stock, standingRoom } from '../../network/standing-room.ts'
import { stockOf } from '../fleet.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from './laid-track.ts'

interface StandingOfPlan {
  readonly network: Network
  readonly stock: Stock
  readonly room: StandingRoom
}

/** The rules and the answer ask for the same. */
const KNOWN = new WeakMap<readonly LaidTrack[], StandingOfPlan>()

/** Where cars stand clear; null for a plan without cars and without a spacing of tracks. */
export function standingOfPlan(drawn: readonly LaidTrack[], { fleet, standards }: Plan): StandingOfPlan | null {
  const known = KNOWN.get(drawn)
  if (known) return known
  const stock = stockOf(fleet, standards)
  if (stock.cars.length === 0 && stock.spacingMm === null) return null
  const network = networkOf(drawn, standards)
  const room = standingRoom(network, stock)
  const found = { network, stock, room }
  KNOWN.set(drawn, found)
  return found
}
