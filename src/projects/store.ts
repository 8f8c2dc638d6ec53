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
import type { LengthTexts } from '../shed/length-texts.ts'
import { STOCK, type Stock } from '../shed/stock.ts'
import type { Everything, Imported, ImportFault, Write } from './everything-types.ts'

/**
 * The interface to saved plans. Two databases implement it (see `open-store.ts`); the tests run the same suite on both.
 */

/** A plan exactly as the client sent it, with its units and order of keys. */
export type StoredPlan = Readonly<Record<string, unknown>>

const PROJECT_FIELDS = {
  id: uuid(),
  name: text(),
  notes: text(),
  revision: count({ least: 1, says: '1 for a new project; each replacement adds 1.' }),
  createdAt: moment(),
  updatedAt: moment(),
}

export const PROJECT_SUMMARY = component('ProjectSummary', 'A project without its plan.', {
  ...PROJECT_FIELDS,
  builtRevision: nullable(count({ least: 1, says: 'The latest revision that was built; null if none was.' })),
  deletedAt: nullable(moment('When it was deleted; null if it is not.')),
})

export const PROJECT = component('Project', 'A saved plan with its name.', {
  ...PROJECT_FIELDS,
  plan: written({ says: 'The plan as it was sent.', component: 'Plan' }),
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

/** The revisions that a client allows to be replaced: any, or those listed. */
export type Expected = 'any' | readonly number[]

export type Written<T> =
  | { readonly outcome: 'done'; readonly value: T }
  | { readonly outcome: 'missing' }
  /** Somebody else saved in the meantime; `revision` is the current one. */
  | { readonly outcome: 'stale'; readonly revision: number }

/** The outcome of a creation with a key. */
export type CreatedOnce =
  /** Created now, or before with the same key: as it was created. */
  | { readonly outcome: 'done'; readonly value: Project }
  /** A request with this key is still at work. */
  | { readonly outcome: 'in-progress' }
  /** The key was used for another request. */
  | { readonly outcome: 'other-body' }
  /** The project that was created with this key has been deleted since. */
  | { readonly outcome: 'missing' }

/**
 * What a plan takes of this free stock, and never more. A plan that cannot be worked out takes nothing. A pure function,
 * which may work in another thread: the store waits for it inside its transactions.
 */
export type NeededStock = (plan: StoredPlan, free: Stock) => Stock | Promise<Stock>

export interface Shed {
  readonly stock: Stock
  /** Its lengths as people wrote them, where they gave them as text. */
  readonly lengthTexts: LengthTexts
  /** 1 at first; each change of the stock adds 1. */
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

/** How much was bought of an item of a project's bill. */
export interface Purchase {
  readonly item: string
  readonly quantity: number
}

/** What building takes and returns, or why that is unknown. */
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
  'A link with which anyone who has its token can read the tables and printed sheets of one project.',
  {
    id: uuid(),
    label: text(),
    createdAt: moment(),
    lastUsedAt: nullable(moment('Accurate to one minute; null if it was never used.')),
  },
)

export type ProjectLink = Fixed<Answer<typeof PROJECT_LINK>>

/** The most links that a project may have. */
export const MOST_LINKS = 50

/**
 * Stock in the shed is reserved for projects in the order in which they were created: each that is still to be built gets
 * what its plan takes of what the older ones leave. Every change of a project or of the stock reserves again, from that
 * project on or from the first, in the same transaction and with the shed locked, so that no stick is reserved twice.
 * `neededStock` says what a plan takes; `reservingStore` adds it to every call. Without it nothing is reserved.
 */
export interface ProjectStore {
  create(content: ProjectContent, neededStock?: NeededStock): Promise<Project>
  /** The same, but once for a key that the client chose, however often it asks. `bodyHash` stands for what it sent. */
  createOnce(key: string, bodyHash: string, content: ProjectContent, neededStock?: NeededStock): Promise<CreatedOnce>
  /**
   * Newest first. `after` is the id of the last project of the previous page; `next` is null on the last page. `deleted`:
   * those that were deleted, and no others.
   */
  list(page: {
    limit: number
    after: string | null
    deleted?: boolean
  }): Promise<{ items: ProjectSummary[]; next: string | null }>
  get(id: string): Promise<Project | null>
  /** Saves a new revision; earlier ones can still be read. */
  replace(id: string, content: ProjectContent, expected: Expected, neededStock?: NeededStock): Promise<Written<Project>>
  /** Deletes the project: only `restore` and a list of deleted ones find it then, until it is purged. */
  remove(id: string, expected: Expected, neededStock?: NeededStock): Promise<Written<null>>
  /** Makes a deleted project what it was; one that is not deleted stays as it is. Null when there is no such project. */
  restore(id: string, neededStock?: NeededStock): Promise<Project | null>
  /** Removes what was deleted long ago, with all its revisions; returns how many. */
  purge(): Promise<number>
  /** Oldest first; null when there is no such project. */
  revisions(id: string): Promise<RevisionSummary[] | null>
  /** The project at that revision. */
  revision(id: string, revision: number): Promise<Project | null>
  shed(): Promise<Shed>
  /** What is in the shed and not reserved for any project. */
  freeStock(): Promise<Stock>
  /** Replaces the whole stock. `lengthTexts`: how its lengths were written, in addition to what is known of that. */
  restock(
    stock: Stock,
    expected: Expected,
    neededStock?: NeededStock,
    lengthTexts?: LengthTexts,
  ): Promise<Exclude<Written<Shed>, { outcome: 'missing' }>>
  /** What is reserved for each project, the oldest project first. */
  reservations(): Promise<Reservation[]>
  /**
   * What the estimate of a revision may use: what is reserved for it, or was while it was current; once it is built, what it
   * took.
   */
  reserved(id: string, revision: number): Promise<Stock>
  /** Marks the current revision as built: removes what it takes from the shed and adds what is left over. */
  build<F>(id: string, expected: Expected, work: BuildWork<F>, neededStock?: NeededStock): Promise<Built<F>>
  /** The revisions that were built, the oldest first; null when there is no such project. */
  builds(id: string): Promise<Build[] | null>
  /** What was bought for a project that is still to be built; building it uses this up. */
  purchases(id: string): Promise<Purchase[]>
  /** Notes what was bought of these items; 0: nothing. Other items stay as they are. False when there is no such project. */
  notePurchases(id: string, purchases: readonly Purchase[]): Promise<boolean>
  /** The bench cards of a revision that are ticked off. */
  finishedCards(id: string, revision: number): Promise<string[]>
  /** Ticks a bench card off, or takes that back. False when there is no such revision. */
  noteCard(id: string, revision: number, card: string, done: boolean): Promise<boolean>
  /** Oldest first; null when there is no such project. */
  links(id: string): Promise<ProjectLink[] | null>
  /** @param tokenHash of a new token */
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
  /** The project of the link with this token, at its current revision; records that the link was used. */
  linked(tokenHash: string): Promise<Project | null>
  /** All that is stored, at one moment. */
  exportAll(): Promise<Everything>
  /** The same as the lines of a text. Other calls go on meanwhile. */
  copyTo(write: Write): Promise<void>
  /** Replaces all that is stored; see `importEverything`. */
  importAll(
    lines: AsyncIterable<string>,
    how: { readonly dryRun: boolean; readonly replace: boolean },
  ): Promise<Imported | ImportFault>
  /** Resolves when the database answers; rejects otherwise. */
  ping(): Promise<void>
  close(): Promise<void>
}

/** The same store, which reserves stock again at every change. */
export function reservingStore(store: ProjectStore, neededStock: NeededStock): ProjectStore {
  const bound: Partial<ProjectStore> = {
    create: (content) => store.create(content, neededStock),
    createOnce: (key, bodyHash, content) => store.createOnce(key, bodyHash, content, neededStock),
    replace: (id, content, expected) => store.replace(id, content, expected, neededStock),
    remove: (id, expected) => store.remove(id, expected, neededStock),
    restore: (id) => store.restore(id, neededStock),
    restock: (stock, expected, _, lengthTexts) => store.restock(stock, expected, neededStock, lengthTexts),
    build: (id, expected, work) => store.build(id, expected, work, neededStock),
  }
  return Object.assign(Object.create(store), bound)
}
