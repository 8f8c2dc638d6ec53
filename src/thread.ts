/** The functions that a worker thread of the service can run, by name. */
import { createApp } from './app.ts'
import { openLog } from './log/log.ts'
import { neededStock as needed } from './projects/needed-stock.ts'
import { remoteStore } from './projects/remote-store.ts'
import type { StoredPlan } from './projects/store.ts'
import { callsOver, handedOver } from './workers/calls.ts'
import { inThisThread } from './workers/in-this-thread.ts'
import type { ThreadJobs } from './workers/open-workers.ts'

export { foreseeBuilding } from './shed/foresee-building.ts'

/** Of an answer; it is kept in memory until a client has read it. */
const MOST_BYTES = 32 * 1024 * 1024

/** The calls of the request that is being answered: a thread answers one at a time. */
let call: (asked: unknown) => Promise<unknown>

/** The whole service, with the store of the thread that asks. Who may use it was decided there; each request is logged there. */
const app = createApp({
  store: remoteStore((asked) => call(asked) as never),
  workers: inThisThread,
  access: null,
  log: openLog('error', false).log,
})

export const answer: ThreadJobs['answer'] = async ({ request: { method, url, headers, body }, port }) => {
  call = callsOver(port)
  try {
    const request = new Request(url, { method, headers: headers as [string, string][], ...(body && { body }) })
    const response = await app.fetch(request)
    const answered = response.body === null ? null : new Uint8Array(await response.arrayBuffer())
    if (answered !== null && answered.byteLength > MOST_BYTES) return 'too-large'
    return handedOver({ status: response.status, headers: [...response.headers], body: answered })
  } finally {
    port.close()
  }
}

export const neededStock: ThreadJobs['neededStock'] = ({ plan, free }) => needed(plan as StoredPlan, free)
