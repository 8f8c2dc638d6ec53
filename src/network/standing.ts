import { exceeds, LENGTH_SLACK_MM, wholePiecesIn } from '../measure/counting.ts'
import type { Fouled } from './fouling.ts'
import type { Network } from './network.ts'

/** A stretch of a track on which cars stand clear of all turnouts and crossings. */
export interface Standing {
  /** Index of the track. */
  readonly track: number
  readonly fromMm: number
  /** Less than fromMm where it goes over the start of a closed track. */
  readonly toMm: number
  readonly clearMm: number
}

/**
 * What of each track lies between its fouling points, in the order of its stations; lifted track is left out. A track on
 * which nothing stands clear has one stretch of no length, where the first of what fouls it ends.
 */
export function standingOn({ tracks }: Network, fouled: readonly Fouled[]): Standing[] {
  return tracks.flatMap(({ state, closed, lengthMm }, track) => {
    if (state === 'lifted') return []
    const own = fouled.filter((each) => each.track === track).toSorted((a, b) => a.fromMm - b.fromMm)
    const found = free(track, lengthMm, own)
    const [first, last] = [found[0], found.at(-1)]
    const isRound = closed && first && last && first !== last && first.fromMm === 0 && last.toMm === lengthMm
    if (isRound)
      return [
        ...found.slice(1, -1),
        { track, fromMm: last.fromMm, toMm: first.toMm, clearMm: last.clearMm + first.clearMm },
      ]
    const nowhere = Math.min(lengthMm, own[0]?.toMm ?? 0)
    return found.length > 0 ? found : [{ track, fromMm: nowhere, toMm: nowhere, clearMm: 0 }]
  })
}

function free(track: number, lengthMm: number, fouled: readonly Fouled[]): Standing[] {
  const found: Standing[] = []
  let fromMm = 0
  for (const each of [...fouled, { fromMm: lengthMm, toMm: lengthMm }]) {
    if (exceeds(each.fromMm, fromMm)) found.push({ track, fromMm, toMm: each.fromMm, clearMm: each.fromMm - fromMm })
    fromMm = Math.max(fromMm, each.toMm)
  }
  return found
}

export interface TrainToStand {
  readonly name: string
  readonly lengthMm: number
}

/** The trains that fit, and pairs of different trains that fit one behind the other, as they are listed. */
export function trainsOn(
  { clearMm }: Standing,
  trains: readonly TrainToStand[],
): { readonly one: string[]; readonly two: [string, string][] } {
  const fits = (lengthMm: number) => lengthMm <= clearMm + LENGTH_SLACK_MM
  const one = trains.filter(({ lengthMm }) => fits(lengthMm))
  const two = one.flatMap((first, index) =>
    one
      .slice(index + 1)
      .filter((second) => fits(first.lengthMm + second.lengthMm))
      .map((second): [string, string] => [first.name, second.name]),
  )
  return { one: one.map(({ name }) => name), two }
}

/** How many cars of a length stand there. */
export function carsOn({ clearMm }: Standing, carMm: number): number {
  return wholePiecesIn(clearMm, carMm)
}
