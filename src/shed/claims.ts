import { ofRailParts } from '../plan/rows/parts.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import { railKindOf } from './from-stock.ts'
import { usesReadyMade } from './panels-from-stock.ts'
import { NOTHING, type Stock, sameRail } from './stock.ts'

/**
 * What of the stock a plan could take at all: rail and parts of its own section and material, ready-made pieces where it
 * uses such, and what fits any rail. A change of anything else cannot change what it takes.
 */
export function withinReach({ rail, supplies }: Pick<PlanInput, 'rail' | 'supplies'>, stock: Stock): Stock {
  const kind = railKindOf(rail)
  const own = <Row extends Stock['sticks'][number] | Stock['joiners'][number]>(rows: readonly Row[]): Row[] =>
    kind ? rows.filter((row) => sameRail(row, kind)) : []
  return {
    ...NOTHING,
    sticks: own(stock.sticks),
    panels: usesReadyMade(supplies) ? own(stock.panels) : [],
    ...ofRailParts((name) => own(stock[name])),
    ties: supplies?.ties?.strip ? 0 : stock.ties,
    tieStrips: stock.tieStrips.filter(({ ties }) => ties === supplies?.ties?.strip?.ties),
    fasteners: stock.fasteners,
  }
}

/** What was worked out latest, by name: what is kept is not worked out again. */
export class Latest<T> {
  private readonly most: number
  private readonly values = new Map<string, T>()

  /** @param most how many are kept */
  constructor(most: number) {
    this.most = most
  }

  of(name: string, workOut: () => T): T {
    const known = this.values.get(name)
    const value = known === undefined ? workOut() : known
    // Again at the end: the first are those not asked for longest.
    this.values.delete(name)
    this.values.set(name, value)
    if (this.values.size > this.most) this.values.delete(this.values.keys().next().value!)
    return value
  }
}
