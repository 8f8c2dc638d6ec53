/** The rules of good track a plan is held against; null: that rule stays unchecked. */
export interface Standards {
  readonly minimumRadiusMm: number | null
  readonly maximumGradePct: number
  readonly longestCarMm: number | null
  readonly minimumTangentBetweenReverseCurvesMm: number | null
  readonly closureGapMm: number
  readonly closureHeadingDeg: number
}
