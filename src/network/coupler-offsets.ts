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
    const pieces = piecesAlong(this.withNeighbours(runs, reachMm), network)
    const between = straightBetween(reversal, pieces)
    const worst = between && worstCouplersOn(pieces, cars, between.fromMm, between.toMm)
    if (!worst) return null
    const { stretch, atMm } = stationAlong(pieces, worst.atMm)
    const { offsetMm, car } = worst
    return { offsetMm, car, track: network.tracks[network.stretches[stretch]!.track]!.name, atMm }
  }

  /** Runs with those before and after them; a circle of runs three times round. */
  private withNeighbours(runs: readonly number[], reachMm: number): readonly number[] {
    const { network } = this
    if (network.links[runs.at(-1)! ^ 1]!.includes(runs[0]!)) return [...runs, ...runs, ...runs]
    const back = goingOn(runs.map((run) => run ^ 1).reverse(), reachMm, network)
    return [...back.map((run) => run ^ 1).reverse(), ...runs, ...goingOn(runs, reachMm, network)]
  }
}

/** Where the first curve ends and the second begins, along the pieces; as near to their middle as there is. */
function straightBetween({ first, second }: PassedReversal, pieces: readonly PassedPiece[]) {
  let last: { readonly piece: PassedPiece; readonly toMm: number; readonly sign: number } | null = null
  let atMm = 0
  const found: { readonly fromMm: number; readonly toMm: number }[] = []
  for (const piece of pieces) {
    const { startCurvature, endCurvature, lengthMm } = piece
    const begins = Math.sign(startCurvature || endCurvature)
    const fromMm = atMm
    atMm += lengthMm
    if (begins === 0) continue
    if (last && last.sign === -begins && isAt(last.piece, first) && isAt(piece, second))
      found.push({ fromMm: last.toMm, toMm: fromMm })
    last = { piece, toMm: atMm, sign: Math.sign(endCurvature || startCurvature) }
  }
  const off = ({ fromMm }: { readonly fromMm: number }) => Math.abs(fromMm - atMm / 2)
  return found.toSorted((a, b) => off(a) - off(b))[0] ?? null
}

function isAt({ stretch, element }: PassedPiece, place: PassedReversal['first']): boolean {
  return stretch === place.stretch && element === place.element
}
