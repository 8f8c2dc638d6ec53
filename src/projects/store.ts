import {
  type Answer,
  component,
  count,
  type Fixed,
  moment,
  nullable,
  part,
  text,
  uuid,
  written,
} from '../plan/fields/answer.ts'
import { STOCK, type Stock } from '../shed/stock.ts'

/**
 * Saved plans as the rest of the program sees them. Two databases stand behind this one contract (see
 * `open-store.ts`); the tests run the same suite against both.
 */

/** A plan as the client wrote it, kept letter for letter (its own units, its own order of keys). */
export type StoredPlan = Readonly<Record<string, unknown>>

export const PROJECT_SUMMARY = component('ProjectSummary', 'A project without its plan.', {
  id: uuid(),
  name: text(),
  notes: text(),
  revision: count({ least: 1, says: '1 for a new project; each replacement adds 1.' }),
  createdAt: moment(),
  updatedAt: moment(),
})

export const PROJECT = component('Project', 'A saved plan with its name.', {
  ...PROJECT_SUMMARY.fields,
  plan: written('The plan as it was sent.'),
})

export const REVISION = component('Revision', 'A revision of a project.', {
  revision: count({ least: 1 }),
  createdAt: moment(),
  name: text(),
})

export type Project = Fixed<Answer<typeof PROJECT>>
export type ProjectSummary = Fixed<Answer<typeof PROJECT_SUMMARY>>
export type RevisionSummary = Fixed<Answer<typeof REVISION>>

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

/**
 * What a plan takes when this much lies there for it; never more. A plan that cannot be worked out takes nothing.
 * A pure function: the store calls it inside its transactions.
 */
export type Claim = (plan: StoredPlan, free: Stock) => Stock

export interface Shed {
  readonly stock: Stock
  /** One more with each change of the stock, from 1. */
  readonly revision: number
  /** RFC 3339, UTC. */
  readonly updatedAt: string
}

export const RESERVATION = component('Reservation', 'The stock that is reserved for a project.', {
  project: uuid(),
  name: text(),
  stock: STOCK,
})

export type Reservation = Fixed<Answer<typeof RESERVATION>>

export const BUILD = component('Build', 'What building a revision of a project changed in the shed.', {
  revision: count({ least: 1 }),
  builtAt: moment(),
  taken: part(STOCK, 'What was taken from the shed.'),
  returned: part(STOCK, 'What was added to the shed: offcuts and what was left of the packs.'),
})

export type Build = Fixed<Answer<typeof BUILD>>

/** What building takes and brings back, or why it cannot be told. */
export type BuildWork<F> = (
  project: Project,
  reserved: Stock,
) => { readonly ok: true; readonly taken: Stock; readonly returned: Stock } | { readonly ok: false; readonly reason: F }

export type Built<F> =
  | Written<Build>
  /** This revision was built before. */
  | { readonly outcome: 'built-before'; readonly build: Build }
  | { readonly outcome: 'refused'; readonly reason: F }

export const PROJECT_LINK = component(
  'Link',
  'A link with which anyone who has its token can read the tables of one project.',
  {
    id: uuid(),
    label: text(),
    createdAt: moment(),
    lastUsedAt: nullable(moment('Accurate to one minute; null if it was never used.')),
  },
)

export type ProjectLink = Fixed<Answer<typeof PROJECT_LINK>>

/** So many links a project may have. */
export const MOST_LINKS = 50

/**
 * The shed is dealt out to the projects in the order in which they were created: each that still is to be built gets what
 * its plan takes of what the older ones leave. Whoever changes a project or the stock deals anew, from that project on or
 * from the first, in the same transaction and with the shed locked: no two projects ever hold the same stick. `claim` is
 * what a plan takes; `withClaims` puts it in everywhere. Without it nothing is dealt.
 */
export interface ProjectStore {
  create(content: ProjectContent, claim?: Claim): Promise<Project>
  /** Newest first. `after` is the id of the last project of the page before; `next` is null on the last page. */
  list(page: { limit: number; after: string | null }): Promise<{ items: ProjectSummary[]; next: string | null }>
  get(id: string): Promise<Project | null>
  /** Writes a new revision; the old ones stay readable. */
  replace(id: string, content: ProjectContent, expected: Expected, claim?: Claim): Promise<Written<Project>>
  /** Removes the project with all its revisions. */
  remove(id: string, expected: Expected, claim?: Claim): Promise<Written<null>>
  /** Oldest first; null when there is no such project. */
  revisions(id: string): Promise<RevisionSummary[] | null>
  /** The project as it stood at that revision. */
  revision(id: string, revision: number): Promise<Project | null>
  shed(): Promise<Shed>
  /** Puts this stock in the place of all that was there. */
  restock(stock: Stock, expected: Expected, claim?: Claim): Promise<Exclude<Written<Shed>, { outcome: 'missing' }>>
  /** Who has what of the shed, the oldest project first. */
  reservations(): Promise<Reservation[]>
  /**
   * What the estimate of a revision may use: what is dealt to it, or was while it was the present one; once it is built,
   * what it took.
   */
  reserved(id: string, revision: number): Promise<Stock>
  /** Marks the present revision as built; what it takes leaves the shed, what is left over goes into it. */
  build<F>(id: string, expected: Expected, work: BuildWork<F>, claim?: Claim): Promise<Built<F>>
  /** The revisions that were built, the oldest first; null when there is no such project. */
  builds(id: string): Promise<Build[] | null>
  /** Oldest first; null when there is no such project. */
  links(id: string): Promise<ProjectLink[] | null>
  /** @param tokenHash of a token that nobody has yet */
  addLink(
    id: string,
    label: string,
    tokenHash: string,
  ): Promise<
    | { readonly outcome: 'done'; readonly value: ProjectLink }
    | { readonly outcome: 'missing' }
    | { readonly outcome: 'too-many' }
  >
  /** Whether there was such a link. */
  removeLink(id: string, link: string): Promise<boolean>
  /** The project that a token gives the tables of, at its present revision; notes that the link was used. */
  linked(tokenHash: string): Promise<Project | null>
  /** Resolves when the database answers; rejects otherwise. */
  ping(): Promise<void>
  close(): Promise<void>
}

/** The same store, which deals by this claim whatever is written. */
export function withClaims(store: ProjectStore, claim: Claim): ProjectStore {
  const bound: Partial<ProjectStore> = {
    create: (content) => store.create(content, claim),
    replace: (id, content, expected) => store.replace(id, content, expected, claim),
    remove: (id, expected) => store.remove(id, expected, claim),
    restock: (stock, expected) => store.restock(stock, expected, claim),
    build: (id, expected, work) => store.build(id, expected, work, claim),
  }
  return Object.assign(Object.create(store), bound)
}
