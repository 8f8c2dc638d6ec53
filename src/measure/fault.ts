/** What is wrong with an input: its place as JSON Pointer tokens, a code of the fault catalogue, and what to do. */
export interface Fault {
  readonly path: readonly (string | number)[]
  readonly code: string
  readonly detail: string
  readonly hint?: string | undefined
}
