/**
 * Saved plans as the rest of the program sees them. Two databases stand behind this one contract (see
 * `open-store.ts`); the tests run the same suite against both.
 */

/** A plan as the client wrote it, kept letter for letter (its own units, its own order of keys). */
export type StoredPlan = Readonly<Record<string, unknown>>

export interface Project {
  readonly id: string
  readonly name: string
  readonly notes: string
  readonly plan: StoredPlan
  /** 1 for a new project, one more with each replacement. */
  readonly revision: number
  /** RFC 3339, UTC. */
  readonly createdAt: string
  readonly updatedAt: string
}

export type ProjectSummary = Omit<Project, 'plan'>

export interface RevisionSummary {
  readonly revision: number
  readonly createdAt: string
  readonly name: string
}

export interface ProjectContent {
  readonly name: string
  readonly notes: string
  readonly plan: StoredPlan
}

/** Which revisions a writer is ready to replace: any, or those named. */
export type Expected = 'any' | readonly number[]

export type Written<T> =
  | { readonly outcome: 'done'; readonly value: T }
  | { readonly outcome: 'missing' }
  /** Somebody wrote in between; `revision` is the present one. */
  | { readonly outcome: 'stale'; readonly revision: number }

export interface ProjectStore {
  create(content: ProjectContent): Promise<Project>
  /** Newest first. `after` is the id of the last project of the page before; `next` is null on the last page. */
  list(page: { limit: number; after: string | null }): Promise<{ items: ProjectSummary[]; next: string | null }>
  get(id: string): Promise<Project | null>
  /** Writes a new revision; the old ones stay readable. */
  replace(id: string, content: ProjectContent, expected: Expected): Promise<Written<Project>>
  /** Removes the project with all its revisions. */
  remove(id: string, expected: Expected): Promise<Written<null>>
  /** Oldest first; null when there is no such project. */
  revisions(id: string): Promise<RevisionSummary[] | null>
  /** The project as it stood at that revision. */
  revision(id: string, revision: number): Promise<Project | null>
  /** Resolves when the database answers; rejects otherwise. */
  ping(): Promise<void>
  close(): Promise<void>
}
