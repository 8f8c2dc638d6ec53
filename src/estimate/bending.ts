import { type BendingOfPlan, bendsOfArc, type ChordLeftOut } from '../bending/bends.ts'
import { type Calibration, calibrate } from '../bending/calibration/calibration.ts'
import { DEFAULT_RESOLUTION } from '../bending/calibration/effective-yield.ts'
import { formEasement } from '../bending/forming/easement-stations.ts'
import { BendFormer } from '../bending/forming/form-bend.ts'
import { railToBend } from '../bending/forming/rail-to-bend.ts'
import type { MetalOfBends } from '../checking/bending.ts'
import type { CutPlan } from '../laying/cutting/cut-plan.ts'
import type { Fault } from '../measure/fault.ts'
import { firstIndexWhere } from '../measure/search.ts'
import type { Bend, CalibrationAnswer, EasementForming } from './answer.ts'
import type { Plan } from './plan.ts'
import type { LaidTrack } from './track/laid-track.ts'

export type PlanForBending = Pick<Plan, 'section' | 'metal' | 'bender' | 'gauge' | 'chords' | 'resolution'> & {
  readonly rail: Pick<Plan['rail'], 'calibration'>
  readonly supplies: { readonly ties: { readonly spacing: number } }
}

export interface BendsOfPlan {
  readonly bends: Bend[]
  readonly easements: EasementForming[]
  /** By track. */
  readonly leftOut: ChordLeftOut[][]
}

export type Bending =
  | {
      readonly ok: true
      readonly calibration: CalibrationAnswer | null
      readonly ofPlan: BendingOfPlan
      readonly ofMetal: MetalOfBends
      /** @param readyMade elements made of ready-made pieces, which need no bending, as `track/element` by index */
      bendsOf(laid: readonly LaidTrack[], cuts: CutPlan, readyMade: ReadonlySet<string>): BendsOfPlan
    }
  | { readonly ok: false; readonly faults: Fault[] }

/**
 * What is known about bending the rail of a plan, including its own test bends, ready to work out its bends; or why
 * the test bends cannot be true.
 */
export function bendingOf(plan: PlanForBending): Bending {
  const { section, metal, bender, gauge: gaugeMm, chords: chordsMm, resolution: resolutionMm } = plan
  const calibrated = calibrationOf(plan)
  if (calibrated && !calibrated.ok)
    return { ok: false, faults: calibrated.faults.map((f) => ({ ...f, path: ['rail', 'calibration', ...f.path] })) }
  const calibration = calibrated?.calibration ?? null
  const basis = metal.id === 'own' ? 'own' : metal.temper
  const rail = railToBend(
    { section: section.properties, headWidthMm: section.headWidthMm },
    metal.nominal,
    basis,
    metal.tempers,
    calibration,
  )
  const former = new BendFormer(rail, bender, plan.supplies.ties.spacing)
  const ofPlan = { former, gaugeMm, headWidthMm: section.headWidthMm, chordsMm, resolutionMm }
  return {
    ok: true,
    calibration: calibration && calibrationAnswer(calibration),
    ofPlan,
    ofMetal: { name: metal.name, metal: rail.metal, roller: bender.roller },
    bendsOf: (laid, cuts, readyMade) => {
      const bends: Bend[] = []
      const easements: EasementForming[] = []
      const joints = jointsByRun(cuts, 2 * laid.length)
      const leftOut = laid.map((track, index) => {
        const ofTrack: ChordLeftOut[] = []
        for (const element of track.placed) {
          if (element.kind === 'easement')
            for (const side of ['left', 'right'] as const)
              easements.push(formEasement(track.name, element, side, track.rails[side], former))
          if (element.kind !== 'arc') continue
          const railOf = (side: 'left' | 'right', run: number) => {
            const { fromMm, toMm, lengthMm } = track.rails[side].elements[element.index]!
            return { lengthMm, joints: countBetween(joints[run]!, fromMm, toMm) }
          }
          const rails = { left: railOf('left', 2 * index), right: railOf('right', 2 * index + 1) }
          const ofArc = bendsOfArc(track.name, element, rails, ofPlan, readyMade.has(`${index}/${element.index}`))
          bends.push(...ofArc.bends)
          ofTrack.push(...ofArc.leftOut)
        }
        return ofTrack
      })
      return { bends, easements, leftOut }
    },
  }
}

/** The result of the test bends, or why they cannot be true; null without any. */
function calibrationOf(plan: Pick<PlanForBending, 'section' | 'metal' | 'rail' | 'bender' | 'resolution'>) {
  const { section, metal, bender, resolution: resolutionMm } = plan
  const { calibration } = plan.rail
  if (calibration.length === 0) return null
  const rail = { section: section.properties, metal: metal.nominal, bender: bender.roller }
  const resolution = { ...DEFAULT_RESOLUTION, readingMm: resolutionMm }
  return calibrate(rail, calibration, resolution, metal.temper !== null || metal.id === 'own')
}

function calibrationAnswer(calibration: Calibration): CalibrationAnswer {
  const { effectiveYieldMpa, lowMpa, highMpa, determined, from, tells, consistent, readings } = calibration
  const line = calibration.line?.line
  return {
    effectiveYieldMpa,
    lowMpa,
    highMpa,
    determined,
    from,
    tells: [...tells],
    consistent,
    readings: readings.map((reading) => ({ ...reading })),
    benderLine: line
      ? { offsetMm: line.offsetMm, scale: line.scale, passes: line.passes, spreadMm: line.spreadMm }
      : null,
  }
}

/** Where the pieces of each run meet, by distance along it, ascending; those of turnouts, which come after, left out. */
function jointsByRun(cuts: CutPlan, runs: number): number[][] {
  const joints = Array.from({ length: runs }, (): number[] => [])
  for (const { pieces } of cuts.sticks) for (const { run, fromMm } of pieces) if (fromMm > 0) joints[run]?.push(fromMm)
  return joints.map((places) => places.sort((a, b) => a - b))
}

function countBetween(ascending: readonly number[], fromMm: number, toMm: number): number {
  return firstOver(ascending, toMm) - firstOver(ascending, fromMm)
}

function firstOver(ascending: readonly number[], valueMm: number): number {
  return firstIndexWhere(ascending.length, (index) => ascending[index]! > valueMm)
}
