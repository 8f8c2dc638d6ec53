import { cutMm } from '../sawing.ts'
import type { PlannedStick } from './cut-plan.ts'
import type { ChainLayout } from './lay-chain.ts'
import type { Run } from './problem.ts'
import { trimOf } from './trim.ts'

/** The sticks of a layout with their cuts; those from which nothing is cut are left out. */
export function cutSticks(runs: readonly Run[], { sticksMm, pieces }: ChainLayout, kerfMm: number): PlannedStick[] {
  const sticks = sticksMm.map(
    (lengthMm): PlannedStick => ({
      lengthMm,
      fromStock: false,
      kerfMm: 0,
      trimMm: 0,
      offcutMm: lengthMm,
      pieces: [],
    }),
  )
  for (const { run, fromMm, lengthMm, stick: n } of pieces) {
    const stick = sticks[n]!
    const { startMm, endMm } = trimOf(runs[run]!, fromMm, lengthMm)
    const restMm = Math.max(0, stick.offcutMm - startMm - lengthMm - endMm)
    const takenMm = cutMm(restMm, kerfMm)
    stick.kerfMm += takenMm
    stick.trimMm += startMm + endMm
    stick.offcutMm = restMm - takenMm
    stick.pieces.push({ run, fromMm, lengthMm, trimStartMm: startMm, trimEndMm: endMm })
  }
  return sticks.filter(({ pieces: own }) => own.length > 0)
}
