import type { Metal } from '../metal.ts'
import type { SectionProperties } from '../section-properties.ts'
import { formingCurvature } from '../springback.ts'
import type { BendingModel } from './bending-model.ts'
import type { LoadingCurve } from './loading-curve.ts'
import { modelFor } from './model-for.ts'
import { type ModelPass, type Pass, passSchedule, turnsOf } from './pass-schedule.ts'
import { PressedModel } from './pressed-model.ts'
import { arcDepthMm, type RollerBender } from './roller-bender.ts'

/** A bender’s own line: depth = offset + scale × estimate. */
export interface DepthLine {
  readonly offsetMm: number
  readonly scale: number
}

/** A bender that does what is estimated. */
export const AS_ESTIMATED: DepthLine = { offsetMm: 0, scale: 1 }

/** How to set a roller bender for a wanted radius of the rail's line. Depths are from just touching the straight bar. */
export interface RollerSetting {
  /** The depth of the last pass. */
  readonly depthMm: number
  readonly turns: number | null
  /** Depth if the loaded rail were an arc between the rollers: an upper limit. Null where no such arc fits the span. */
  readonly arcDepthMm: number | null
  /** Empty if it would take more than `MOST_PASSES`. */
  readonly passes: readonly Pass[]
  /** Pressed rail only. */
  readonly pressed: { readonly stepMm: number; readonly scallopMm: number } | null
}

/** What the settings of one rail have in common. */
export interface RailInBender {
  readonly section: SectionProperties
  readonly metal: Metal
  readonly bender: RollerBender
  readonly curve: LoadingCurve
  readonly elasticDepthMm: number
  readonly line: DepthLine
  /** The schedules that were worked out already, by curvature to twelve digits. */
  readonly schedules: Map<string, Schedule>
}

/** The passes to a curvature; null where there are too many to list. */
interface Schedule {
  readonly model: BendingModel
  readonly peak: number
  readonly passes: readonly ModelPass[] | null
}

/**
 * The setting for a wanted radius (> 0). Uncalibrated it is to be checked with a test pass. Deeper is tighter.
 * Checked in tests/bending/roller/roller-setting.test.ts.
 */
export function rollerSetting(rail: RailInBender, wantedRadiusMm: number): RollerSetting {
  const { section, metal, bender, line } = rail
  const { model, peak, passes } = scheduleFor(rail, 1 / wantedRadiusMm)
  const depthMm = line.offsetMm + line.scale * (passes?.at(-1)?.depthMm ?? model.depthMm(peak, peak))
  return {
    depthMm,
    turns: turnsOf(bender, depthMm),
    arcDepthMm: arcDepthMm(section, bender, 1 / formingCurvature(section, metal, 1 / wantedRadiusMm)),
    passes: (passes ?? []).map((pass, index) => answered(rail, model, pass, index + 1)),
    pressed: model instanceof PressedModel ? { stepMm: model.stepMm, scallopMm: model.scallopMm(peak) } : null,
  }
}

/** Depths for curvatures > 0 along an easement, with the passes of the tightest. Null: straight. */
export function depthsAlong(rail: RailInBender, wantedPerMm: readonly number[]): (number | null)[] {
  const tightest = Math.max(...wantedPerMm)
  if (tightest === 0) return wantedPerMm.map(() => null)
  const { model, peak: deepest, passes } = scheduleFor(rail, tightest)
  return wantedPerMm.map((wanted) => {
    if (wanted === 0) return null
    const peak = model.peakFor(wanted)
    // The passes that are not as deep as this place have bent it before; without a list, so many that they add up to it.
    const reached = passes?.findIndex((pass) => pass.peak >= peak || pass.peak === deepest) ?? 0
    const before = passes === null ? peak : reached === 0 ? 0 : passes[reached - 1]!.peak
    return rail.line.offsetMm + rail.line.scale * model.depthMm(before, peak)
  })
}

function scheduleFor(rail: RailInBender, wantedPerMm: number): Schedule {
  const key = wantedPerMm.toPrecision(12)
  const schedule = rail.schedules.get(key) ?? newSchedule(rail, wantedPerMm)
  rail.schedules.set(key, schedule)
  return schedule
}

function newSchedule(rail: RailInBender, wantedPerMm: number): Schedule {
  const { section, metal, bender, curve, elasticDepthMm, line } = rail
  const model = modelFor(section, metal, bender, wantedPerMm, curve)
  const peak = model.peakFor(wantedPerMm)
  const mostStepMm = bender.maxPerPassMm === null ? null : bender.maxPerPassMm / line.scale
  return { model, peak, passes: passSchedule(model, peak, elasticDepthMm, mostStepMm) }
}

function answered(
  { bender, line }: RailInBender,
  model: BendingModel,
  { depthMm: estimatedMm, peak }: ModelPass,
  pass: number,
): Pass {
  const depthMm = line.offsetMm + line.scale * estimatedMm
  const left = model.leavesPerMm(peak)
  return { pass, depthMm, turns: turnsOf(bender, depthMm), leavesRadiusMm: radiusOf(left) }
}

function radiusOf(curvature: number): number | null {
  const radiusMm = 1 / curvature
  return Number.isFinite(radiusMm) && radiusMm > 0 ? radiusMm : null
}
