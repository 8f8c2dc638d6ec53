import { formatMm } from '../measure/length.ts'
import { type Crossings, LEVEL_CLEARANCE_MM, MOST_LISTED, type PlanCrossing } from '../network/crossings.ts'
import type { Finding } from './finding.ts'
import { unchecked } from './not-checked.ts'

interface BridgeHeights {
  /** That must be free over the lower rails. */
  readonly clearanceMm: number
  /** From the upper rails to the underside. */
  readonly bridgeMm: number
}

/** Where tracks cross themselves or one another on the level. */
export function selfCrossings({ level, complete }: Crossings, several: boolean, bridge: BridgeHeights): Finding[] {
  const found = level.map((crossing) => findingOf(crossing, several, bridge))
  return complete ? found : [...found, notAllLookedFor(found.length)]
}

function findingOf(
  { first, firstMm, second, secondMm, apartMm }: PlanCrossing,
  several: boolean,
  { clearanceMm, bridgeMm }: BridgeHeights,
): Finding {
  const own = first.track === second.track
  const there = `element ${second.element.index + 1}, at ${formatMm(secondMm, 0)}`
  const height = apartMm === 0 ? 'at the same height' : `with only ${formatMm(apartMm)} between their heights`
  return {
    rule: 'self-crossing',
    severity: 'stop',
    track: first.track.name,
    element: first.element.index,
    message: `${several ? first.track.name : 'The track'} crosses ${own ? 'itself' : second.track.name} ${height}: at ${formatMm(firstMm, 0)} from its start it meets ${own ? 'its own ' : ''}${there}.`,
    measured: apartMm,
    limit: LEVEL_CLEARANCE_MM,
    unit: 'mm',
    cure: `Move one of them, or pass one over the other: ${formatMm(clearanceMm)} for the cars below and ${formatMm(bridgeMm)} for rails, ties and deck make ${formatMm(clearanceMm + bridgeMm)} from rail to rail.`,
  }
}

function notAllLookedFor(found: number): Finding {
  return unchecked(
    found >= MOST_LISTED
      ? `Only the first ${MOST_LISTED} crossings on the level are listed.`
      : 'Not all of this plan was searched for crossings on the level: too many of its elements lie close together.',
    'Split the plan into several.',
  )
}
