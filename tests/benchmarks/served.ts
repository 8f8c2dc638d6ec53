import { createApi } from '../../src/api/api.ts'
import { onTheSpot } from '../../src/search/on-the-spot.ts'
import { serve } from '../../src/serving.ts'
import { echoes, noStore } from './echoes.ts'

/** A process of its own for the benchmark: the bare framework on one port, the interface on another. */
const [bare, api] = await Promise.all(
  [echoes(), createApi({ store: noStore, search: onTheSpot })].map((app) => serve(app, { host: '127.0.0.1', port: 0 })),
)
process.send?.({ bare: bare!.url, api: api!.url })
process.on('disconnect', () => process.exit(0))
