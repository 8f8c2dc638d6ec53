import type { IncomingMessage } from 'node:http'
import { type Context, Hono, type MiddlewareHandler } from 'hono'
import { AccessGuard, type AccessRefusal, type AccessSettings } from './access/guard.ts'
import { accessRequest } from './access/requests.ts'
import { createApi } from './api/api.ts'
import { CellCache } from './api/cells/cell-cache.ts'
import { compressed } from './api/compressed.ts'
import { engineVersion } from './api/engine-version.ts'
import { everyAnswer } from './api/every-answer.ts'
import { answerNotFound, answerOtherMethods } from './api/failures.ts'
import { problem } from './api/problem.ts'
import type { Clock } from './api/tables-answer.ts'
import { createDocs } from './docs/docs.ts'
import { failuresAnswered, refusingLarge } from './elsewhere.ts'
import { type Log, SILENT } from './log/log.ts'
import { type Answered, loggedRequests, type Weight } from './log/requests.ts'
import { createPage, pageNotFound, pageRefused } from './page/pages/pages.ts'
import { papers } from './print/papers.ts'
import type { Backups } from './projects/backups/backups.ts'
import { neededStock } from './projects/needed-stock.ts'
import { type ProjectStore, reservingStore } from './projects/store.ts'
import { StoreError } from './projects/store-error.ts'
import { Elsewhere } from './workers/elsewhere.ts'
import type { Threads } from './workers/open-workers.ts'
import type { Workers } from './workers/workers.ts'
import { WorkersError } from './workers/workers-error.ts'

interface AppDeps {
  readonly store: ProjectStore
  readonly workers: Workers
  /** For requests that the workers do not answer in this thread. */
  readonly threads?: Threads
  /** Who may use it; by default everyone on this computer. Null: that was decided before. */
  readonly access?: AccessSettings | null
  /** None by default. */
  readonly backups?: Backups | null
  /** Nothing is logged by default. */
  readonly log?: Log
  /** Called for every request. */
  readonly onAnswered?: (answered: Answered) => void
  /** For the dates on lists. */
  readonly clock?: Clock
}

const THIS_COMPUTER: AccessSettings = { allowedHosts: [], accessKey: null, calculationOrigins: [] }

/** The whole service as one request handler: the JSON interface, its guides and the page. It opens nothing and does not listen. */
export function createApp({
  store,
  workers,
  threads,
  access = THIS_COMPUTER,
  backups = null,
  log = SILENT,
  onAnswered = () => {},
  clock,
}: AppDeps): Hono {
  const app = new Hono()
  const guard = new AccessGuard(access ?? THIS_COMPUTER)
  const reserving = reservingStore(store, threads?.neededStock ?? neededStock)
  app.use(compressed)
  app.use(everyAnswer)
  app.use(loggedRequests(log, weightOf, onAnswered))
  if (access !== null) app.use(onlyAdmitted(guard))
  if (threads) {
    engineVersion()
    app.use(refusingLarge)
  }
  const cellCache = new CellCache()
  const api = createApi({
    ...{ store: reserving, workers, papers, cellCache },
    ...(backups && { backups: () => backups.status() }),
    ...(clock && { clock }),
  })
  app.route('/', api)
  app.route(
    '/',
    createDocs(async (path) => {
      // The examples of a guide take longer together than this thread may be kept busy.
      if (threads) throw new Elsewhere()
      return api.request(path)
    }),
  )
  app.route('/', createPage({ store: reserving, workers, guard, backups, papers, ...(clock && { clock }) }))
  answerOtherMethods(app)
  const notFoundAsJson = answerNotFound(app)
  app.notFound((c) => {
    if (!wantsPage(c.req.header('accept'), c.req.path)) return notFoundAsJson(c)
    const page = pageNotFound()
    return c.newResponse(page.body, page)
  })
  app.onError(failuresAnswered(threads ? { threads, store: reserving, cellCache } : null))
  app.fetch = cachedFirst(app.fetch, cellCache, guard)
  return app
}

/** Work that was refused or given up was answered as it should be; a database that is away is the operator's business. */
function weightOf(error: Error): Weight {
  if (error instanceof WorkersError) return 'info'
  return error instanceof StoreError && (error.kind === 'unavailable' || error.kind === 'full') ? 'warn' : 'error'
}

/** Answers requests that may not be answered otherwise, and names the foreign pages that may read an answer. */
function onlyAdmitted(guard: AccessGuard): MiddlewareHandler {
  return async (c, next) => {
    const request = accessRequest(c.req.raw, c.env?.incoming)
    const reader = guard.foreignReader(request)
    if (reader !== null) openTo(c, reader)
    const refusal = guard.refusal(request)
    if (refusal !== null) return refused(c, refusal)
    await next()
    // What a worker thread answers does not have the headers that were set before.
    if (reader !== null && !c.res.headers.has('access-control-allow-origin')) openTo(c, reader)
  }
}

function refused(c: Context, refusal: AccessRefusal): Response {
  if (refusal.kind === 'key-required') c.header('WWW-Authenticate', 'Bearer realm="Longchord"')
  if (refusal.kind === 'too-many-wrong-keys') c.header('Retry-After', String(refusal.retryAfterS))
  const isForm = !c.req.path.startsWith('/v1/') && c.req.method === 'POST'
  return isForm || wantsPage(c.req.header('accept'), c.req.path) ? pageRefused(c, refusal.kind) : problem(c, refusal)
}

/** Lets a page of another origin read the answer, and send what its request needs. */
function openTo(c: Context, origin: string): void {
  c.header('Access-Control-Allow-Origin', origin)
  c.header('Vary', 'Origin', { append: true })
  c.header('Cross-Origin-Resource-Policy', 'cross-origin')
  if (c.req.method !== 'OPTIONS') return
  c.header('Access-Control-Allow-Methods', 'GET, HEAD, POST')
  c.header('Access-Control-Allow-Headers', 'Authorization, Content-Type, If-None-Match')
  c.header('Access-Control-Max-Age', '3600')
}

/** Answers cells from the cache before routing. */
function cachedFirst(fetch: Hono['fetch'], cellCache: CellCache, guard: AccessGuard): Hono['fetch'] {
  return (request, env, context) => {
    const { incoming } = (env ?? {}) as { incoming?: IncomingMessage }
    const header = (name: string) =>
      (incoming ? incoming.headers[name] : request.headers.get(name)) as string | undefined
    const cached = cellCache.responseTo(request.method, request.url, header)
    return cached && guard.admits(accessRequest(request, incoming)) ? cached : fetch(request, env, context)
  }
}

/** Whether the request comes from a browser that should get a page, rather than from a program. */
function wantsPage(accept: string | undefined, path: string): boolean {
  return accept !== undefined && /\btext\/html\b/.test(accept) && !path.startsWith('/v1/')
}
