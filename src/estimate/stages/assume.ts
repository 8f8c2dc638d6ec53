import type { JoinedEnds } from '../../laying/joins.ts'
import type { Assumption } from '../../plan/fields/complete.ts'
import type { Plan } from '../plan.ts'
import { joinAssumptions, type TrackToJoin } from '../track/joins.ts'
import { salvageAssumptions } from '../track/lifted.ts'
import type { Laid } from './lay-tracks.ts'

/** What was taken for granted in laying the tracks of a plan, beside its defaults. */
export function laidAssumptions({ drawn, site: { joins, joined, weather } }: Laid, completed: Plan): Assumption[] {
  return [
    ...joinAssumptions(joins, drawn),
    ...salvageAssumptions(drawn, completed),
    ...unknownBeyond(joins, joined, weather !== null),
  ]
}

/** Track that is there already has pieces nobody has told of. */
function unknownBeyond(joins: readonly TrackToJoin[], joined: readonly JoinedEnds[], inWeather: boolean): Assumption[] {
  if (!inWeather) return []
  return joins.flatMap(({ track, index }, place) =>
    joined[place]!.existing.map((end) => ({
      field: `/tracks/${index}/joinsExisting/${end}`,
      value: 'as much rail moves to the joint from the other side',
      reason: `the gap at the ${end} of ${track.name}: how long the rail beyond it is is not known`,
    })),
  )
}
