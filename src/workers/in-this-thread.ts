import { checkBend } from '../bending/bend-check/check.ts'
import { calibrateAlone } from '../estimate/questions/calibration.ts'
import { compareMaterials } from '../estimate/questions/compare.ts'
import { figure } from '../estimate/questions/figure.ts'
import { fitOptions } from '../estimate/questions/fit-options.ts'
import { moveTrack } from '../estimate/questions/move.ts'
import { oneCurve } from '../estimate/questions/one-curve.ts'
import { settingOut } from '../estimate/questions/setting-out.ts'
import { planCutList } from '../laying/cutting/cut-list.ts'
import { billSince } from '../shed/bill-since.ts'
import { foreseeBuilding } from '../shed/foresee-building.ts'
import { workOutSurvey } from '../survey/survey.ts'
import { rememberedEstimate } from './remembered-estimates.ts'
import type { Workers } from './workers.ts'

/** Does everything immediately, in the calling thread. */
export const inThisThread: Workers = {
  refuseLarge: () => {},
  refuseHere: () => {},
  estimate: rememberedEstimate,
  billSince,
  compareMaterials,
  planCutList,
  checkBend,
  bendCurve: oneCurve,
  calibrate: calibrateAlone,
  setOut: settingOut,
  figure,
  fitOptions,
  moveTrack,
  survey: workOutSurvey,
  foreseeBuilding: async (asked) => foreseeBuilding(asked),
}
