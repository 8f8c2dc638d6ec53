import type { Metal } from '../metal.ts'
import { momentNmm } from '../moment-curvature.ts'
import type { SectionProperties } from '../section-properties.ts'
import { formingCurvature } from '../springback.ts'
import { type Pass, passSchedule, turnsOf } from './pass-schedule.ts'
import { arcDepthMm, type RollerBender } from './roller-bender.ts'
import { threePointDepthMm } from './three-point-depth.ts'

/**
 * How to set a roller bender for a wanted radius of the rail's line. Depths are from just touching the straight bar.
 */
export interface RollerSetting {
  /** The starting estimate: see `threePointDepthMm`. */
  readonly depthMm: number
  readonly turns: number | null
  /** Depth if the loaded rail were an arc between the rollers: an upper limit. Null where no such arc fits the span. */
  readonly arcDepthMm: number | null
  readonly passes: readonly Pass[]
  /** Pressed rail only: how far to move it on between two presses. See `pressStepMm`. */
  readonly pressStepMm: number | null
}

/**
 * The setting for a wanted radius (> 0), uncalibrated: to be checked with a test pass. Deeper is tighter.
 * Checked in tests/bending/roller/roller-setting.test.ts.
 */
export function rollerSetting(
  section: SectionProperties,
  metal: Metal,
  bender: RollerBender,
  wantedRadiusMm: number,
): RollerSetting {
  const curvature = formingCurvature(section, metal, 1 / wantedRadiusMm)
  const depthMm = threePointDepthMm(section, metal, bender, curvature)
  return {
    depthMm,
    turns: turnsOf(bender, depthMm),
    arcDepthMm: arcDepthMm(section, bender, 1 / curvature),
    passes: passSchedule(bender, depthMm),
    pressStepMm: bender.mode === 'pressed' ? pressStepMm(section, metal, bender, wantedRadiusMm) : null,
  }
}

/** Least share of the wanted curvature that pressed rail keeps half way between two presses. */
const EVENNESS = 0.9

/**
 * How far to move the rail between presses so that the curvature half way between two is still nine tenths of the
 * wanted one: the moment falls in a straight line from the centre roller, M(x) = M0·(1 − x/a), a half the span, so it
 * is 2x where M(x) is the moment that leaves 0.9/Rf. Range: depth small compared with the span; each press considered
 * alone. Derived; tests/bending/roller/roller-setting.test.ts.
 */
function pressStepMm(section: SectionProperties, metal: Metal, bender: RollerBender, wantedRadiusMm: number): number {
  const atRoller = formingCurvature(section, metal, 1 / wantedRadiusMm)
  const between = formingCurvature(section, metal, EVENNESS / wantedRadiusMm)
  const share = momentNmm(section, metal, between) / momentNmm(section, metal, atRoller)
  return bender.spanMm * (1 - share)
}
