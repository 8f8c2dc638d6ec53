import { MATERIALS } from '../catalogue/materials.ts'
import type { BreakKind } from '../laying/breaks.ts'
import { formatMm } from '../measure/length.ts'
import { formatKelvins } from '../measure/temperature.ts'
import type { Assume } from './complete-plan.ts'
import type { Climate, ClimateInput, Joints, Plan, PlanInput, Track } from './plan.ts'

/** Common practice, no source. */
export const JOINT_DEFAULTS = {
  sunAllowanceK: 20,
  kind: 'sliding',
  gapLimitMm: 2.5,
  expansionJointLimitMm: 10,
  insulatorThicknessMm: 1,
} as const

/** The rail's own temperatures: in the sun it is hotter than the air. Null where the plan says nothing of the weather. */
export function completeClimate(climate: ClimateInput | undefined, assume: Assume): Climate | null {
  if (!climate) return null
  const { laying: layingC, coldest: coldestC, hottest: hottestC, sunAllowance: sunAllowanceK } = climate
  if (sunAllowanceK === undefined)
    assume(
      '/climate/sunAllowance',
      formatKelvins(JOINT_DEFAULTS.sunAllowanceK),
      'rail in the sun is hotter than the air, common practice, no source',
    )
  return { layingC, coldestC, hottestC: hottestC + (sunAllowanceK ?? JOINT_DEFAULTS.sunAllowanceK) }
}

/** How rail is joined. What only matters in the weather is not assumed in a plan that says nothing of it. */
export function completeJoints(
  { climate, joints = {} }: Pick<PlanInput, 'climate' | 'joints'>,
  tracks: readonly Track[],
  assume: Assume,
): Joints {
  const usual = <T>(field: keyof typeof AT, given: T | undefined, value: T, shown: string, matters = true): T => {
    if (given === undefined && climate && matters)
      assume(`/joints/${field}`, shown, `${AT[field]}, common practice, no source`)
    return given ?? value
  }
  const has = (kind: BreakKind) => tracks.some(({ breaks }) => breaks.some((each) => each.kind === kind))
  const { gapLimitMm, expansionJointLimitMm, insulatorThicknessMm } = JOINT_DEFAULTS
  const kind = usual('kind', joints.kind, JOINT_DEFAULTS.kind, JOINT_DEFAULTS.kind)
  if (joints.stagger === undefined && joints.arrangement !== 'square')
    assume('/joints/stagger', 'none', 'not asked for: joints of the two rails may lie opposite each other')
  const made = has('expansion-joint') || kind === 'clamped'
  return {
    kind,
    arrangement: joints.arrangement ?? 'staggered',
    stagger: joints.stagger ?? null,
    betweenTies: joints.betweenTies ?? false,
    held: joints.held ?? false,
    gapLimit: usual('gapLimit', joints.gapLimit, gapLimitMm, formatMm(gapLimitMm)),
    expansionJointLimit: usual(
      'expansionJointLimit',
      joints.expansionJointLimit,
      expansionJointLimitMm,
      formatMm(expansionJointLimitMm),
      made,
    ),
    insulatorThickness: usual(
      'insulatorThickness',
      joints.insulatorThickness,
      insulatorThicknessMm,
      formatMm(insulatorThicknessMm),
      has('insulated'),
    ),
  }
}

const AT = {
  kind: 'joiners in which the rail slides',
  gapLimit: 'the widest gap a joiner can take',
  expansionJointLimit: 'the widest gap an expansion joint can take',
  insulatorThickness: 'what an insulated joiner keeps between the rail ends',
} as const

/** Whose expansion is taken where the temper is not named. */
export function assumeExpansion({ metal, climate }: Pick<Plan, 'metal' | 'climate'>, assume: Assume): void {
  if (!climate || metal.temper !== null || metal.expansionPerK === null) return
  const material = MATERIALS.find(({ id }) => id === metal.id)
  if (!material) return
  assume(
    '/rail/temper',
    `expands by ${(metal.expansionPerK * 1e6).toFixed(1)} millionths per kelvin`,
    `not given; as ${material.usualTemper} ${material.name.toLowerCase()} does`,
  )
}
