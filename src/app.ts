import type { IncomingMessage } from 'node:http'
import { Hono } from 'hono'
import { createApi } from './api/api.ts'
import { CellCache } from './api/cells/cell-cache.ts'
import { compressed } from './api/compressed.ts'
import { everyAnswer } from './api/every-answer.ts'
import { answerFailure, answerNotFound, answerOtherMethods } from './api/failures.ts'
import type { Clock } from './api/tables-answer.ts'
import { createDocs } from './docs/docs.ts'
import { createPage, pageNotFound } from './page/pages/pages.ts'
import { neededStock } from './projects/needed-stock.ts'
import { type ProjectStore, reservingStore } from './projects/store.ts'
import type { Workers } from './workers/workers.ts'

/** The whole service as one request handler: the JSON interface, its guides and the page. It opens nothing and does not listen. */
export function createApp({ store, workers, clock }: { store: ProjectStore; workers: Workers; clock?: Clock }): Hono {
  const app = new Hono()
  const reserving = reservingStore(store, neededStock)
  app.use(compressed)
  app.use(everyAnswer)
  const cellCache = new CellCache()
  const api = createApi({ store: reserving, workers, cellCache, ...(clock && { clock }) })
  app.route('/', api)
  app.route(
    '/',
    createDocs(async (path) => api.request(path)),
  )
  app.route('/', createPage({ store: reserving, workers }))
  answerOtherMethods(app)
  const notFoundAsJson = answerNotFound(app)
  app.notFound((c) => {
    if (!wantsPage(c.req.header('accept'), c.req.path)) return notFoundAsJson(c)
    const page = pageNotFound()
    return c.newResponse(page.body, page)
  })
  app.onError(answerFailure)
  app.fetch = cachedFirst(app.fetch, cellCache)
  return app
}

/** Answers cells from the cache before routing. */
function cachedFirst(fetch: Hono['fetch'], cellCache: CellCache): Hono['fetch'] {
  return (request, env, context) => {
    const { incoming } = (env ?? {}) as { incoming?: IncomingMessage }
    const header = (name: string) =>
      (incoming ? incoming.headers[name] : request.headers.get(name)) as string | undefined
    return cellCache.responseTo(request.method, request.url, header) ?? fetch(request, env, context)
  }
}

/** Whether the request comes from a browser that should get a page, rather than from a program. */
function wantsPage(accept: string | undefined, path: string): boolean {
  return accept !== undefined && /\btext\/html\b/.test(accept) && !path.startsWith('/v1/')
}
