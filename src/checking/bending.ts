import type { BendForming, CalibrationAnswer } from '../bending/forming/types.ts'
import type { Metal } from '../bending/metal.ts'
import { unloadsElastically } from '../bending/residual-stress.ts'
import { MOST_PASSES } from '../bending/roller/pass-schedule.ts'
import type { RollerBender } from '../bending/roller/roller-bender.ts'
import { formatMm } from '../measure/length.ts'
import type { Finding } from './finding.ts'

/** Above this share of its elongation a metal may crack at a nick or a saw mark. Common practice, no source. */
const SHARE_TO_WARN = 0.5

/** What these findings need of a bend; a single curve has no place in a plan. */
export interface FormedBend {
  readonly track: string | null
  readonly element: number | null
  readonly rail: 'outer' | 'inner'
  readonly forming: BendForming
}

/** What is bent, and with what. */
export interface MetalOfBends {
  readonly name: string
  /** Null where there is no single yield. */
  readonly metal: Metal | null
  readonly roller: RollerBender | null
}

const OF_PLAN = { track: null, element: null }

/**
 * Findings about bending the rails of a plan: what is not known about the metal, and where it is strained too far. Rail
 * that is sprung in is not bent.
 */
export function bendingFindings(
  bends: readonly FormedBend[],
  calibration: CalibrationAnswer | null,
  { name, metal, roller }: MetalOfBends,
): Finding[] {
  const bent = bends.filter(({ forming }) => forming.method !== 'spring-in')
  return [
    ...unknownTemper(bent, name),
    ...calibrationFindings(calibration),
    ...highStrain(bent),
    ...(metal ? reverseYield(bent, metal) : []),
    ...(metal && roller ? rollerFindings(bent, roller) : []),
  ]
}

function unknownTemper(bends: readonly FormedBend[], metalName: string): Finding[] {
  const first = bends[0]?.forming
  if (!first || first.basis !== null) return []
  const { lowMm, highMm } = first.band
  return [
    {
      ...OF_PLAN,
      rule: 'temper-unknown',
      severity: 'note',
      message: `The temper of the rail is not given. For the same curve, ${metalName.toLowerCase()} is bent to ${lowMm.toFixed(0)} mm in one temper and to ${highMm.toFixed(0)} mm in another.`,
      measured: null,
      limit: null,
      unit: null,
      cure: 'Make a test bend: bend an offcut to a known radius, release it, measure the radius it keeps, and enter both under calibration. Or name the temper, if the seller states it.',
    },
  ]
}

function calibrationFindings(calibration: CalibrationAnswer | null): Finding[] {
  const found: Finding[] = []
  if (calibration && !calibration.consistent)
    found.push({
      ...OF_PLAN,
      rule: 'calibration-inconsistent',
      severity: 'warn',
      message: 'The test bends contradict each other by more than their reading errors.',
      measured: null,
      limit: null,
      unit: null,
      cure: 'Measure them again. If they are right, the sticks differ in hardness: calibrate each batch separately.',
    })
  const tellsYield = calibration?.tells.some((told) => told === 'yield' || told === 'yield-or-offset')
  if (calibration && tellsYield && calibration.determined === 'poorly')
    found.push({
      ...OF_PLAN,
      rule: 'calibration-poor',
      severity: 'note',
      message: 'The test bends leave the yield uncertain by more than 15 %.',
      measured: null,
      limit: null,
      unit: null,
      cure: 'Bend another offcut, tighter, and measure it over a longer chord.',
    })
  return found
}

function highStrain(bends: readonly FormedBend[]): Finding[] {
  return bends.flatMap(({ track, element, rail, forming: { maxStrainPct, elongationPct } }): Finding[] => {
    if (maxStrainPct === null || elongationPct === null || maxStrainPct < SHARE_TO_WARN * elongationPct) return []
    return [
      {
        rule: 'over-strained',
        severity: maxStrainPct >= elongationPct ? 'stop' : 'warn',
        track,
        element,
        message: `Bending the ${rail} rail strains its outer edge by ${maxStrainPct.toFixed(1)} %; this metal breaks at about ${elongationPct} %.`,
        measured: maxStrainPct,
        limit: elongationPct,
        unit: '%',
        cure: 'Use a larger radius or a softer temper, or have the rail annealed.',
      },
    ]
  })
}

/** One note per curve, whichever of its rails it is. */
function reverseYield(bends: readonly FormedBend[], metal: Metal): Finding[] {
  return oncePerCurve(bends, ({ track, element, forming: { residualStressMpa } }) => {
    if (residualStressMpa === null || unloadsElastically(metal, residualStressMpa)) return null
    return {
      rule: 'yields-backwards',
      severity: 'note',
      track,
      element,
      message: `When this bend is released, the stress at the rail’s outer edge reverses to ${(-residualStressMpa).toFixed(0)} MPa, above the yield of ${metal.yieldMpa.toFixed(0)} MPa: the rail springs back further than calculated.`,
      measured: -residualStressMpa,
      limit: metal.yieldMpa,
      unit: 'MPa',
      cure: 'Bend a little tighter than calculated, measure, and bend again where the radius is still too large.',
    }
  })
}

/** Rollers too far apart for a curve, test passes that do not apply to it, or too many passes to list. */
function rollerFindings(bends: readonly FormedBend[], { spanMm, maxPerPassMm }: RollerBender): Finding[] {
  return oncePerCurve(bends, ({ track, element, forming: { machine, noMachine } }) => {
    if (noMachine === 'before-touching')
      return {
        rule: 'line-before-touching',
        severity: 'warn',
        track,
        element,
        message:
          'According to the test passes this curve needs a depth below zero: the passes are too different from it.',
        measured: null,
        limit: null,
        unit: null,
        cure: 'Make a test pass that ends near this radius, and check that every depth is measured from just touching.',
      }
    if (machine === null)
      return {
        rule: 'span-too-long',
        severity: 'warn',
        track,
        element,
        message: `Rollers ${formatMm(spanMm)} apart cannot bend this curve: the depth would be more than half the span.`,
        measured: spanMm,
        limit: null,
        unit: 'mm',
        cure: 'Move the outer rollers closer together, or bend this curve around a form.',
      }
    if (machine.passes.length > 0) return null
    return {
      rule: 'too-many-passes',
      severity: 'note',
      track,
      element,
      message: `At ${formatMm(maxPerPassMm ?? 0, 3)} per pass a depth of ${formatMm(machine.depthMm, 1)} takes more than ${MOST_PASSES} passes; they are not listed.`,
      measured: maxPerPassMm,
      limit: null,
      unit: 'mm',
      cure: 'Check the unit of maxPerPass; half a millimetre is usual.',
    }
  })
}

/** The first finding of each curve. */
function oncePerCurve(bends: readonly FormedBend[], find: (bend: FormedBend) => Finding | null): Finding[] {
  const found = new Map<string, Finding>()
  for (const bend of bends) {
    const curve = `${bend.element} ${bend.track}`
    const finding = found.has(curve) ? null : find(bend)
    if (finding) found.set(curve, finding)
  }
  return [...found.values()]
}
