import { Hono } from 'hono'
import { createApi } from './api/api.ts'
import { everyAnswer } from './api/every-answer.ts'
import { answerFailure, answerNotFound, answerOtherMethods } from './api/failures.ts'
import type { ProjectStore } from './projects/store.ts'

/** The whole service as one request handler: the JSON interface and the page. Nothing is opened, nothing listens. */
export function createApp({ store }: { store: ProjectStore }): Hono {
  const app = new Hono()
  app.use(everyAnswer)
  app.route('/', createApi({ store }))
  answerOtherMethods(app)
  app.notFound(answerNotFound(app))
  app.onError(answerFailure)
  return app
}
