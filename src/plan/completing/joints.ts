import { MATERIALS } from '../../catalogue/materials.ts'
import { type Assume, completing } from '../fields/complete.ts'
import { type Climate, JOINTS, type Joints, type JointsInput } from '../rows/joints.ts'
import type { RailInput } from '../rows/rail.ts'
import type { BreakKind, WholeTrack } from '../rows/track.ts'

/** How rail is joined. What only matters with a climate is not assumed in a plan without one. */
export function completeJoints(
  joints: JointsInput,
  climate: Climate | null,
  tracks: readonly WholeTrack[],
  assume: Assume,
): Joints {
  const inWeather = (matters: boolean) => (climate && matters ? undefined : 'silent')
  const clamped = joints.kind === 'clamped'
  const { field, whole } = completing(JOINTS, joints, '/joints', assume)
  field('kind', inWeather(true))
  field('stagger', (given, at) => {
    if (given === undefined && joints.arrangement !== 'square')
      assume(at, 'none', 'not given: joints of the two rails may be opposite each other')
    return given ?? null
  })
  field('gapLimit', inWeather(true))
  field('expansionJointLimit', inWeather(clamped || hasBreak(tracks, 'expansion-joint')))
  field('insulatorThickness', inWeather(hasBreak(tracks, 'insulated')))
  return whole()
}

export function hasBreak(tracks: readonly WholeTrack[], kind: BreakKind): boolean {
  return tracks.some(({ breaks }) => breaks.some((each) => each.kind === kind))
}

/** The assumed expansion where the temper is not named. */
export function assumeExpansion({ material: name, temper }: RailInput, climate: Climate | null, assume: Assume): void {
  if (!climate || temper !== undefined || typeof name !== 'string') return
  const material = MATERIALS.find(({ id }) => id === name)!
  const usual = material.tempers.find(({ id }) => id === material.usualTemper)!
  assume(
    '/rail/temper',
    `expands by ${(usual.expansionPerK * 1e6).toFixed(1)} millionths per kelvin`,
    `not given; that of ${material.usualTemper} ${material.name.toLowerCase()}`,
  )
}
