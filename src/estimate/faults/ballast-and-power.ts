import { bedSection } from '../../laying/roadbed.ts'
import { exceeds } from '../../measure/counting.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { filledToOf } from '../../plan/completing/ballast-and-power.ts'
import type { PowerInput, RoadbedInput } from '../../plan/rows/ballast-power-extras.ts'
import type { TiesInput } from '../../plan/rows/supplies.ts'
import { USUAL } from '../../plan/usual.ts'

/** Contradictions in ties, roadbed and power; parts that could not be read are left out. */
export function ballastAndPowerFaults(draft: {
  readonly ties?: TiesInput | undefined
  readonly roadbed?: RoadbedInput | undefined
  readonly power?: 'none' | PowerInput | undefined
}): Fault[] {
  return [
    ...tieFaults(draft.ties),
    ...(draft.roadbed ? roadbedFaults(draft.roadbed, draft.ties) : []),
    ...powerFaults(draft.power),
  ]
}

/** Ties closer than this cannot be laid. */
const CLOSEST_TIES_MM = 0.001

function spacingOf(ties: TiesInput | undefined): number {
  const { spacing: spacingMm, perLength } = ties ?? {}
  return spacingMm ?? (perLength ? perLength.length / perLength.count : USUAL.tieSpacing)
}

function tieFaults(ties: TiesInput | undefined): Fault[] {
  if (!ties?.perLength || spacingOf(ties) >= CLOSEST_TIES_MM) return []
  return [
    {
      path: ['supplies', 'ties', 'perLength', 'count'],
      code: 'out-of-range',
      detail: `${ties.perLength.count} ties do not fit on ${formatMm(ties.perLength.length, 3)}`,
      hint: 'count the ties under one length of rail, such as 24 under 39 ft',
    },
  ]
}

function roadbedFaults(roadbed: RoadbedInput, ties: TiesInput | undefined): Fault[] {
  const { kind, crownWidth: crownWidthMm, shoulderSlope, tie } = roadbed
  const filledTo = filledToOf(roadbed)
  const faults: Fault[] = []
  const refuse = (field: readonly string[], code: string, detail: string, hint: string) =>
    faults.push({ path: ['roadbed', ...field], code, detail, hint })

  if (filledTo === 'tie-top' && !tie)
    refuse(
      ['tie'],
      'missing',
      'the ballast goes up to the tops of the ties, and the size of a tie is not given',
      'give length, width and height of a tie, or "filledTo": "tie-bottom"',
    )
  if (filledTo === 'tie-top' && tie && exceeds(tie.length, crownWidthMm))
    refuse(
      ['crownWidth'],
      'contradictory',
      `ties of ${formatMm(tie.length, 3)} are wider than the crown of ${formatMm(crownWidthMm, 3)}`,
      'the crown is as wide as the ties plus a shoulder on each side',
    )
  if (tie && exceeds(tie.width, spacingOf(ties)))
    refuse(
      ['tie', 'width'],
      'contradictory',
      `ties ${formatMm(tie.width, 3)} wide overlap at a spacing of ${formatMm(spacingOf(ties), 3)}`,
      'the width of a tie is measured along the track',
    )
  const bed = { ...roadbed, shoulderSlope: shoulderSlope ?? 0, filledTo, tie: tie ?? null }
  if (kind === 'trench' && !exceeds(bedSection(bed).baseWidthMm, 0))
    refuse(
      [shoulderSlope === undefined ? 'crownWidth' : 'shoulderSlope'],
      'contradictory',
      'the sides of the trench meet above its bottom',
      'make the sides steeper (a smaller slope), or the trench wider or shallower',
    )
  return faults
}

function powerFaults(power: 'none' | PowerInput | undefined): Fault[] {
  if (!power || power === 'none' || power.maximumDropV === undefined) return []
  const supplyVoltageV = power.supplyVoltageV ?? USUAL.supplyVoltageV
  if (power.maximumDropV < supplyVoltageV) return []
  return [
    {
      path: ['power', 'maximumDropV'],
      code: 'contradictory',
      detail: `a drop of ${power.maximumDropV} V leaves nothing of a supply of ${supplyVoltageV} V`,
      hint: 'allow only a part of the supply voltage, or give supplyVoltageV',
    },
  ]
}
