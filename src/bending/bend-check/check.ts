import { exceeds, LENGTH_SLACK_MM } from '../../measure/counting.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { midOrdinateMm } from '../ordinates.ts'
import { bendCheckFaults } from './faults.ts'
import * as findings from './findings.ts'
import type { Reach } from './layout.ts'
import { type Proposal, propose } from './proposal.ts'
import { bestFitRadiusMm, longestBody, radiusBandMm, radiusOfMm, turnedDeg, verdictOn } from './readings.ts'
import { type Slip, slipsAmong } from './slips.ts'
import { stretchesOf } from './stretches.ts'
import { liningTable } from './string-lining.ts'
import type { BendCheck, BendCheckFinding, BendCheckInput, StationCheck } from './types.ts'

export type BendCheckResult =
  | { readonly ok: true; readonly check: BendCheck }
  | { readonly ok: false; readonly faults: readonly Fault[] }

const DEFAULT_RESOLUTION_MM = 0.5
const DEFAULT_TOLERANCE_PCT = 5
/** The most stations for which ordinates are proposed: with more, the search would not finish. */
const MOST_TO_PROPOSE = 200

/** An input with its defaults filled in. */
type Sizes = BendCheckInput & Required<Pick<BendCheckInput, 'spacingMm' | 'resolutionMm' | 'tolerancePct'>>

/** The ordinates the stations should reach, and how far to move each. */
interface Aim {
  readonly targetsMm: readonly number[] | null
  readonly table: { readonly runningSums: readonly number[]; readonly throwsMm: readonly number[] } | null
  readonly proposal: BendCheck['proposal']
  /** The readings with slips as they should have been read, where the throws are calculated with those. */
  readonly correctedMm?: readonly number[]
  readonly findings: readonly BendCheckFinding[]
}

const NOTHING_TO_DO = { targetsMm: null, table: null, proposal: null } as const

/**
 * Checks readings. With a radius, a bench check: each reading against that radius's exact ordinate. Without, string
 * lining of a laid curve: against the given ordinates, or else against the program's own proposal (`propose`).
 *
 * @returns every fault of the input, or the check; if a curve cannot be lined, a finding says why
 */
export function checkBend(input: BendCheckInput): BendCheckResult {
  const faults = bendCheckFaults(input)
  if (faults.length > 0) return { ok: false, faults }
  const sizes: Sizes = {
    ...input,
    spacingMm: input.spacingMm ?? input.chordMm / 2,
    resolutionMm: input.resolutionMm ?? DEFAULT_RESOLUTION_MM,
    tolerancePct: input.tolerancePct ?? DEFAULT_TOLERANCE_PCT,
  }
  const aim = input.radiusMm === undefined ? liningAim(sizes) : benchAim(sizes, input.radiusMm)
  const { readingsMm, chordMm, spacingMm } = sizes
  const body = input.radiusMm === undefined && aim.targetsMm ? longestBody(aim.targetsMm) : []
  const usedMm = aim.correctedMm ?? readingsMm
  const complete = completeReadings(usedMm)
  const check: BendCheck = {
    stations: readingsMm.map((_, n) => stationCheck(sizes, aim, n)),
    bestFitRadiusMm: bestFitRadiusMm(chordMm, body.length > 0 ? body.map((n) => usedMm[n]!) : usedMm),
    turnedDeg: complete && isHalfChord(sizes) ? turnedDeg(complete, spacingMm) : null,
    largestThrowMm: aim.table ? Math.max(...aim.table.throwsMm.map(Math.abs)) : null,
    proposal: aim.proposal,
    findings: aim.findings,
    assumptions: assumptionsOf(input),
  }
  return { ok: true, check }
}

function benchAim(sizes: Sizes, radiusMm: number): Aim {
  const { readingsMm, chordMm, resolutionMm } = sizes
  // A chord longer than the diameter only by rounding is the diameter.
  const targetMm = midOrdinateMm(radiusMm, Math.min(chordMm, 2 * radiusMm))!
  const unused = (['proposed', 'fixed', 'maximumThrow'] as const).filter((field) =>
    field === 'fixed' ? sizes.fixed !== undefined : sizes[`${field}Mm`] !== undefined,
  )
  const slips = isHalfChord(sizes)
    ? slipsAmong(readingsMm, { straightBefore: false, straightAfter: false }, resolutionMm)
    : []
  return {
    targetsMm: readingsMm.map(() => targetMm),
    table: null,
    proposal: null,
    findings: [
      ...findings.slips(slips, readingsMm),
      ...findings.missingReadings(readingsMm, false),
      ...findings.bendsOtherWay(readingsMm, resolutionMm),
      ...findings.notUsed(unused),
    ],
  }
}

function liningAim(sizes: Sizes): Aim {
  const { readingsMm, chordMm, spacingMm, resolutionMm, proposedMm } = sizes
  const isStraight = (reading: number | null | undefined) =>
    typeof reading === 'number' && !exceeds(Math.abs(reading), resolutionMm)
  const beyond = { straightBefore: isStraight(readingsMm[0]), straightAfter: isStraight(readingsMm.at(-1)) }
  const slips = isHalfChord(sizes) ? slipsAmong(readingsMm, beyond, resolutionMm) : []
  const found = [
    ...findings.slips(slips, readingsMm),
    ...findings.missingReadings(readingsMm, true),
    ...(isHalfChord(sizes) ? [] : [findings.spacingNotHalfChord(spacingMm, chordMm)]),
  ]
  const measuredMm = completeReadings(readingsMm)
  if (!measuredMm) return { targetsMm: proposedMm ?? null, table: null, proposal: null, findings: found }
  const aim = proposedMm ? againstProposed(sizes, measuredMm, proposedMm) : ownProposal(sizes, measuredMm, slips)
  return { ...aim, findings: [...found, ...aim.findings] }
}

function againstProposed(sizes: Sizes, measuredMm: readonly number[], proposedMm: readonly number[]): Aim {
  if (!isHalfChord(sizes)) return { targetsMm: proposedMm, table: null, proposal: null, findings: [] }
  const table = liningTable(measuredMm, proposedMm)
  const throwsMm = throwsOf(table.halfThrows, proposedMm)
  return {
    targetsMm: proposedMm,
    table: { runningSums: table.runningSums, throwsMm },
    proposal: null,
    findings: [
      ...findings.closures(table, sizes.spacingMm),
      ...findings.fixedStationsMove(sizes.fixed ?? [], throwsMm),
      ...findings.throwTooLarge(throwsMm, sizes.maximumThrowMm, 'given'),
    ],
  }
}

function ownProposal(sizes: Sizes, measuredMm: readonly number[], slips: readonly Slip[]): Aim {
  const { chordMm, spacingMm, resolutionMm, tolerancePct, fixed = [], maximumThrowMm } = sizes
  const stations = measuredMm.length
  if (stations > MOST_TO_PROPOSE)
    return { ...NOTHING_TO_DO, findings: [findings.tooManyToPropose(stations, MOST_TO_PROPOSE)] }
  const { proposal, isComplete } = propose({
    measuredMm,
    fixed,
    resolutionMm,
    tolerancePct,
    maximumThrowMm: maximumThrowMm ?? null,
    doubted: slips.map(({ station }) => station),
  })
  if (!proposal) return { ...NOTHING_TO_DO, findings: [findings.noProposal(fixed, isComplete)] }
  const stretches = stretchesOf(proposal, stations, spacingMm, chordMm)
  const table = isHalfChord(sizes) ? tableOf(proposal, fixed) : null
  return {
    targetsMm: proposal.ordinatesMm,
    table,
    proposal: stretches,
    correctedMm: proposal.correctedMm,
    findings: [
      ...(table ? findings.throwTooLarge(table.throwsMm, maximumThrowMm, isComplete ? 'least' : 'found') : []),
      ...findings.unfinishedEnds(openEnds(proposal.reach, stations)),
      ...findings.severalBodies(stretches.bodies, chordMm),
      ...findings.searchEnded(isComplete),
    ],
  }
}

function openEnds({ from, to }: Reach, stations: number): number[] {
  const ends = [...(from === 0 ? [0] : []), ...(to === stations ? [stations - 1] : [])]
  return [...new Set(ends)]
}

/**
 * The table of the program's own proposal, with slips as they should have been read. The throw of fixed stations is
 * exactly 0.
 */
function tableOf({ ordinatesMm, correctedMm }: Proposal, fixed: readonly number[]) {
  const { runningSums, halfThrows } = liningTable(correctedMm, ordinatesMm)
  const still = new Set([0, correctedMm.length - 1, ...fixed])
  const kept = halfThrows.map((half, n) => (still.has(n) ? 0 : half))
  return { runningSums: runningSums.with(-1, 0), throwsMm: throwsOf(kept, ordinatesMm) }
}

/**
 * Throws, + outward. Half throws are + to the side of positive ordinates; where nothing
 * bends that way, outward is the other side.
 */
function throwsOf(halfThrows: readonly number[], targetsMm: readonly number[]): number[] {
  const bendsOnlyTheOtherWay =
    targetsMm.every((target) => target <= LENGTH_SLACK_MM) && targetsMm.some((target) => target < -LENGTH_SLACK_MM)
  const outward = bendsOnlyTheOtherWay ? -2 : 2
  return halfThrows.map((half) => (half === 0 ? 0 : outward * half))
}

function stationCheck(sizes: Sizes, aim: Aim, index: number): StationCheck {
  const { readingsMm, chordMm, spacingMm, resolutionMm, tolerancePct } = sizes
  const ordinateMm = readingsMm[index]!
  const targetOrdinateMm = aim.targetsMm?.[index] ?? null
  const band = ordinateMm === null ? null : radiusBandMm(chordMm, ordinateMm, resolutionMm)
  const isJudged = ordinateMm !== null && targetOrdinateMm !== null
  return {
    index,
    atMm: index * spacingMm,
    ordinateMm,
    radiusMm: ordinateMm === null ? null : radiusOfMm(chordMm, ordinateMm),
    radiusLowMm: band?.radiusLowMm ?? null,
    radiusHighMm: band?.radiusHighMm ?? null,
    targetOrdinateMm,
    deviationMm: isJudged ? ordinateMm - targetOrdinateMm : null,
    verdict: isJudged ? verdictOn(ordinateMm, targetOrdinateMm, resolutionMm, tolerancePct) : null,
    runningSumMm: aim.table?.runningSums[index] ?? null,
    throwMm: aim.table?.throwsMm[index] ?? null,
  }
}

function assumptionsOf({ spacingMm, chordMm, resolutionMm, tolerancePct }: BendCheckInput): BendCheck['assumptions'] {
  return [
    ...(spacingMm === undefined
      ? [
          {
            field: '/spacing',
            value: formatMm(chordMm / 2, 3),
            reason: 'lining needs stations half a chord apart',
          },
        ]
      : []),
    ...(resolutionMm === undefined
      ? [{ field: '/resolution', value: formatMm(DEFAULT_RESOLUTION_MM), reason: 'reading a steel rule by eye' }]
      : []),
    ...(tolerancePct === undefined
      ? [{ field: '/tolerancePct', value: `${DEFAULT_TOLERANCE_PCT} %`, reason: 'usual tolerance of an ordinate' }]
      : []),
  ]
}

function isHalfChord({ spacingMm, chordMm }: Sizes): boolean {
  return Math.abs(spacingMm - chordMm / 2) <= LENGTH_SLACK_MM
}

function completeReadings(readingsMm: readonly (number | null)[]): number[] | null {
  const read = readingsMm.filter((reading) => reading !== null)
  return read.length === readingsMm.length ? read : null
}
