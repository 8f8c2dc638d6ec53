/** All rows of all tables as text, in packed parts, each to be unpacked by itself and sent in order. */
export type Everything = readonly Buffer[]

/** What an import would write or has written. */
export interface Imported {
  readonly projects: number
  readonly revisions: number
  /** Rows of all tables. */
  readonly rows: number
  /** Projects that were there before, all of which are replaced. */
  readonly replacedProjects: number
}

export type ImportFault =
  | { readonly kind: 'not-an-export'; readonly line: number }
  | { readonly kind: 'other-version' }
  | { readonly kind: 'not-empty'; readonly projects: number }
