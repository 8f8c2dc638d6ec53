/** All rows of all tables as text, in packed parts, each to be unpacked by itself and sent in order. */
export type Everything = readonly Buffer[]

/** Takes the next lines of a text, and is done when they are where they shall be. */
export type Write = (lines: string | Uint8Array) => Promise<void>

/** What an import would write or has written. */
export interface Imported {
  readonly projects: number
  readonly revisions: number
  /** Rows of all tables. */
  readonly rows: number
  /** Projects that were there before, all of which are replaced. */
  readonly replacedProjects: number
  /** Those whose name, notes, plan or revision differ before and after. */
  readonly changes: readonly ProjectChange[]
}

export interface ProjectChange {
  readonly id: string
  readonly name: string
  readonly change: 'added' | 'changed' | 'removed'
}

export type ImportFault =
  | { readonly kind: 'not-an-export'; readonly line: number }
  /** The end is missing. */
  | { readonly kind: 'cut-off' }
  | { readonly kind: 'other-version' }
  | { readonly kind: 'not-empty'; readonly projects: number }
