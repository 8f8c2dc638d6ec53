import type { Metal } from '../../../src/bending/metal.ts'
import { LoadingCurve } from '../../../src/bending/roller/loading-curve.ts'
import type { RollerBender } from '../../../src/bending/roller/roller-bender.ts'
import { AS_ESTIMATED, type RailInBender } from '../../../src/bending/roller/roller-setting.ts'
import { elasticDepthMm } from '../../../src/bending/roller/three-point-depth.ts'
import { RAIL } from '../rails.ts'

/** A rail in a bender that does what is estimated. */
export function inBender(metal: Metal, bender: RollerBender, section = RAIL): RailInBender {
  return {
    section,
    metal,
    bender,
    curve: new LoadingCurve(section, metal),
    elasticDepthMm: elasticDepthMm(section, metal, bender),
    line: AS_ESTIMATED,
    schedules: new Map(),
  }
}
