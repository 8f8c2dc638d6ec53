import { curvaturesOf, type HillPart, type HillTrack, type Running, reversedPart } from '../hauling/hill.ts'

import { sum } from '../measure/sum.ts'
import { type GradeStretch, gradeWithin } from '../track/grade.ts'
import type { Network, Stretch } from './network.ts'
import type { NetworkTrack } from './track.ts'

/** A track of the network with its grades. */
export type HauledTrack = NetworkTrack & HillTrack

/**
 * Height and angle turned along every run (see network.ts), by its number. The legs of a turnout rise together: one along
 * which no track runs rises evenly from the points as much as the other does.
 */
export function hillParts({ stretches }: Network, tracks: readonly HauledTrack[]): HillPart[] {
  return stretches.flatMap((stretch) => {
    const lengthMm = sum(stretch.pieces.map((piece) => piece.lengthMm))
    const height = heightOf(stretch, lengthMm, tracks[stretch.track]!)
    const part = { lengthMm, height, turned: curvaturesOf(stretch.pieces) }
    return [part, reversedPart(part)]
  })
}

function heightOf({ fromMm, toMm, legOf }: Stretch, lengthMm: number, { grades, turnouts }: HauledTrack): Running[] {
  if (legOf === null) return gradesBetween(grades, fromMm, toMm)
  const turnout = turnouts.find(({ name }) => name === legOf)!
  const pieces = gradesBetween(grades, turnout.fromMm, turnout.toMm)
  const alongMm = sum(pieces.map(({ fromMm, toMm, rate, endRate }) => ((rate + endRate) / 2) * (toMm - fromMm)))
  const rate = (turnout.enters === 'points' ? alongMm : -alongMm) / lengthMm
  return [{ fromMm: 0, toMm: lengthMm, rate, endRate: rate }]
}

/** The grades between two stations, from the first on. */
function gradesBetween(grades: readonly GradeStretch[], fromMm: number, toMm: number): Running[] {
  return grades
    .filter((grade) => grade.fromMm < toMm && grade.toMm > fromMm)
    .map((grade) => {
      const [from, to] = [Math.max(grade.fromMm, fromMm), Math.min(grade.toMm, toMm)]
      return {
        fromMm: from - fromMm,
        toMm: to - fromMm,
        rate: gradeWithin(grade, from),
        endRate: gradeWithin(grade, to),
      }
    })
}
