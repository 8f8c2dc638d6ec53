import type { CoupledCar } from '../room/coupled-cars.ts'
import { couplersReachMm, worstCouplersOn } from '../room/couplers-on-form.ts'
import { goingOn, type PassedPiece, piecesAlong, stationAlong } from './lines.ts'
import type { Network } from './network.ts'
import type { PassedReversal } from './reversals.ts'

/** The worst that couplers are off each other on a reverse curve. */
export interface CouplerOffset {
  readonly offsetMm: number
  readonly car: CoupledCar
  /** Where the couplers are then. */
  readonly track: string
  readonly atMm: number
}

/** How far couplers of two cars of a kind are off on the reverse curves of a network. */
export class CouplerOffsets {
  private readonly network: Network
  private readonly cars: readonly CoupledCar[]
  private readonly known = new Map<string, CouplerOffset | null>()

  constructor(network: Network, cars: readonly CoupledCar[]) {
    this.network = network
    this.cars = cars
  }

  /** Null where no car fits the line. */
  of(reversal: PassedReversal): CouplerOffset | null {
    const { first, second, straightMm } = reversal
    const places = [first, second].map(({ stretch, element }) => `${stretch}/${element}`).sort()
    const key = `${places}/${straightMm}`
    const known = this.known.get(key)
    if (known !== undefined) return known
    const found = this.workedOut(reversal)
    this.known.set(key, found)
    return found
  }

  private workedOut(reversal: PassedReversal): CouplerOffset | null {
    const { network, cars } = this
    const { runs } = reversal
    const reachMm = couplersReachMm(cars)
    const back = goingOn(runs.map((run) => run ^ 1).reverse(), reachMm, network)
    const before = back.map((run) => run ^ 1).reverse()
    const pieces = piecesAlong([...before, ...runs, ...goingOn(runs, reachMm, network)], network)
    const between = straightBetween(reversal, pieces)
    const worst = between && worstCouplersOn(pieces, cars, between.fromMm, between.toMm)
    if (!worst) return null
    const { stretch, atMm } = stationAlong(pieces, worst.atMm)
    const { offsetMm, car } = worst
    return { offsetMm, car, track: network.tracks[network.stretches[stretch]!.track]!.name, atMm }
  }
}

/** Where the first curve ends and the second begins, along the pieces. */
function straightBetween({ first, second }: PassedReversal, pieces: readonly PassedPiece[]) {
  let last: { readonly piece: PassedPiece; readonly toMm: number; readonly sign: number } | null = null
  let atMm = 0
  for (const piece of pieces) {
    const { startCurvature, endCurvature, lengthMm } = piece
    const begins = Math.sign(startCurvature || endCurvature)
    const fromMm = atMm
    atMm += lengthMm
    if (begins === 0) continue
    if (last && last.sign === -begins && isAt(last.piece, first) && isAt(piece, second))
      return { fromMm: last.toMm, toMm: fromMm }
    last = { piece, toMm: atMm, sign: Math.sign(endCurvature || startCurvature) }
  }
  return null
}

function isAt({ stretch, element }: PassedPiece, place: PassedReversal['first']): boolean {
  return stretch === place.stretch && element === place.element
}
