import { openStore } from '../../src/projects/open-store.ts'

/** A process that opens the store of its environment and closes it. */
const place = { databaseUrl: process.env.DATABASE_URL ?? null, dataDir: process.env.DATA_DIR ?? 'unused' }
const store = await openStore(place, { onProgress: () => {} })
await store.ping()
await store.close()
