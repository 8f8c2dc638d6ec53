/** The rules of good track a plan is held against; null: that rule stays unchecked. */
export interface Standards {
  readonly minimumRadius: number | null
  readonly maximumGradePct: number
  readonly longestCar: number | null
  readonly minimumTangentBetweenReverseCurves: number | null
  readonly closureGap: number
  readonly closureHeading: number
}
