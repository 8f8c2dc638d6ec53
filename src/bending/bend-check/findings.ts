import { exceeds } from '../../measure/counting.ts'
import { formatMm } from '../../measure/length.ts'
import type { Slip } from './slips.ts'
import type { LiningTable } from './string-lining.ts'
import type { BendCheckFinding, Body } from './types.ts'

const IN_PARTS = 'Line the curve in parts that meet on a straight, or give the ordinates to line to.'

const UNMEASURED = { measured: null, limit: null, unit: null } as const

export function missingReadings(readingsMm: readonly (number | null)[], isLining: boolean): BendCheckFinding[] {
  const stations = indexesWhere(readingsMm, (reading) => reading === null)
  if (stations.length === 0) return []
  return [
    {
      rule: 'missing-reading',
      severity: isLining ? 'stop' : 'warn',
      stations,
      message: `No reading at ${named(stations)}${isLining ? ': the sums need every reading, so the curve cannot be lined' : ''}.`,
      ...UNMEASURED,
      cure: 'Measure there and check again.',
    },
  ]
}

export function slips(found: readonly Slip[], readingsMm: readonly (number | null)[]): BendCheckFinding[] {
  return found.map(({ station, expectedMm }) => ({
    rule: 'slip',
    severity: 'warn',
    stations: [station],
    message: `The reading at station ${station}, ${formatMm(readingsMm[station]!)}, does not fit its neighbours, which suggest about ${formatMm(expectedMm)}. A station out of place would also change their readings.`,
    measured: readingsMm[station]!,
    limit: expectedMm,
    unit: 'mm',
    cure: 'Measure it again before moving anything. If it repeats, look for a kink at that station, especially at a joint.',
  }))
}

export function bendsOtherWay(readingsMm: readonly (number | null)[], resolutionMm: number): BendCheckFinding[] {
  const stations = indexesWhere(readingsMm, (reading) => reading !== null && exceeds(-reading, resolutionMm))
  if (stations.length === 0) return []
  return [
    {
      rule: 'bends-other-way',
      severity: 'note',
      stations,
      message: `At ${named(stations)} the rail bends the opposite way to the radius given.`,
      ...UNMEASURED,
      cure: 'If the chord was just held on the other side, enter those readings without the minus sign.',
    },
  ]
}

export function notUsed(fields: readonly string[]): BendCheckFinding[] {
  if (fields.length === 0) return []
  return [
    {
      rule: 'not-used',
      severity: 'note',
      stations: [],
      message: `With a radius this is a bench check; ${fields.join(', ')} ${fields.length > 1 ? 'are' : 'is'} not used.`,
      ...UNMEASURED,
      cure: 'Leave the radius out to line a laid curve.',
    },
  ]
}

export function spacingNotHalfChord(spacingMm: number, chordMm: number): BendCheckFinding {
  return {
    rule: 'spacing-not-half-chord',
    severity: 'warn',
    stations: [],
    message: `The stations are ${formatMm(spacingMm)} apart, not half a chord (${formatMm(chordMm / 2)}): the readings do not show how moving one affects its neighbours, so throws are not given and readings are not checked for errors.`,
    measured: spacingMm,
    limit: chordMm / 2,
    unit: 'mm',
    cure: 'Put the stations half a chord apart, or measure with a chord of twice their spacing.',
  }
}

/** What a given proposal does to the end of the curve. */
export function closures(table: LiningTable, spacingMm: number): BendCheckFinding[] {
  const findings: BendCheckFinding[] = []
  const last = table.halfThrows.length - 1
  if (exceeds(Math.abs(table.lastSum), 0)) {
    const turnedDeg = (2 * table.lastSum * 180) / (Math.PI * spacingMm)
    findings.push({
      rule: 'end-direction',
      severity: 'warn',
      stations: [last],
      message: `The proposed ordinates add up to ${formatMm(Math.abs(table.lastSum))} ${table.lastSum > 0 ? 'less' : 'more'} than the readings: the track beyond the curve would turn by ${Math.abs(turnedDeg).toFixed(2)}°.`,
      measured: table.lastSum,
      limit: 0,
      unit: 'mm',
      cure: `${table.lastSum > 0 ? 'Add' : 'Subtract'} ${formatMm(Math.abs(table.lastSum), 2)} ${table.lastSum > 0 ? 'to' : 'from'} the proposed ordinates in total.`,
    })
  }
  if (exceeds(Math.abs(2 * table.lastHalfThrow), 0))
    findings.push({
      rule: 'end-position',
      severity: 'warn',
      stations: [last],
      message: `The last station would have to move ${formatMm(Math.abs(2 * table.lastHalfThrow))}: the curve does not meet the track beyond it.`,
      measured: 2 * table.lastHalfThrow,
      limit: 0,
      unit: 'mm',
      cure: `Shift ordinate along the proposal: each millimetre moved one station ${table.lastHalfThrow > 0 ? 'earlier' : 'later'} brings the last station 2 mm back.`,
    })
  return findings
}

export function fixedStationsMove(fixed: readonly number[], throwsMm: readonly number[]): BendCheckFinding[] {
  const stations = fixed.filter((station) => exceeds(Math.abs(throwsMm[station]!), 0)).toSorted((a, b) => a - b)
  if (stations.length === 0) return []
  const largest = Math.max(...stations.map((station) => Math.abs(throwsMm[station]!)))
  return [
    {
      rule: 'fixed-station-moves',
      severity: 'stop',
      stations,
      message: `The proposed ordinates move fixed ${named(stations)} by up to ${formatMm(largest)}.`,
      measured: largest,
      limit: 0,
      unit: 'mm',
      cure: 'Leave out the proposed ordinates: those calculated here keep fixed stations in place.',
    },
  ]
}

/**
 * @param proposal who proposed the ordinates; the program's own have the least possible throws, or only the least found
 */
export function throwTooLarge(
  throwsMm: readonly number[],
  limitMm: number | undefined,
  proposal: 'given' | 'least' | 'found',
): BendCheckFinding[] {
  const largest = Math.max(...throwsMm.map(Math.abs))
  if (limitMm === undefined || !exceeds(largest, limitMm)) return []
  const limit = formatMm(limitMm)
  const shown = formatMm(largest, 2)
  const messages = {
    given: `The proposed ordinates need throws of up to ${shown}; at most ${limit} is allowed.`,
    least: `The ends and the fixed stations cannot be kept with throws of at most ${limit}; the smallest possible largest throw, with up to six bodies, is ${shown}.`,
    found: `No ordinates were found that keep the ends and the fixed stations with throws of at most ${limit}; the smallest largest throw found is ${shown}.`,
  }
  return [
    {
      rule: 'maximum-throw',
      severity: 'stop',
      stations: indexesWhere(throwsMm, (throwMm) => exceeds(Math.abs(throwMm), limitMm)),
      message: messages[proposal],
      measured: largest,
      limit: limitMm,
      unit: 'mm',
      cure:
        proposal === 'given'
          ? 'Leave out the proposed ordinates to get those with the smallest largest throw.'
          : 'Allow larger throws, release a fixed station, or measure further out so that the curve can start earlier.',
    },
  ]
}

export function noProposal(fixed: readonly number[], isComplete: boolean): BendCheckFinding {
  return {
    rule: 'no-proposal',
    severity: 'stop',
    stations: fixed.toSorted((a, b) => a - b),
    message: isComplete
      ? 'No sequence of linear runs and bodies of constant ordinate keeps both ends and all fixed stations in place.'
      : 'The search ended without finding a sequence of linear runs and bodies of constant ordinate that keeps both ends and all fixed stations in place.',
    ...UNMEASURED,
    cure: isComplete
      ? 'Release some of the fixed stations, or give the ordinates to line to.'
      : `Release some of the fixed stations. ${IN_PARTS}`,
  }
}

/**
 * The work of one check is bounded; readings that do not form a curve, or many that form an irregular one, use it up.
 */
export function searchEnded(isComplete: boolean): BendCheckFinding[] {
  if (isComplete) return []
  return [
    {
      rule: 'search-ended',
      severity: 'note',
      stations: [],
      message:
        'The search for ordinates stopped at its limit: there may be a proposal with smaller throws or fewer bodies.',
      ...UNMEASURED,
      cure: IN_PARTS,
    },
  ]
}

export function tooManyToPropose(stations: number, most: number): BendCheckFinding {
  return {
    rule: 'too-many-to-propose',
    severity: 'stop',
    stations: [],
    message: `Ordinates are proposed for at most ${most} stations; there are ${stations}.`,
    measured: stations,
    limit: most,
    unit: 'stations',
    cure: IN_PARTS,
  }
}

/** Ends at which the curve may continue beyond the readings. */
export function unfinishedEnds(stations: readonly number[]): BendCheckFinding[] {
  if (stations.length === 0) return []
  return [
    {
      rule: 'unfinished-end',
      severity: 'note',
      stations,
      message: `The curve continues beyond ${named(stations)}: the proposal leaves the track in place there and assumes that the curve continues outside.`,
      ...UNMEASURED,
      cure: 'Start and end the readings on straight track, where they are 0.',
    },
  ]
}

/** More than one body, or bodies that bend opposite ways. */
export function severalBodies(bodies: readonly Body[], chordMm: number): BendCheckFinding[] {
  const curved = bodies.filter(({ radiusMm }) => radiusMm !== null)
  if (bodies.length < 2) return []
  const radii = bodies.map(({ radiusMm }) => (radiusMm === null ? 'straight' : formatMm(radiusMm, 0)))
  const findings: BendCheckFinding[] = [
    {
      rule: 'several-bodies',
      severity: 'note',
      stations: [],
      message: `One constant ordinate does not fit; the proposal has ${bodies.length} bodies, of radius ${radii.join(', ')} (chord ${formatMm(chordMm)}).`,
      ...UNMEASURED,
      cure: 'If the curve should have one radius, give the ordinates yourself and accept larger throws.',
    },
  ]
  const bendsBothWays = curved.some(({ radiusMm }) => radiusMm! > 0) && curved.some(({ radiusMm }) => radiusMm! < 0)
  if (bendsBothWays)
    findings.push({
      rule: 'reverse-curve',
      severity: 'note',
      stations: [],
      message: 'The curve bends both ways. All throws are + to the same side: outward where the readings are positive.',
      ...UNMEASURED,
      cure: 'Where the readings are negative, move stations with a + throw towards the centre of that part.',
    })
  return findings
}

function indexesWhere<T>(values: readonly T[], holds: (value: T) => boolean): number[] {
  return values.flatMap((value, n) => (holds(value) ? [n] : []))
}

const MOST_NAMED = 8

function named(stations: readonly number[]): string {
  if (stations.length === 1) return `station ${stations[0]}`
  if (stations.length > MOST_NAMED)
    return `stations ${stations.slice(0, MOST_NAMED).join(', ')} and ${stations.length - MOST_NAMED} more`
  return `stations ${stations.slice(0, -1).join(', ')} and ${stations.at(-1)}`
}
