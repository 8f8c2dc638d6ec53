import { WorkersError, type WorkersErrorKind } from '../workers/workers-error.ts'
import type { ProjectStore } from './store.ts'
import { StoreError, type StoreErrorKind } from './store-error.ts'

/*
 * The store for a request that is answered in a worker thread. The database stays where it is: calls and their results are
 * plain data that go over.
 */

/** What such a request may call. Building, exports and imports are not answered in a thread. */
const METHODS = [
  'create',
  'createOnce',
  'list',
  'get',
  'replace',
  'remove',
  'restore',
  'revisions',
  'revision',
  'shed',
  'freeStock',
  'restock',
  'reservations',
  'reserved',
  'builds',
  'purchases',
  'notePurchases',
  'finishedCards',
  'noteCard',
  'links',
  'addLink',
  'removeLink',
  'linked',
] as const satisfies readonly (keyof ProjectStore)[]

type Method = (typeof METHODS)[number]

interface Call {
  readonly method: Method
  readonly given: readonly unknown[]
}

type Result =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly of: 'store'; readonly kind: StoreErrorKind; readonly message: string }
  | { readonly ok: false; readonly of: 'workers'; readonly kind: WorkersErrorKind }

/** Carries out a call of `remoteStore`. */
export async function carryOut(store: ProjectStore, { method, given }: Call): Promise<Result> {
  try {
    if (!METHODS.includes(method)) throw new StoreError('failed', `${method} cannot be called from a thread.`)
    const call = store[method] as (...given: readonly unknown[]) => Promise<unknown>
    return { ok: true, value: await call(...given) }
  } catch (error) {
    if (error instanceof WorkersError) return { ok: false, of: 'workers', kind: error.kind }
    const { kind, message } = error instanceof StoreError ? error : new StoreError('failed', 'The store failed.')
    return { ok: false, of: 'store', kind, message }
  }
}

/** @param ask has a call carried out */
export function remoteStore(ask: (call: Call) => Promise<Result>): ProjectStore {
  const calling =
    (method: Method) =>
    async (...given: readonly unknown[]) => {
      // What plans take of the shed is worked out for the thread that has the store.
      const result = await ask({ method, given: given.map((each) => (typeof each === 'function' ? undefined : each)) })
      if (result.ok) return result.value
      throw result.of === 'workers' ? new WorkersError(result.kind) : new StoreError(result.kind, result.message)
    }
  return Object.fromEntries(METHODS.map((method) => [method, calling(method)])) as unknown as ProjectStore
}
