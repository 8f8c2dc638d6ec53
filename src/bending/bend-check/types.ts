import {
  type Answer,
  component,
  count,
  type Fixed,
  length,
  list,
  nullable,
  number,
  object,
  word,
} from '../../plan/fields/answer.ts'
import { ASSUMPTION } from '../../plan/fields/assumption.ts'
import { FINDING_FIELDS } from '../../plan/finding.ts'

/** Readings of a bent rail or of a laid curve, in mm; omitted fields take their default or do not apply. */
export interface BendCheckInput {
  readonly chordMm: number
  /**
   * Reading n is the ordinate in the middle of a chord centred on station n; negative bends the other way; null was not
   * read. Up to 500.
   */
  readonly readingsMm: readonly (number | null)[]
  /** Of the face the chord touches. With it the check is a bench check, without it the curve is lined. */
  readonly radiusMm?: number | undefined
  /** The ordinates to line to, one per station; if omitted, the program proposes them. */
  readonly proposedMm?: readonly number[] | undefined
  /** Between stations; half the chord when left out. */
  readonly spacingMm?: number | undefined
  /** How far a reading may be off, either way. */
  readonly resolutionMm?: number | undefined
  readonly tolerancePct?: number | undefined
  /** Indexes of stations that do not move. */
  readonly fixed?: readonly number[] | undefined
  /** No station is to be thrown further than this. */
  readonly maximumThrowMm?: number | undefined
}

const VERDICT = word(['bend-more', 'ease', 'good'], 'What to do at the station; good: nothing.')

export type Verdict = Answer<typeof VERDICT>

const STATION_CHECK = component('StationCheck', 'A station: what was read there and what it means.', {
  index: count(),
  atMm: length(),
  ordinateMm: nullable(length()),
  radiusMm: nullable(
    length(
      'The radius that the reading gives exactly, mm; negative where the rail bends the other way, null where it is straight or was not read.',
    ),
  ),
  radiusLowMm: nullable(length('The tightest radius within the error of the reading, mm.')),
  radiusHighMm: nullable(
    length('The flattest radius within the error of the reading, mm; null where the rail may be straight.'),
  ),
  targetOrdinateMm: nullable(length()),
  deviationMm: nullable(length('Reading minus target, mm: the error in the string-lining table.')),
  verdict: nullable(VERDICT),
  runningSumMm: nullable(
    length('The sum of errors up to this station in the string-lining table, mm; null where there is no table.'),
  ),
  throwMm: nullable(
    length(
      'How far to move the station, mm; positive is outward, away from the centre of the curves with positive readings, or of the whole curve where no target is positive. null in a bench check.',
    ),
  ),
})

export type StationCheck = Fixed<Answer<typeof STATION_CHECK>>

const BEND_CHECK_FINDING = component('BendCheckFinding', 'A note or warning about a check.', {
  ...FINDING_FIELDS,
  stations: list(count(), 'The stations it concerns, counted from 0; empty: all of them.'),
})

export type BendCheckFinding = Fixed<Answer<typeof BEND_CHECK_FINDING>>

const BODY = object({
  fromMm: nullable(length('Null where the stretch goes on beyond the readings; toMm likewise.')),
  toMm: nullable(length()),
  ordinateMm: length(),
  radiusMm: nullable(length('Negative where it bends the other way, null where it is straight.')),
})

/** A stretch of constant ordinate in the program's own proposal. */
export type Body = Fixed<Answer<typeof BODY>>

const RUN = object({
  fromMm: nullable(length('Null where the stretch goes on beyond the readings; toMm likewise.')),
  toMm: nullable(length()),
  fromOrdinateMm: length(),
  toOrdinateMm: length(),
})

/** A stretch along which the ordinate runs evenly from one body, or from straight, to the next. */
export type Run = Fixed<Answer<typeof RUN>>

export const BEND_CHECK_ANSWER = component(
  'BendCheckAnswer',
  'What the readings of a bent rail or a laid curve mean.',
  {
    stations: list(STATION_CHECK),
    bestFitRadiusMm: nullable(
      length(
        'The single radius that fits the readings best (least squares), mm: of the whole bend in a bench check, of the longest body in a lined curve. Negative if it bends the other way, null if it is straight.',
      ),
    ),
    turnedDeg: nullable(
      number(
        'How far the curve turns between its ends, degrees, with the sign of the readings; null unless every station was read and they are half a chord apart.',
      ),
    ),
    largestThrowMm: nullable(length()),
    proposal: nullable(
      object({ bodies: list(BODY), runs: list(RUN) }),
      'The proposal of the service where the request has none: n bodies of constant ordinate and the n + 1 runs before, between and after them.',
    ),
    findings: list(BEND_CHECK_FINDING),
    assumptions: list(ASSUMPTION),
  },
)

export type BendCheck = Fixed<Answer<typeof BEND_CHECK_ANSWER>>
