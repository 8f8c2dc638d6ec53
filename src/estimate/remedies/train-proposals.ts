import type { Finding } from '../../checking/finding.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import { GRAVITY_M_S2 } from '../../hauling/resistance.ts'
import { PULL_SLACK } from '../../hauling/train.ts'
import { sum } from '../../measure/sum.ts'
import type { StoodOn } from '../../network/train-ways.ts'
import { listAt } from '../../plan/reading/value-at.ts'
import type { GradeStretch } from '../../track/grade.ts'
import { elementAt } from '../../track/place.ts'
import { averagedTooSteep } from '../trains/averaged-grade.ts'
import { haulsOfPlan, type TrainHauls } from '../trains/hauls.ts'
import { gradeProposals } from './grade-proposals.ts'
import type { Line } from './line.ts'

/** Cars that a train of the finding leaves behind: it is shortened, and then the hill is made less steep. */
export function trainProposals(finding: Finding, line: Line): Patch[] {
  const { hauls } = haulsOfPlan(line.tracks, line.plan)
  return hauls
    .filter((haul) => isMeant(haul, finding))
    .flatMap((haul) => [...shorterTrain(haul, finding, line), ...easierGrade(haul, finding, line)])
}

function isMeant({ ruling, descending }: TrainHauls, { rule, measured, track }: Finding): boolean {
  const { pullN, track: on } = rule === 'train-stalls' ? ruling : { ...descending, pullN: -descending.pullN }
  return on.name === track && Math.abs(pullN - measured!) <= PULL_SLACK * Math.abs(measured!)
}

/** So many cars, from the engine back, as it takes; of a train that runs away, one less after the other. */
function shorterTrain({ of, takes }: TrainHauls, { rule }: Finding, { sent }: Line): Patch[] {
  const entries = listAt(sent, ['trains', of.index, 'cars']) as readonly SentCars[]
  const counts = rule === 'train-stalls' ? [takes ?? 0] : [of.cars - 1, of.cars - 2, Math.floor(of.cars / 2), 1]
  return counts
    .filter((count) => count > 0 && count < of.cars)
    .map((count) => firstCars(`/trains/${of.index}/cars`, entries, count))
}

type SentCars = string | Record<string, unknown>

/** Those behind are taken off from the end, so that places before them stay what they are. */
function firstCars(at: string, entries: readonly SentCars[], count: number): Patch {
  let left = count
  return entries
    .flatMap((entry, index): Patch => {
      const here = typeof entry === 'object' ? Number(entry.count ?? 1) : 1
      const before = left
      left -= here
      if (before <= 0) return [{ op: 'remove', path: `${at}/${index}` }]
      return before >= here ? [] : [{ op: 'replace', path: `${at}/${index}/count`, value: before }]
    })
    .reverse()
}

/**
 * The steepest straight grade under the front of the train, less steep by what is missing of the weight; where it stands on
 * several tracks, also the steepest of each under the rest of it.
 */
function easierGrade({ of, ruling, descending }: TrainHauls, finding: Finding, line: Line): Patch[] {
  const { atMm, grade, under, track: front } = finding.rule === 'train-stalls' ? ruling : descending
  const missingPct = (100 * (finding.measured! - finding.limit!)) / (of.massKg * GRAVITY_M_S2)
  return under.flatMap((part) => {
    const within = line.tracks[part.track] === front ? { ...part, fromMm: atMm, toMm: atMm } : part
    const steepest = steepestIn(within, line)
    if (!steepest) return []
    const steepPct = Math.abs(100 * steepest.grade)
    // Only a part of the train may be on it.
    const share =
      under.length > 1 ? lengthOnMm(part, steepest) / of.lengthMm : Math.min(1, Math.abs(100 * grade) / steepPct)
    return lessSteep(finding, steepest, within, missingPct / share, line)
  })
}

/** Of the longest train, whose grade is too steep on average: the steepest of each track under it. */
export function averagedProposals(finding: Finding, line: Line): Patch[] {
  return averagedTooSteep(line.tracks, line.plan)
    .filter(({ track }) => track === finding.track)
    .flatMap(({ under, pct, limitPct, overMm }) =>
      under.flatMap((part) => {
        const steepest = steepestIn(part, line)
        if (!steepest) return []
        // Of several as steep it may take all that is missing from one.
        const alike = line.tracks[part.track]!.grades.filter(
          ({ grade, endGrade }) => endGrade === undefined && Math.abs(grade) === Math.abs(steepest.grade),
        )
        const onIt = alike.map((each) => lengthOnMm(part, each)).filter((mm) => mm > 0)
        const missing = [sum(onIt), ...new Set(onIt)].map((mm) => ((pct - limitPct) * overMm) / mm)
        return missing
          .sort((a, b) => a - b)
          .flatMap((pctMissing) => lessSteep(finding, steepest, part, pctMissing, line))
      }),
    )
}

function lengthOnMm(part: Pick<StoodOn, 'fromMm' | 'toMm'>, { fromMm, toMm }: GradeStretch): number {
  return Math.min(part.toMm, toMm) - Math.max(part.fromMm, fromMm)
}

function steepestIn({ track, fromMm, toMm }: StoodOn, line: Line): GradeStretch | null {
  return line.tracks[track]!.grades.filter(
    (each) => each.endGrade === undefined && each.fromMm <= toMm && each.toMm >= fromMm,
  ).reduce<GradeStretch | null>((a, b) => (a && Math.abs(a.grade) >= Math.abs(b.grade) ? a : b), null)
}

/** Rounded down, so that it is enough. */
function lessSteep(
  finding: Finding,
  steepest: GradeStretch,
  { track, fromMm, toMm }: StoodOn,
  missingPct: number,
  line: Line,
): Patch[] {
  const steepPct = Math.abs(100 * steepest.grade)
  const limit = Math.floor(100 * (steepPct - missingPct)) / 100
  if (!(limit >= 0)) return []
  const middleMm = (Math.max(fromMm, steepest.fromMm) + Math.min(toMm, steepest.toMm)) / 2
  const element = elementAt(line.tracks[track]!.placed, middleMm).index
  return gradeProposals({ ...finding, measured: steepPct, limit, element }, line, track)
}
