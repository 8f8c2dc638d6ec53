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

const VERDICT = word(['bend-more', 'ease', 'good'], 'What to do at the station; good: leave it.')

export type Verdict = Answer<typeof VERDICT>

const STATION_CHECK = component('StationCheck', 'A station, what was read there and what it means.', {
  index: count(),
  atMm: length(),
  ordinateMm: nullable(length()),
  radiusMm: nullable(
    length(
      'Exactly from the reading; negative where it bends the other way, null where it is straight or there is none.',
    ),
  ),
  radiusLowMm: nullable(length('The tightest radius the reading may mean.')),
  radiusHighMm: nullable(length('The flattest radius the reading may mean; null where it may be straight.')),
  targetOrdinateMm: nullable(length()),
  deviationMm: nullable(length('Reading − target: the error of the string-lining table.')),
  verdict: nullable(VERDICT),
  runningSumMm: nullable(
    length("The string-lining table's sum of errors up to this station; null where there is no table."),
  ),
  throwMm: nullable(
    length(
      'How far to move the station, + outward, away from the centre: of the curves read as positive, or of the whole curve where no target is positive; null in a bench check.',
    ),
  ),
})

export type StationCheck = Fixed<Answer<typeof STATION_CHECK>>

const BEND_CHECK_FINDING = component('BendCheckFinding', 'Something a reader of a check should know.', {
  ...FINDING_FIELDS,
  stations: list(count(), 'Indexes; empty: all of them.'),
})

export type BendCheckFinding = Fixed<Answer<typeof BEND_CHECK_FINDING>>

const BODY = object({
  fromMm: nullable(length('Null, as toMm, where the stretch reaches beyond the readings.')),
  toMm: nullable(length()),
  ordinateMm: length(),
  radiusMm: nullable(length('Negative where it bends the other way, null where it is straight.')),
})

/** A stretch of constant ordinate in the program's own proposal. */
export type Body = Fixed<Answer<typeof BODY>>

const RUN = object({
  fromMm: nullable(length('Null, as toMm, where the stretch reaches beyond the readings.')),
  toMm: nullable(length()),
  fromOrdinateMm: length(),
  toOrdinateMm: length(),
})

/** A stretch along which the ordinate runs evenly from one body, or from straight, to the next. */
export type Run = Fixed<Answer<typeof RUN>>

export const BEND_CHECK_ANSWER = component('BendCheckAnswer', 'What readings tell of a bent rail or a laid curve.', {
  stations: list(STATION_CHECK),
  bestFitRadiusMm: nullable(
    length(
      'The one radius whose ordinate comes nearest to the readings (least squares): of the whole bend in a bench check, of the longest body in a lined curve. Negative when it bends the other way, null when straight.',
    ),
  ),
  turnedDeg: nullable(
    number(
      'How far the curve turns between its ends, signed as the readings; null unless every station was read half a chord apart.',
    ),
  ),
  largestThrowMm: nullable(length()),
  proposal: nullable(
    object({ bodies: list(BODY), runs: list(RUN) }),
    'The program’s own, where none was given: n bodies of constant ordinate and the n + 1 runs before, between and after them.',
  ),
  findings: list(BEND_CHECK_FINDING),
  assumptions: list(ASSUMPTION),
})

export type BendCheck = Fixed<Answer<typeof BEND_CHECK_ANSWER>>
