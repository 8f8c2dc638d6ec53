import { railRadii, sheetOf } from '../bending/bends.ts'
import { SECTIONS } from '../catalogue/sections.ts'
import { oneCurve } from '../estimate/questions/one-curve.ts'
import { curveFaults } from '../estimate/questions/read-curve.ts'
import type { Fault } from '../measure/fault.ts'
import { formatMm } from '../measure/length.ts'
import type { BenderInput } from '../plan/rows/bender.ts'
import { USUAL } from '../plan/usual.ts'
import type { Bends } from './answers/bends.ts'
import type { FaultCode } from './fault-catalogue.ts'
import type { ParameterFault } from './problem.ts'
import type { BendsRequest } from './request/bends-query.ts'

/** The section assumed for a curve without one. */
const USUAL_SECTION = '250'

export type BendsAnswer =
  | { readonly ok: true; readonly bends: Bends }
  | { readonly ok: false; readonly faults: readonly ParameterFault[] }

/**
 * Both rails of one curve, or all faults of the parameters. Without a material the answer has the ordinates only, since
 * they do not depend on it.
 */
export function answerBends(request: BendsRequest): BendsAnswer {
  const faults = combinationFaults(request)
  const { radius, diameter, temper, material, section = USUAL_SECTION } = request
  const radiusMm = radius ?? (diameter === undefined ? undefined : diameter / 2)
  const bender = benderOf(request)
  const rail = { section, material, temper }
  const curve = radius === undefined ? 'diameter' : 'radius'
  const { gauge: gaugeMm, chord: chordsMm, resolution: resolutionMm } = request
  faults.push(...inParameters(curveFaults({ radius: radiusMm, gauge: gaugeMm, rail, bender, chords: chordsMm }), curve))
  if (faults.length > 0 || radiusMm === undefined) return { ok: false, faults }

  if (material === undefined) return ordinatesAlone(request, radiusMm)
  const answer = oneCurve({
    radius: radiusMm,
    gauge: gaugeMm,
    rail: { section, material, temper },
    chords: chordsMm,
    bender,
    resolution: resolutionMm,
  })
  if (!answer.ok) return { ok: false, faults: inParameters(answer.faults, curve) }
  const { trackRadiusMm, rails } = answer.curve
  // Without bender parameters, bending loose rail by hand is not listed as an assumption.
  const relevant = answer.curve.assumptions.filter(({ field }) => bender || !field.startsWith('/bender/'))
  const assumptions = relevant.map((one) => ({
    ...one,
    field: parameterOf(one.field.split('/').slice(1), curve),
  }))
  return { ok: true, bends: { trackRadiusMm, rails, assumptions: [...sectionAssumed(request), ...assumptions] } }
}

function combinationFaults({ radius, diameter, temper, material, ...request }: BendsRequest): ParameterFault[] {
  const faults: ParameterFault[] = []
  const needsMaterial = temper !== undefined ? 'a temper' : benderOf(request) ? 'a bender' : null
  if (needsMaterial !== null && material === undefined)
    faults.push({
      parameter: 'material',
      code: 'missing',
      detail: `${needsMaterial} has no effect without a material`,
      hint: 'give material as well',
    })
  if (radius !== undefined && diameter !== undefined)
    faults.push({
      parameter: 'radius',
      code: 'contradictory',
      detail: 'both radius and diameter are given',
      hint: 'keep one of them',
    })
  if (request.benderScrewPitch !== undefined && request.benderTurnsPerInch !== undefined)
    faults.push({
      parameter: 'benderTurnsPerInch',
      code: 'contradictory',
      detail: 'both benderScrewPitch and benderTurnsPerInch are given',
      hint: 'keep one of them',
    })
  if (radius === undefined && diameter === undefined)
    faults.push({
      parameter: 'radius',
      code: 'missing',
      detail: 'neither radius nor diameter is given',
      hint: 'give one, such as diameter=20ft',
    })
  return faults
}

/** Undefined if no bender parameter is given. */
function benderOf(request: BendsRequest): BenderInput | undefined {
  const bender = {
    work: request.benderWork,
    span: request.benderSpan,
    outerRollerRadius: request.benderOuterRollerRadius,
    bearsOn: request.benderBearsOn,
    mode: request.benderMode,
    maxPerPass: request.benderMaxPerPass,
    screwPitch: request.benderScrewPitch,
    turnsPerInch: request.benderTurnsPerInch,
  }
  return Object.values(bender).some((value) => value !== undefined) ? bender : undefined
}

function ordinatesAlone(request: BendsRequest, trackRadiusMm: number): BendsAnswer {
  const { section = USUAL_SECTION, chord: chordsMm = USUAL.chords, gauge: gaugeMm = USUAL.gauge } = request
  const resolutionMm = request.resolution ?? USUAL.resolution
  const { headWidthMm } = SECTIONS.find(({ id }) => id === section)!
  const rails = (['outer', 'inner'] as const).map((rail) => {
    const radii = railRadii(trackRadiusMm, rail, gaugeMm, headWidthMm)
    return { rail, ...radii, ...sheetOf(radii.measuredRadiusMm, null, { chordsMm, resolutionMm }) }
  })
  const answered = rails.map(({ leftOutMm: _, ...rail }) => rail)
  return {
    ok: true,
    bends: { trackRadiusMm, rails: answered, assumptions: [...sectionAssumed(request), ...othersAssumed(request)] },
  }
}

function sectionAssumed({ section }: BendsRequest): Bends['assumptions'] {
  return section === undefined ? [{ field: 'section', value: USUAL_SECTION, reason: 'not given' }] : []
}

function othersAssumed(request: BendsRequest): Bends['assumptions'] {
  const assumed = [
    { field: 'gauge', value: formatMm(USUAL.gauge), reason: 'not given' },
    { field: 'chord', value: USUAL.chords.map((mm) => formatMm(mm)).join(' and '), reason: 'not given' },
    { field: 'resolution', value: formatMm(USUAL.resolution), reason: 'not given' },
  ] as const
  return assumed.filter(({ field }) => request[field] === undefined)
}

function inParameters(faults: readonly Fault[], curve: string): ParameterFault[] {
  return faults.map(({ path, code, detail, hint }) => ({
    parameter: parameterOf(path, curve),
    code: code as FaultCode,
    detail,
    hint,
  }))
}

/** The parameter for a place in a plan. */
function parameterOf(path: Fault['path'], curve: string): string {
  const [part, field] = path.map(String)
  if (part === 'bender') return `bender${field!.charAt(0).toUpperCase()}${field!.slice(1)}`
  if (part === 'chords') return 'chord'
  if (part === 'radius') return curve
  return part === 'rail' ? field! : part!
}
