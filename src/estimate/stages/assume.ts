import type { JoinedEnds } from '../../laying/joins.ts'
import { formatMm } from '../../measure/length.ts'
import type { Assumption } from '../../plan/fields/complete.ts'
import type { Plan } from '../plan.ts'
import { flangewayMm } from '../track/built-rails.ts'
import { clearanceMm, crossingsOfPlan, deckMm } from '../track/crossings-of-plan.ts'
import { joinAssumptions, type TrackToJoin } from '../track/joins.ts'
import { salvageAssumptions } from '../track/lifted.ts'
import type { Laid } from './lay-tracks.ts'

/** What was taken for granted in laying the tracks of a plan, beside its defaults. */
export function laidAssumptions({ drawn, site }: Laid, completed: Plan): Assumption[] {
  const { joins, joined, weather } = site
  return [
    ...joinAssumptions(joins, drawn),
    ...salvageAssumptions(drawn, completed),
    ...bridgeAssumptions(drawn, completed),
    ...flangewayAssumptions(site, completed),
    ...unknownRailAssumptions(joins, joined, weather !== null),
  ]
}

/** The flangeways of turnouts that are built by hand. */
function flangewayAssumptions({ built }: Laid['site'], plan: Plan): Assumption[] {
  if (built.rails.length === 0 || plan.standards.flangeway !== null) return []
  const reason = '0.06 gauges, the widest of NMRA S-3.2 for 45 mm: that of your wheel standard stands'
  return [{ field: '/standards/flangeway', value: formatMm(flangewayMm(plan), 4), reason }]
}

/** What a bridge is taken to be, where a track passes over another. */
function bridgeAssumptions(drawn: Laid['drawn'], plan: Plan): Assumption[] {
  if (crossingsOfPlan(drawn, plan).bridges.length === 0) return []
  const { clearance, deckThickness } = plan.standards
  const hasHeight = plan.cars.some(({ height }) => height !== null)
  const assumed = (field: string, mm: number, reason: string) => [
    { field: `/standards/${field}`, value: formatMm(mm, 4), reason },
  ]
  return [
    ...(clearance !== null
      ? []
      : assumed(
          'clearance',
          clearanceMm(plan),
          hasHeight ? 'the highest of the cars, and 20 mm' : 'no car has a height: own choice, no source',
        )),
    ...(deckThickness !== null ? [] : assumed('deckThickness', deckMm(plan), 'own choice, no source')),
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
