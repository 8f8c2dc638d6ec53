import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { trimOf } from '../faults/faults.ts'
import { panelLengthMm } from '../panels.ts'
import { LIMITS } from '../rows/limits.ts'
import type { PlanInput } from '../rows/plan.ts'
import { slopeLengthMm } from '../slope.ts'
import { USUAL } from '../usual.ts'
import { listAt } from './value-at.ts'

/**
 * Which lists of a plan are too long. Such a plan is refused without further checks: checking all of it is what the
 * limits prevent.
 */
export function oversizeFaults(raw: unknown): Fault[] {
  const tracks = listAt(raw, ['tracks'])
  const elements = tracks.reduce<number>((sum, track) => sum + listAt(track, ['elements']).length, 0)
  const breaks = tracks.reduce<number>((sum, track) => sum + listAt(track, ['breaks']).length, 0)
  return [
    ...tooMany(['chords'], listAt(raw, ['chords']).length, LIMITS.chords),
    ...tooMany(['levelsAt'], listAt(raw, ['levelsAt']).length, LIMITS.levels),
    ...tooMany(['extras'], listAt(raw, ['extras']).length, LIMITS.extras),
    ...tooMany(['cars'], listAt(raw, ['cars']).length, LIMITS.cars),
    ...tooMany(['trains'], listAt(raw, ['trains']).length, LIMITS.trains),
    ...tooMany(['ground'], listAt(raw, ['ground']).length, LIMITS.groundPlaces),
    ...tooMany(['pegs'], listAt(raw, ['pegs']).length, LIMITS.planPegs),
    ...tooMany(['outline'], listAt(raw, ['outline']).length, LIMITS.corners),
    ...tooMany(['obstacles'], listAt(raw, ['obstacles']).length, LIMITS.obstacles),
    ...listAt(raw, ['obstacles']).flatMap((obstacle, index) =>
      tooMany(['obstacles', index, 'polygon'], listAt(obstacle, ['polygon']).length, LIMITS.corners),
    ),
    ...tooMany(['supplies', 'sticks'], listAt(raw, ['supplies', 'sticks']).length, LIMITS.stickLengths),
    ...tooMany(['supplies', 'panels'], listAt(raw, ['supplies', 'panels']).length, LIMITS.panels),
    ...tooMany(['tracks'], tracks.length, LIMITS.tracks),
    ...tooMany(['tracks'], elements, LIMITS.elements, 'elements in all tracks together'),
    ...tooMany(['tracks'], breaks, LIMITS.breaks, 'breaks in all tracks together'),
    ...tracks.flatMap((track, index) => [
      ...tooMany(['tracks', index, 'gradeLine'], listAt(track, ['gradeLine']).length, LIMITS.gradePoints),
      ...tooMany(['tracks', index, 'limits'], listAt(track, ['limits']).length, LIMITS.gradeLimits),
      ...tooMany(['tracks', index, 'levelsAt'], listAt(track, ['levelsAt']).length, LIMITS.levels),
      ...tooMany(['tracks', index, 'ground'], listAt(track, ['ground']).length, LIMITS.groundPoints),
      ...tooMany(['tracks', index, 'keepOut'], listAt(track, ['keepOut']).length, LIMITS.keepOut),
    ]),
  ]
}

/**
 * Whether the rails would be cut into more sticks than one answer can hold. The shortest stick that is used counts:
 * sticks on hand are used first, however short, and lose their ends to trim where they are bent.
 */
export function bulkFaults(plan: PlanInput): Fault[] {
  const { sticks, shortestMm } = mostSticks(plan)
  const path = plan.supplies?.sticks ? ['supplies', 'sticks'] : ['tracks']
  return [
    ...tooMany(path, sticks, LIMITS.sticks, `sticks of ${formatMm(shortestMm)} would be needed`),
    ...panelBulkFaults(plan),
  ]
}

/** The same for the shortest ready-made piece. */
function panelBulkFaults({ tracks, supplies }: PlanInput): Fault[] {
  const panelsMm = supplies?.panels?.map(panelLengthMm) ?? []
  if (panelsMm.length === 0) return []
  const shortestMm = Math.min(...panelsMm)
  const lengthMm = tracks.reduce((sum, track) => sum + slopeLengthMm(track), 0)
  const pieces = Math.ceil(lengthMm / shortestMm)
  return tooMany(['supplies', 'panels'], pieces, LIMITS.sticks, `pieces of ${formatMm(shortestMm, 3)} would be needed`)
}

/** Whether the plans of a comparison together exceed the limits of one plan. */
export function comparisonBulkFaults(plans: readonly PlanInput[]): Fault[] {
  const total = (of: (plan: PlanInput) => number) => plans.reduce((sum, plan) => sum + of(plan), 0)
  const elements = total(({ tracks }) => tracks.reduce((sum, track) => sum + track.elements.length, 0))
  const sticks = total((plan) => mostSticks(plan).sticks)
  return [
    ...tooMany(['materials'], elements, LIMITS.elements, 'elements in all materials together', FEWER_MATERIALS),
    ...tooMany(['materials'], sticks, LIMITS.sticks, 'sticks in all materials together', FEWER_MATERIALS),
  ]
}

const FEWER_MATERIALS = 'compare fewer materials at a time'

export function mostSticks({ tracks, supplies, bender }: PlanInput): { sticks: number; shortestMm: number } {
  const lengthMm = tracks.reduce((sum, track) => sum + slopeLengthMm(track), 0)
  const sticksMm = supplies?.sticks?.map((stick) => stick.length) ?? [USUAL.stick.length]
  const trimMm = trimOf(bender)
  const laidMm = sticksMm.map((stickMm) => (stickMm > trimMm ? stickMm - trimMm : stickMm))
  const shortestMm = Math.max(Math.min(...laidMm), supplies?.minimumPiece ?? USUAL.minimumPiece)
  return { sticks: Math.ceil((2 * lengthMm) / shortestMm), shortestMm }
}

export function tooMany(
  path: Fault['path'],
  count: number,
  most: number,
  what = 'entries',
  hint = 'split it into several plans',
): Fault[] {
  if (count <= most) return []
  return [{ path, code: 'too-many', detail: `${count} ${what}; the limit is ${most}`, hint }]
}
