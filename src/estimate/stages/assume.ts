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
    ...unknownRailAssumptions(joins, joined, weather !== null),
  ]
}

/** The pieces of existing track are not known. */
function unknownRailAssumptions(
  joins: readonly TrackToJoin[],
  joined: readonly JoinedEnds[],
  inWeather: boolean,
): Assumption[] {
  if (!inWeather) return []
  return joins.flatMap(({ track, index }, place) =>
    joined[place]!.existing.map((end) => ({
      field: `/tracks/${index}/joinsExisting/${end}`,
      value: 'the rail beyond the joint expands as much as the rail on this side',
      reason: `for the gap at the ${end} of ${track.name}: the length of the rail beyond it is not known`,
    })),
  )
}
