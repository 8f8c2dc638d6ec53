import { awgAreaMm2 } from '../laying/wire.ts'
import { type Assume, assumed, DEFAULTS } from './complete-plan.ts'
import type { PlanMetal, Power, PowerInput, RailInput } from './plan.ts'

/** Supply and feeders with nothing left open; null where no current comes from the rails. */
export function completePower(
  input: 'none' | PowerInput | undefined,
  rail: RailInput,
  metal: PlanMetal,
  assume: Assume,
): Power | null {
  if (!input || input === 'none') return null
  const at = (name: string) => `/power/${name}`
  if (typeof rail.material === 'string' && rail.temper === undefined && metal.resistivityOhmM !== null)
    assume('/power', `rail of ${ohmMm2PerM(metal.resistivityOhmM)}`, 'the temper is not given; that of the usual one')
  const supplyVoltageV =
    input.supplyVoltageV ??
    assumed(assume, at('supplyVoltageV'), DEFAULTS.supplyVoltageV, (volt) => `${volt} V`, 'common practice')
  const pct = () =>
    input.maximumDropPct ??
    assumed(
      assume,
      at('maximumDropPct'),
      DEFAULTS.maximumDropPct,
      (share) => `${share} %`,
      'the usual limit, common practice',
    )
  if (!input.feeder) assume(at('feeder'), 'no wire', 'not given; the drop in it is left out, and it is not on the bill')
  return {
    currentA: input.currentA,
    supplyVoltageV,
    allowedDropV: input.maximumDropV ?? (supplyVoltageV * pct()) / 100,
    jointResistanceOhm:
      input.jointResistanceOhm ??
      assumed(assume, at('jointResistanceOhm'), 0, () => '0 Ω', 'joints taken to be as good as the rail; measure one'),
    feeder: input.feeder ? feederOf(input.feeder) : null,
  }
}

function feederOf({
  awg,
  areaMm2,
  length: lengthMm,
  pricePerM,
  onHand: onHandMm,
  sparePct,
}: NonNullable<PowerInput['feeder']>): Power['feeder'] {
  return {
    size: awg === undefined ? `${areaMm2} mm²` : `AWG ${awg}`,
    areaMm2: areaMm2 ?? awgAreaMm2(awg!),
    length: lengthMm,
    pricePerM: pricePerM ?? null,
    onHand: onHandMm ?? 0,
    sparePct: sparePct ?? 0,
  }
}

/** In the unit wire tables use. */
function ohmMm2PerM(resistivityOhmM: number): string {
  return `${Number((resistivityOhmM * 1e6).toPrecision(6))} Ω·mm²/m`
}
