import { createApi } from '../../src/api/api.ts'
import { answerFailure } from '../../src/api/failures.ts'
import { createApp } from '../../src/app.ts'
import { papers } from '../../src/print/papers.ts'
import { serve } from '../../src/serving.ts'
import { openWorkers } from '../../src/workers/open-workers.ts'
import { echoes, noStore } from './echoes.ts'

/** A process of its own for the benchmark: the bare framework on one port, the interface on another. */
const { workers, threads } = openWorkers(new URL('../../src/thread.ts', import.meta.url), { threads: 1 })
const whole = createApi({ store: noStore, workers, papers })
whole.onError(answerFailure)
const service = createApp({ store: noStore, workers, threads })
const [bare, api, all] = await Promise.all(
  [echoes(), whole, service].map((app) => serve(app, { host: '127.0.0.1', port: 0 })),
)
process.send?.({ bare: bare!.url, api: api!.url, service: all!.url })
process.on('disconnect', () => process.exit(0))
