import { type BentStretch, bentStretches } from '../../laying/bend-marks.ts'
import type { Run } from '../../laying/cutting/problem.ts'
import { RunTrim } from '../../laying/cutting/trim.ts'
import { firstIndexWhere } from '../../measure/search.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import type { SprungIn } from './sprung-in.ts'

/**
 * A rail for the cut plan: its length and, where bending costs rail, the trim of its pieces.
 *
 * Whether a bend is advised by machine can depend on where the joints are, and those on the trim. So with a roller bender
 * whose ends are to be trimmed, every bend goes through it, except what is sprung in wherever its joints are.
 */
export function runOf(
  track: LaidTrack,
  side: 'left' | 'right',
  plan: Pick<Plan, 'bender' | 'gauge' | 'section'>,
  sprungIn: SprungIn,
): Run {
  const rail = track.rails[side]
  const { roller, ends, work, fixedEnd } = plan.bender
  const eachMm = roller && ends === 'trim' ? roller.spanMm / 2 : 0
  if (eachMm === 0 && work !== 'assembled') return { lengthMm: rail.lengthMm }

  const bends = bentStretches(track.placed, rail)
  const creepMm = work === 'assembled' ? creepAlong(bends, side, plan.gauge + plan.section.headWidthMm) : undefined
  const creepAt = fixedEnd === 'start' ? 'end' : 'start'
  const bent = bends.filter(({ element }) => !sprungIn(track, side, element))
  if (bent.length === 0 && !creepMm) return { lengthMm: rail.lengthMm }
  return { lengthMm: rail.lengthMm, trim: new RunTrim({ bends: bent, eachMm, creepMm, creepAt }) }
}

/**
 * The creep from the start of a rail to a place on it. In assembled track both rails are cut to the same length, and the
 * inner rail is trimmed by (gauge + headWidth)·Δ, Δ the angle turned, evenly along each bend.
 */
function creepAlong(bends: readonly BentStretch[], side: 'left' | 'right', apartMm: number): (mm: number) => number {
  const inner = bends.filter(({ turn }) => turn === side)
  const beforeMm = [0]
  for (const { element } of inner) beforeMm.push(beforeMm.at(-1)! + apartMm * Math.abs(element.turnedRad))
  return (mm) => {
    const n = firstIndexWhere(inner.length, (index) => inner[index]!.toMm > mm)
    if (n === inner.length) return beforeMm[n]!
    const { fromMm, toMm } = inner[n]!
    const part = Math.max(0, (mm - fromMm) / (toMm - fromMm))
    return beforeMm[n]! + part * (beforeMm[n + 1]! - beforeMm[n]!)
  }
}
