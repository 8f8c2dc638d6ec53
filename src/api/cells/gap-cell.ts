import { preparePlan } from '../../estimate/plan.ts'
import { readPlan } from '../../estimate/read-plan.ts'
import { railTemperatures } from '../../estimate/track/expansion.ts'
import { growthMm } from '../../laying/expansion.ts'
import { LENGTH } from '../../plan/fields/bounds.ts'
import type { FaultCode } from '../fault-catalogue.ts'
import { asParameterFaults, PLAN_QUERY, planFromQuery } from '../request/plan-query.ts'
import { lengthParameter, numberOrTextParameter, query } from '../request/query.ts'
import { type Cell, cell, length as lengthOf, refuse, USUAL_RAIL } from './cell.ts'
import { ERRORS } from './errors-option.ts'
import { UNITS } from './units-option.ts'

const about = (description: string) => ({ param: { description } })
const temperature = (name: string, description: string) => numberOrTextParameter(name, 30).openapi(about(description))

/** Colder than any garden; only the hottest temperature affects the gap. */
const COLDEST_C = -90

/**
 * The gap between two pieces of length L: α·L·(T_hottest − T_laying), half of it from each piece (see `gapsIn`). L is the
 * length of a piece as laid. Checked in tests/api/cells.test.ts against the gaps of an estimate.
 */
const gap = cell({
  name: 'gap',
  summary: 'Gap to leave between two pieces of rail when laying them, mm',
  description:
    'Between pieces of equal length that slide in their joiners, so that they just touch when hottest. 0 if the rail is laid at that temperature or above.',
  assumes: 'that the sun makes rail 20 K hotter than the air',
  query: query({
    length: lengthParameter('PieceLength', LENGTH).openapi(about('Length of each piece.')),
    material: PLAN_QUERY.material,
    temper: PLAN_QUERY.temper,
    laying: temperature('LayingTemperature', 'Temperature of the rail when it is laid, in °C or with a unit: 65F.'),
    hottest: temperature('HottestTemperature', 'Highest temperature of the air, in °C or with a unit: 95F.'),
    sunAllowance: temperature(
      'SunAllowanceParameter',
      'How much hotter than the air rail in the sun gets, in kelvins or with a unit: 36F. 20 K when left out.',
    ).optional(),
    units: UNITS,
    errors: ERRORS,
  }),
  searches: false,
  example: 'material=brass&length=6ft&laying=15&hottest=35',
  compute: ({ length, laying, hottest, sunAllowance, material, temper, units }) => {
    const climate = { laying, coldest: COLDEST_C, hottest, ...(sunAllowance !== undefined && { sunAllowance }) }
    const rail = { section: USUAL_RAIL.section, temper, material: material ?? undefined }
    const raw = { ...planFromQuery(rail, [{ kind: 'tangent', length }]), climate }
    const read = readPlan(raw)
    if (!read.ok)
      return refuse(
        ...asParameterFaults(read.faults, ({ path, code, detail, hint }) => ({
          parameter: path[0] === 'climate' ? String(path[1] ?? 'hottest') : 'length',
          code: code as FaultCode,
          detail,
          hint,
        })),
      )
    const { plan } = preparePlan(read.plan)
    const { hottestC, layingC } = railTemperatures(plan.climate!)
    const riseK = Math.max(0, hottestC - layingC)
    return lengthOf(growthMm(plan.metal.expansionPerK!, length, riseK), units)
  },
})

export const GAP_CELLS: readonly Cell[] = [gap]
