import { type Assume, completing, SILENT } from '../fields/complete.ts'
import { breakOf, RAIL_PART_NAMES } from '../rows/parts.ts'
import type { WholeRail } from '../rows/rail.ts'
import {
  type Panel,
  SUPPLIES,
  type Supplies,
  type SuppliesInput,
  TIES,
  type Ties,
  type TiesInput,
} from '../rows/supplies.ts'
import { thereAt, type WholeTrack } from '../rows/track.ts'
import { hasBreak } from './joints.ts'

/** Supplies that only some plans need are not assumed in the others. */
export function completeSupplies(
  supplies: SuppliesInput,
  rail: Pick<WholeRail, 'section'>,
  tracks: readonly WholeTrack[],
  assume: Assume,
): Supplies {
  const where = (needed: boolean) => (needed ? undefined : 'silent')
  const { field, whole } = completing(SUPPLIES, supplies, '/supplies', assume)
  field('sticks')
  field('currency')
  field('panels')
  field('readyMade', where((supplies.panels ?? []).length > 0))
  field('joiners')
  field('transitionJoiners', where(tracks.some((track) => transitionsOf(track, rail.section) > 0)))
  field('ties', (ties) => completeTies(ties ?? {}, assume))
  field('fasteners')
  for (const name of RAIL_PART_NAMES) {
    const kind = breakOf(name)
    if (kind) field(name, where(hasBreak(tracks, kind)))
  }
  return whole()
}

/** Only the ready-made pieces of a plan. */
export function panelsOf(supplies: SuppliesInput = {}): readonly Panel[] {
  const { field } = completing(SUPPLIES, supplies, '', SILENT)
  return field('panels')
}

/** At how many ends new track meets another section. */
export function transitionsOf(
  track: Pick<WholeTrack, 'state' | 'joinsExisting'>,
  section: WholeRail['section'],
): number {
  if (track.state !== 'new') return 0
  return (['start', 'end'] as const).filter((end) => {
    const there = thereAt(track, end)
    return there !== null && there.section !== section
  }).length
}

const MOULDED = { value: 0, because: 'moulded strips hold the rail without fasteners' }

/** Ties with their spacing, single or in strips. Moulded strips hold the rail without fasteners. */
function completeTies(ties: TiesInput, assume: Assume): Ties {
  const { strip, perLength } = ties
  const { field, whole } = completing(TIES, ties, '/supplies/ties', assume)
  field('packSize', strip && 'silent')
  field('onHand', strip && 'silent')
  field('strip')
  field('spacing', perLength && (() => perLength.length / perLength.count))
  field('fastenersPerTie', strip && MOULDED)
  return whole()
}
