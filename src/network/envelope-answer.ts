import { type Answer, component, length, text } from '../plan/fields/answer.ts'
import type { Side } from '../room/swept-width.ts'
import { reachOf, type SweptLine } from './swept-lines.ts'

export const ENVELOPE = component(
  'EnvelopeStation',
  'How far the cars reach from the centre line of a track at a station, square to it, and which of them.',
  {
    track: text({ title: 'Track' }),
    atMm: length({ title: 'At' }),
    leftMm: length({ says: 'To the left, seen from the start of the track.', title: 'Left' }),
    leftCar: text({ title: 'Car on the left' }),
    rightMm: length({ says: 'To the right.', title: 'Right' }),
    rightCar: text({ title: 'Car on the right' }),
  },
)

export type EnvelopeAnswer = Answer<typeof ENVELOPE>

const STEPS_IN_CAR = 8
const LEAST_STEP_MM = 20
const MOST_ROWS = 10_000

/** By track and station. Between two rows the reach changes evenly; where it stays the same there are none. */
export function envelopeAnswer(
  lines: readonly SweptLine[],
  tracks: readonly { readonly name: string }[],
): EnvelopeAnswer[] {
  const swept = lines.filter((line) => line.swept.length > 0)
  const lengthMm = swept.reduce((sum, { fromMm, toMm }) => sum + toMm - fromMm, 0)
  return swept.flatMap((line) => {
    const shortestMm = Math.min(...line.swept.map(({ envelope }) => envelope.car.lengthMm))
    const stepMm = Math.max(LEAST_STEP_MM, shortestMm / STEPS_IN_CAR, lengthMm / MOST_ROWS)
    const steps = Math.max(1, Math.ceil((line.toMm - line.fromMm) / stepMm))
    const rows = Array.from({ length: steps + 1 }, (_, step): EnvelopeAnswer => {
      const atMm = ((line.toMm - line.fromMm) * step) / steps
      const on = line.fromMm + atMm
      const car = (side: Side) => furthest(line, on, side)
      const [leftMm, rightMm] = [reachOf(line, on, 1), reachOf(line, on, -1)]
      return { track: tracks[line.track]!.name, atMm, leftMm, leftCar: car(1), rightMm, rightCar: car(-1) }
    })
    const isSame = (a: EnvelopeAnswer | undefined, b: EnvelopeAnswer) =>
      a !== undefined && a.leftMm === b.leftMm && a.rightMm === b.rightMm
    return rows.filter((row, index) => !(isSame(rows[index - 1], row) && isSame(rows[index + 1], row)))
  })
}

function furthest({ swept }: SweptLine, atMm: number, side: Side): string {
  return swept.reduce((most, each) => (each.envelope.at(atMm, side) > most.envelope.at(atMm, side) ? each : most))
    .envelope.car.name
}
