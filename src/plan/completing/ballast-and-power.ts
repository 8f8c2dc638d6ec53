import { MATERIALS } from '../../catalogue/materials.ts'
import { type Assume, completed, completing } from '../fields/complete.ts'
import type { Open } from '../fields/field.ts'
import {
  POWER_SUPPLY,
  type PowerInput,
  RAISED_SLOPE,
  ROADBED,
  type Roadbed,
  type RoadbedInput,
} from '../rows/ballast-power-extras.ts'
import { EARTHWORKS, type EarthworksSettings } from '../rows/earthworks.ts'
import type { WholePlan } from '../rows/plan.ts'
import type { RailInput } from '../rows/rail.ts'

/** The complete bed; null where the plan has none. */
export function completeRoadbed(roadbed: RoadbedInput | undefined, assume: Assume): Roadbed | null {
  if (!roadbed) return null
  const raised = roadbed.kind === 'raised'
  const { field, whole } = completing(ROADBED, roadbed, '/roadbed', assume)
  field('filledTo', {
    value: filledToOf(roadbed),
    because: raised
      ? 'the ties of a raised bed are embedded in the ballast'
      : 'a trench is filled to the bottoms of the ties, common practice',
    shown: filledToOf(roadbed),
  })
  field(
    'shoulderSlope',
    raised
      ? { value: RAISED_SLOPE, because: 'NEM 122', shown: `1:${RAISED_SLOPE}` }
      : { value: 0, because: 'a trench is dug with vertical sides', shown: 'vertical sides' },
  )
  return whole()
}

/** How far up the ballast goes where the plan does not say. */
export function filledToOf({ kind, filledTo }: Pick<RoadbedInput, 'kind' | 'filledTo'>): 'tie-top' | 'tie-bottom' {
  return filledTo ?? (kind === 'raised' ? 'tie-top' : 'tie-bottom')
}

/** How a plan that gives its ground is cut and filled. What follows from the bed of ballast is worked out later. */
export function completeEarthworks(given: Open<typeof EARTHWORKS.fields>, assume: Assume): EarthworksSettings {
  return completed(EARTHWORKS, given, '/earthworks', assume)
}

/** The complete supply and feeders; null where the plan has no power. */
export function completePower(
  power: 'none' | PowerInput | undefined,
  rail: RailInput,
  assume: Assume,
): WholePlan['power'] {
  if (typeof power !== 'object') return power ?? null
  if (typeof rail.material === 'string' && rail.temper === undefined) assumeResistivity(rail.material, assume)
  const { field, whole } = completing(POWER_SUPPLY, power, '/power', assume)
  field('supplyVoltageV')
  if (!power.feeder)
    assume('/power/feeder', 'no wire', 'not given; its voltage drop is ignored, and it is not on the bill')
  if (power.maximumDropV !== undefined) field('maximumDropPct', 'silent')
  return whole()
}

function assumeResistivity(name: string, assume: Assume): void {
  const material = MATERIALS.find(({ id }) => id === name)!
  const { resistivityOhmM } = material.tempers.find(({ id }) => id === material.usualTemper)!
  assume('/power', `rail of ${ohmMm2PerM(resistivityOhmM)}`, 'the temper is not given; that of the usual temper')
}

/** In the unit of wire tables. */
function ohmMm2PerM(resistivityOhmM: number): string {
  return `${Number((resistivityOhmM * 1e6).toPrecision(6))} Ω·mm²/m`
}
