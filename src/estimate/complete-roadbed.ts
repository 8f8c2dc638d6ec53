import { type Assume, assumed, DEFAULTS } from './complete-plan.ts'
import type { Roadbed, RoadbedInput } from './plan.ts'

/** The bed with nothing left open; null where the plan has none. */
export function completeRoadbed(input: RoadbedInput | undefined, assume: Assume): Roadbed | null {
  if (!input) return null
  const at = (name: string) => `/roadbed/${name}`
  const raised = input.kind === 'raised'
  const { bag } = input
  const filledTo = filledToOf(input)
  if (input.filledTo === undefined)
    assume(
      at('filledTo'),
      filledTo,
      raised ? 'the ties of a raised bed lie in the ballast' : 'a trench is filled to the tie bottoms, common practice',
    )
  const slope =
    input.shoulderSlope ??
    (raised
      ? assumed(assume, at('shoulderSlope'), DEFAULTS.shoulderSlope, (run) => `1:${run}`, 'NEM 122')
      : assumed(assume, at('shoulderSlope'), 0, () => 'upright sides', 'a trench is dug with upright sides'))
  return {
    bed: {
      kind: input.kind,
      crownWidth: input.crownWidth,
      depthUnderTie: input.depthUnderTie,
      shoulderSlope: slope,
      filledTo,
      tie: input.tie ?? null,
    },
    shrinkagePct:
      input.shrinkagePct ??
      assumed(
        assume,
        at('shrinkagePct'),
        DEFAULTS.shrinkagePct,
        (pct) => `${pct} %`,
        'loose ballast settles by 12 to 15 % (MIL-HDBK-1005/6)',
      ),
    densityKgM3:
      input.densityKgM3 ??
      assumed(
        assume,
        at('densityKgM3'),
        DEFAULTS.ballastKgM3,
        (density) => `${density} kg/m³`,
        'loose crushed stone, common practice',
      ),
    bag:
      bag?.volumeL !== undefined ? { volumeL: bag.volumeL } : bag?.massKg !== undefined ? { massKg: bag.massKg } : null,
    price: bag?.price ?? null,
    onHand: bag?.onHand ?? 0,
    sparePct: bag?.sparePct ?? 0,
  }
}

/** How far up the ballast goes where the plan does not say. */
export function filledToOf({ kind, filledTo }: Pick<RoadbedInput, 'kind' | 'filledTo'>): 'tie-top' | 'tie-bottom' {
  return filledTo ?? (kind === 'raised' ? 'tie-top' : 'tie-bottom')
}
