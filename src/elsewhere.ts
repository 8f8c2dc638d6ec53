import type { Context, MiddlewareHandler } from 'hono'
import type { CellCache } from './api/cells/cell-cache.ts'
import { answerFailure } from './api/failures.ts'
import { answerPageFailure } from './page/pages/page-failures.ts'
import { carryOut } from './projects/remote-store.ts'
import type { ProjectStore } from './projects/store.ts'
import { Elsewhere } from './workers/elsewhere.ts'
import { refuseBytes, refuseLarge } from './workers/here.ts'
import type { PlainAnswer, PlainRequest, Threads } from './workers/open-workers.ts'

/** For what reads a body: throws `Elsewhere` for one that takes long to read. */
export const refusingLarge: MiddlewareHandler = async (c, next) => {
  c.set('refuseBytes', refuseBytes)
  c.set('refuseLarge', refuseLarge)
  await next()
}

interface InThread {
  readonly threads: Threads
  readonly store: ProjectStore
  readonly cellCache: CellCache
}

/** Answers what an endpoint threw: requests that belong elsewhere are answered by a worker thread. */
export function failuresAnswered(inThread: InThread | null): (error: Error, c: Context) => Promise<Response> {
  return async (error, c) => {
    if (!(error instanceof Elsewhere) || inThread === null) return failure(error, c)
    const { threads, store, cellCache } = inThread
    try {
      const call = (asked: unknown) => carryOut(store, asked as never)
      const answer = responseOf(await threads.answer(await plain(c), call, c.req.raw))
      await cellCache.keep(c.req.url, answer)
      c.error = undefined
      return answer
    } catch (failed) {
      c.error = failed as Error
      return failure(failed, c)
    }
  }
}

function failure(error: unknown, c: Context): Response {
  return c.req.path.startsWith('/v1/') ? answerFailure(error, c) : answerPageFailure(error, c)
}

async function plain(c: Context): Promise<PlainRequest> {
  const { method, url, headers } = c.req.raw
  const hasBody = method !== 'GET' && method !== 'HEAD'
  return {
    method,
    url,
    headers: [...[...headers].filter(([name]) => name !== 'x-request-id'), ['x-request-id', c.get('requestId')]],
    body: hasBody ? new Uint8Array(await c.req.arrayBuffer()) : null,
  }
}

function responseOf({ status, headers, body }: PlainAnswer): Response {
  return new Response(body, { status, headers: headers as [string, string][] })
}
