import { piecesToCover, wholePiecesIn } from '../../measure/counting.ts'
import { firstIndexWhere } from '../../measure/search.ts'
import { type Answer, component, count, flag, length, list, nullable, object, text } from '../../plan/fields/answer.ts'
import { elevationOn } from '../../track/grade.ts'
import type { GroundStation } from '../earthworks/cut-and-fill.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from './laid-track.ts'

export const TIE_LEVEL = component('TieLevel', 'The height of one tie.', {
  track: text({ title: 'Track' }),
  tie: count({ says: 'Counted from 0 at the start of the track.', title: 'Tie (the first is 0)' }),
  atMm: length({ says: 'Station of its middle, mm.', title: 'Station' }),
  elevationMm: length({
    says: 'Of the track there, as the plan gives elevations, mm.',
    title: 'Elevation of the track',
  }),
  undersideMm: length({
    says: 'Elevation of the underside of the tie, mm: with a roadbed lower by the rail and the tie, whose height counts as 0 if it is not given; without one that of the track.',
    title: 'Underside of the tie',
  }),
  groundMm: nullable(
    length({ says: 'Elevation of the ground there, mm; null where the track gives none.', title: 'Ground' }),
  ),
  shimMm: nullable(
    length({
      says: 'From the ground up to the tie, mm: so much to fill or shim; negative: so much to cut. Null without ground.',
      title: 'Fill or shim; cut below 0',
    }),
  ),
})

export const TIE_LEVELS = object({
  complete: flag('False if there are more ties than are listed: more than 25 000.'),
  ties: list(
    TIE_LEVEL,
    'Every tie of new track, at its spacing from the start; where an end joins other track, that tie as well.',
  ),
})

export type TieLevel = Answer<typeof TIE_LEVEL>
type TieLevelsAnswer = Answer<typeof TIE_LEVELS>

const MOST_TIES = 25_000

type OfTies = Pick<Plan, 'roadbed' | 'section' | 'supplies'>

/** The height of every tie of new track, and how far it is above the ground. */
export function tieLevels(tracks: readonly LaidTrack[], { roadbed, section, supplies }: OfTies): TieLevelsAnswer {
  const spacingMm = supplies.ties.spacing
  const belowMm = roadbed ? section.heightMm + (roadbed.tie?.height ?? 0) : 0
  const ties: TieLevel[] = []
  for (const track of tracks) {
    if (track.state !== 'new') continue
    const { lengthMm, closed, name, profile, ground } = track
    const number = closed ? Math.max(1, piecesToCover(lengthMm, spacingMm)) : wholePiecesIn(lengthMm, spacingMm) + 1
    const apartMm = closed ? lengthMm / number : spacingMm
    for (let tie = 0; tie < number; tie++) {
      if (ties.length === MOST_TIES) return { complete: false, ties }
      const atMm = Math.min(tie * apartMm, lengthMm)
      const elevationMm = elevationOn(profile, atMm)
      const undersideMm = elevationMm - belowMm
      const groundMm = groundAt(ground, atMm)
      ties.push({
        track: name,
        tie,
        atMm,
        elevationMm,
        undersideMm,
        groundMm,
        shimMm: groundMm === null ? null : undersideMm - groundMm,
      })
    }
  }
  return { complete: true, ties }
}

/** Straight from one station of the ground to the next; null before the first and beyond the last. */
function groundAt(ground: readonly GroundStation[], atMm: number): number | null {
  const after = firstIndexWhere(ground.length, (index) => ground[index]!.atMm >= atMm)
  const [before, next] = [ground[after - 1], ground[after]]
  if (next && next.atMm === atMm) return next.elevationMm
  if (!before || !next) return null
  const share = (atMm - before.atMm) / (next.atMm - before.atMm)
  return before.elevationMm + share * (next.elevationMm - before.elevationMm)
}
