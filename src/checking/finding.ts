/** `stop`: cannot be built as drawn; `warn`: can, but breaks a rule; `note`: worth knowing. */
export type Severity = 'stop' | 'warn' | 'note'

/** Something a reader of the plan should know, with what was measured, what the limit is, and how to cure it. */
export interface Finding {
  rule: string
  severity: Severity
  /** Null: the whole plan. */
  track: string | null
  /** Null: the whole track. */
  element: number | null
  message: string
  measured: number | null
  limit: number | null
  unit: string | null
  cure: string
}
