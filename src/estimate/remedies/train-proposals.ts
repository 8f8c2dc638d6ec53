import type { Finding } from '../../checking/finding.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import { GRAVITY_M_S2 } from '../../hauling/resistance.ts'
import { PULL_SLACK } from '../../hauling/train.ts'
import { listAt } from '../../plan/reading/value-at.ts'
import type { GradeStretch } from '../../track/grade.ts'
import { elementAt } from '../../track/place.ts'
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
  return under.flatMap(({ track, fromMm, toMm }) => {
    const [lowMm, highMm] = line.tracks[track] === front ? [atMm, atMm] : [fromMm, toMm]
    const steepest = line.tracks[track]!.grades.filter(
      (each) => each.endGrade === undefined && each.fromMm <= highMm && each.toMm >= lowMm,
    ).reduce<GradeStretch | null>((a, b) => (a && Math.abs(a.grade) >= Math.abs(b.grade) ? a : b), null)
    if (!steepest) return []
    const steepPct = Math.abs(100 * steepest.grade)
    const onItMm = Math.min(toMm, steepest.toMm) - Math.max(fromMm, steepest.fromMm)
    // Only a part of the train may be on it. Rounded down, so that it is enough.
    const share = under.length > 1 ? onItMm / of.lengthMm : Math.min(1, Math.abs(100 * grade) / steepPct)
    const limit = Math.floor(100 * (steepPct - missingPct / share)) / 100
    if (!(limit >= 0)) return []
    const middleMm = (Math.max(lowMm, steepest.fromMm) + Math.min(highMm, steepest.toMm)) / 2
    const element = elementAt(line.tracks[track]!.placed, middleMm).index
    return gradeProposals({ ...finding, measured: steepPct, limit, element }, line, track)
  })
}
