/** Readings of a bent rail or of a laid curve, in mm; whatever is left out takes its default or does not apply. */
export interface BendCheckInput {
  readonly chordMm: number
  /**
   * Reading n is the ordinate in the middle of a chord centred on station n; negative bends the other way; null was not
   * read. Up to 500.
   */
  readonly readingsMm: readonly (number | null)[]
  /** Of the face the chord touches. With it the check is a bench check, without it the readings are lined. */
  readonly radiusMm?: number | undefined
  /** The ordinates to line to, one a station; left out, the program proposes them. */
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

/** What to do at a station: bend (or curve) it more, ease it, or leave it. */
export type Verdict = 'bend-more' | 'ease' | 'good'

export interface StationCheck {
  readonly index: number
  readonly atMm: number
  readonly ordinateMm: number | null
  /** Exactly from the reading; negative where it bends the other way, null where it is straight or there is none. */
  readonly radiusMm: number | null
  /** The tightest and the flattest radius the reading may mean; the flattest is null where it may be straight. */
  readonly radiusLowMm: number | null
  readonly radiusHighMm: number | null
  readonly targetOrdinateMm: number | null
  /** Reading − target: the error of the string-lining table. */
  readonly deviationMm: number | null
  readonly verdict: Verdict | null
  /** The string-lining table's sum of errors up to this station; null where there is no table. */
  readonly runningSumMm: number | null
  /**
   * How far to move the station, + away from the centre: of the curves read as positive, or of the whole curve where no
   * target is positive.
   */
  readonly throwMm: number | null
}

export interface BendCheckFinding {
  readonly rule: string
  readonly severity: 'stop' | 'warn' | 'note'
  /** Indexes; empty when it is about all of them. */
  readonly stations: readonly number[]
  readonly message: string
  readonly measured: number | null
  readonly limit: number | null
  readonly unit: string | null
  readonly cure: string
}

/** A stretch of constant ordinate in the program's own proposal. Stretches that reach beyond the readings end in null. */
export interface Body {
  readonly fromMm: number | null
  readonly toMm: number | null
  readonly ordinateMm: number
  /** Negative where it bends the other way, null where it is straight. */
  readonly radiusMm: number | null
}

/** A stretch along which the ordinate runs evenly from one body, or from straight, to the next. */
export interface Run {
  readonly fromMm: number | null
  readonly toMm: number | null
  readonly fromOrdinateMm: number
  readonly toOrdinateMm: number
}

export interface BendCheck {
  readonly stations: readonly StationCheck[]
  /**
   * The one radius whose ordinate comes nearest to the readings (least squares): of the whole bend in a bench check, of
   * the longest body in a lined curve. Negative when it bends the other way, null when straight.
   */
  readonly bestFitRadiusMm: number | null
  /** How far the curve turns between its ends, signed as the readings; null unless every station was read half a chord apart. */
  readonly turnedDeg: number | null
  readonly largestThrowMm: number | null
  /** The program's own proposal: n bodies and the n + 1 runs before, between and after them. */
  readonly proposal: { readonly bodies: readonly Body[]; readonly runs: readonly Run[] } | null
  readonly findings: readonly BendCheckFinding[]
  /** Defaults used: the field as a JSON Pointer, the value as people write it, and why. */
  readonly assumptions: readonly { readonly field: string; readonly value: string; readonly reason: string }[]
}
