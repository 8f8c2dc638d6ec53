import { ordinatesOf, railRadii } from '../bending/bends.ts'
import { SECTIONS } from '../catalogue/sections.ts'
import { DEFAULTS } from '../estimate/complete-plan.ts'
import { planFaults } from '../estimate/faults.ts'
import { formatMm } from '../measure/length.ts'
import type { FaultCode } from './fault-catalogue.ts'
import type { ParameterFault } from './problem.ts'
import type { Bends, BendsRequest } from './schemas/bends.ts'

/** The section that is assumed when a curve alone is asked about. */
const USUAL_SECTION = '250'
const RAILS = ['outer', 'inner'] as const

export type BendsAnswer =
  | { readonly ok: true; readonly bends: Bends }
  | { readonly ok: false; readonly faults: readonly ParameterFault[] }

/** The ordinates of both rails of one curve, or every parameter that stands in the way. */
export function answerBends(request: BendsRequest): BendsAnswer {
  const { radius, diameter, temper, material, section = USUAL_SECTION } = request
  const gaugeMm = request.gauge ?? DEFAULTS.gaugeMm
  const chordsMm = request.chord ?? DEFAULTS.chordsMm
  const faults: ParameterFault[] = []
  if (temper !== undefined && material === undefined)
    faults.push({
      parameter: 'material',
      code: 'missing',
      detail: 'a temper belongs to a material',
      hint: 'give material too',
    })
  if (radius !== undefined && diameter !== undefined)
    faults.push({
      parameter: 'radius',
      code: 'contradictory',
      detail: 'both radius and diameter are given',
      hint: 'keep one of them',
    })
  const radiusMm = radius ?? (diameter === undefined ? undefined : diameter / 2)
  if (radiusMm === undefined) {
    faults.push({
      parameter: 'radius',
      code: 'missing',
      detail: 'neither radius nor diameter is given',
      hint: 'give one, such as diameter=20ft',
    })
    return { ok: false, faults }
  }
  const curve = radius === undefined ? 'diameter' : 'radius'
  faults.push(...asOneCurvePlan({ radiusMm, gaugeMm, section, material, temper }, curve))
  if (faults.length > 0) return { ok: false, faults }

  const { headWidthMm } = SECTIONS.find(({ id }) => id === section)!
  const rails = RAILS.map((rail) => ({ rail, ...railRadii(radiusMm, rail, gaugeMm, headWidthMm) }))
  const answered = rails.map(({ rail, radiusMm, measuredRadiusMm }) => ({
    rail,
    radiusMm,
    measuredRadiusMm,
    ordinates: chordsMm.flatMap((chordMm) => ordinatesOf(measuredRadiusMm, chordMm) ?? []),
  }))
  const longestMm = 2 * Math.min(...rails.map(({ measuredRadiusMm }) => measuredRadiusMm))
  const tooLong = chordsMm.filter((chordMm) => chordMm > longestMm)
  if (tooLong.length > 0) return { ok: false, faults: tooLong.map((chordMm) => chordFault(chordMm, longestMm)) }
  return { ok: true, bends: { trackRadiusMm: radiusMm, rails: answered, assumptions: assumptionsOf(request) } }
}

interface OneCurve {
  readonly radiusMm: number
  readonly gaugeMm: number
  readonly section: string
  readonly material: string | undefined
  readonly temper: string | undefined
}

/** Holds a curve against the rules of a plan that has nothing but this curve. */
function asOneCurvePlan(
  { radiusMm, gaugeMm, section, material = '', temper }: OneCurve,
  curve: string,
): ParameterFault[] {
  const elements = [{ kind: 'arc', radiusMm, size: { angleRad: 1 }, turn: 'left' }] as const
  const faults = planFaults({ gaugeMm, rail: { section, material, temper }, tracks: [{ elements }] })
  return faults.map(({ path, code, detail, hint }) => {
    const field = String(path.at(-1))
    return { parameter: field === 'radius' ? curve : field, code: code as FaultCode, detail, hint }
  })
}

function chordFault(chordMm: number, longestMm: number): ParameterFault {
  return {
    parameter: 'chord',
    code: 'out-of-range',
    detail: `a chord of ${formatMm(chordMm, 3)} does not fit into the inner rail; ${formatMm(longestMm, 3)} is the longest`,
    hint: 'take a shorter chord',
  }
}

function assumptionsOf(request: BendsRequest): Bends['assumptions'] {
  const assumed = [
    { field: 'section', value: USUAL_SECTION, reason: 'not given; only its head width counts here' },
    { field: 'gauge', value: formatMm(DEFAULTS.gaugeMm), reason: 'not given' },
    { field: 'chord', value: DEFAULTS.chordsMm.map((mm) => formatMm(mm)).join(' and '), reason: 'not given' },
  ] as const
  return assumed.filter(({ field }) => request[field] === undefined)
}
