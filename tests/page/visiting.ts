import type { Hono } from 'hono'
import { afterAll, beforeAll, expect } from 'vitest'
import { createApp } from '../../src/app.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { temporaryStore } from '../servers/databases.ts'
import { fieldsOf, textOf } from './markup.ts'
import { unsoundness } from './soundness.ts'

/** A page as somebody sees it who has no script and looks at everything. */
export interface Seen {
  readonly status: number
  readonly headers: Headers
  readonly markup: string
  readonly text: string
  readonly fields: Map<string, string>
}

/** The whole service with a store of its own, visited with a browser of ours: the markup of every answer is looked at. */
export function visiting() {
  let store: ProjectStore
  let app: Hono

  beforeAll(async () => {
    store = await temporaryStore()
    app = createApp({ store, workers: inThisThread })
  })
  afterAll(() => store.close())

  async function seen(response: Response): Promise<Seen> {
    const markup = await response.text()
    if (markup !== '') expect(unsoundness(markup)).toEqual([])
    const { status, headers } = response
    return { status, headers, markup, text: markup && textOf(markup), fields: fieldsOf(markup) }
  }

  return {
    store: () => store,
    get: async (path: string) => seen(await app.request(path)),
    /** Any request, its answer as it is. */
    ask: async (path: string, init?: RequestInit) => app.request(path, init),
    /** Sends a form as the page itself does; as another site does where one is named. */
    post: async (path: string, form: FormData | Iterable<readonly [string, string]>, site = 'same-origin') => {
      const body = form instanceof FormData ? form : new URLSearchParams(Object.fromEntries(form))
      return seen(await app.request(path, { method: 'POST', headers: { 'Sec-Fetch-Site': site }, body }))
    },
    /** Something that is no form. */
    postJson: async (path: string) => {
      const headers = { 'Content-Type': 'application/json', 'Sec-Fetch-Site': 'same-origin' }
      return seen(await app.request(path, { method: 'POST', headers, body: '{}' }))
    },
  }
}

/** The fields of a form with some of them changed. */
export function changed(fields: ReadonlyMap<string, string>, change: Readonly<Record<string, string>>) {
  return new Map([...fields, ...Object.entries(change)])
}
