import { type Hill, hillOf, type Running } from '../../hauling/hill.ts'
import { evenTrain, haulOn, slopesOf } from '../../hauling/train.ts'
import { exceeds } from '../../measure/counting.ts'
import { firstIndexWhere } from '../../measure/search.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import type { EffectiveGradeAnswer } from './answer.ts'
import { waysOfTrains } from './hauls.ts'
import { curveResistanceOf, longestTrainMm, trainsOfPlan } from './trains-of-plan.ts'

/** What of a track there is only where the plan says what its trains weigh, or what a curve asks for. */
export interface EffectiveGradeOf {
  readonly effectiveGrade?: EffectiveGradeAnswer
}

/** Grades and curves of each track together, as a train climbs them, and averaged over the longest train. */
export function effectiveGrades(drawn: readonly LaidTrack[], plan: Plan): EffectiveGradeOf[] {
  const measured = plan.standards.curveResistancePct !== null
  if (!measured && trainsOfPlan(plan).trains.length === 0) return drawn.map(() => ({}))
  const wheelbases = plan.cars.flatMap(({ wheelbase }) => wheelbase ?? [])
  const curveMm = curveResistanceOf(plan, wheelbases.length > 0 ? Math.max(...wheelbases) : null)
  const longestMm = longestTrainMm(plan)
  const ways = longestMm > 0 ? waysOfTrains(drawn, plan) : null
  return drawn.map((track, index) => ({
    effectiveGrade: {
      rule: measured ? ('measured' as const) : ('wheelbase' as const),
      curveResistanceMm: curveMm,
      ...steepest(track, curveMm),
      ...averaged(
        track.state !== 'lifted' && ways ? ways.ofTrack(index, longestMm) : slopesOf(track),
        curveMm,
        longestMm,
      ),
    },
  }))
}

function steepest(track: LaidTrack, curveMm: number): Pick<EffectiveGradeAnswer, 'stretches' | 'steepestPct'> {
  const { height, turned } = hillOf(track)
  const ends = [...height.pieces, ...turned.pieces].map(({ toMm }) => toMm).sort((a, b) => a - b)
  let fromMm = 0
  const stretches = ends.flatMap((toMm) => {
    if (!exceeds(toMm, fromMm)) return []
    const grade = steeperOf(ratesWithin(height.pieces, fromMm, toMm))
    const curve = Math.max(...ratesWithin(turned.pieces, fromMm, toMm)) * curveMm
    const stretch = {
      fromMm,
      toMm,
      gradePct: 100 * grade,
      curvePct: 100 * curve,
      effectivePct: 100 * (Math.abs(grade) + curve),
    }
    fromMm = toMm
    return [stretch]
  })
  return { stretches, steepestPct: Math.max(0, ...stretches.map(({ effectivePct }) => effectivePct)) }
}

function steeperOf([one, other]: readonly [number, number]): number {
  return Math.abs(other) > Math.abs(one) ? other : one
}

/** The rates at both ends of a stretch within one piece. */
function ratesWithin(pieces: readonly Running[], fromMm: number, toMm: number): readonly [number, number] {
  const middleMm = (fromMm + toMm) / 2
  const after = firstIndexWhere(pieces.length, (index) => pieces[index]!.fromMm > middleMm)
  const { fromMm: startMm, toMm: endMm, rate, endRate } = pieces[Math.max(0, after - 1)]!
  const at = (mm: number) => (rate === endRate ? rate : rate + ((endRate - rate) * (mm - startMm)) / (endMm - startMm))
  return [at(fromMm), at(toMm)]
}

function averaged(
  hills: readonly { readonly hill: Hill }[],
  curveMm: number,
  longestMm: number,
): Pick<EffectiveGradeAnswer, 'averagedPct' | 'averagedEffectivePct' | 'averagedOverMm'> {
  if (longestMm === 0) return { averagedPct: null, averagedEffectivePct: null, averagedOverMm: null }
  const over = (mm: number) => 100 * haulOn(hills, [evenTrain(longestMm, mm)]).climbing.pullN
  return { averagedPct: over(0), averagedEffectivePct: over(curveMm), averagedOverMm: longestMm }
}
