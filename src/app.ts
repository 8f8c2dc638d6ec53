import type { IncomingMessage } from 'node:http'
import { Hono } from 'hono'
import { createApi } from './api/api.ts'
import { AnswersKept } from './api/cells/answers-kept.ts'
import { everyAnswer } from './api/every-answer.ts'
import { answerFailure, answerNotFound, answerOtherMethods } from './api/failures.ts'
import { createDocs } from './docs/docs.ts'
import { createPage, pageNotFound } from './page/pages/pages.ts'
import { claimOf } from './projects/claiming.ts'
import { type ProjectStore, withClaims } from './projects/store.ts'
import type { Workers } from './workers/workers.ts'

/** The whole service as one request handler: the JSON interface, its guides and the page. Nothing is opened, nothing listens. */
export function createApp({ store, workers }: { store: ProjectStore; workers: Workers }): Hono {
  const app = new Hono()
  const dealing = withClaims(store, claimOf)
  app.use(everyAnswer)
  const kept = new AnswersKept()
  const api = createApi({ store: dealing, workers, kept })
  app.route('/', api)
  app.route(
    '/',
    createDocs(async (path) => api.request(path)),
  )
  app.route('/', createPage({ store: dealing, workers }))
  answerOtherMethods(app)
  const tellProgram = answerNotFound(app)
  app.notFound((c) => {
    if (!isPerson(c.req.header('accept'), c.req.path)) return tellProgram(c)
    const page = pageNotFound()
    return c.newResponse(page.body, page)
  })
  app.onError(answerFailure)
  app.fetch = keptFirst(app.fetch, kept)
  return app
}

/** Cells that were asked before are answered before anything else is looked at. */
function keptFirst(fetch: Hono['fetch'], kept: AnswersKept): Hono['fetch'] {
  return (request, env, context) => {
    const { incoming } = (env ?? {}) as { incoming?: IncomingMessage }
    const header = (name: string) =>
      (incoming ? incoming.headers[name] : request.headers.get(name)) as string | undefined
    return kept.atOnce(request.method, request.url, header) ?? fetch(request, env, context)
  }
}

/** Whether somebody with a browser went astray, rather than a program. */
function isPerson(accept: string | undefined, path: string): boolean {
  return accept !== undefined && /\btext\/html\b/.test(accept) && !path.startsWith('/v1/')
}
