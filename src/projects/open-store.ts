import { drizzle as onPostgres } from 'drizzle-orm/postgres-js'
import { migrate as migratePostgres } from 'drizzle-orm/postgres-js/migrator'
import { databaseStore } from './database-store.ts'
import { refuseNewer } from './migrations.ts'
import { openEmbedded } from './open-embedded.ts'
import { connect, disconnect, migrateAlone } from './postgres-server.ts'
import { shippedPath } from './shipped-files.ts'
import type { ProjectStore } from './store.ts'

/** Where projects are stored: on a PostgreSQL server if there is a URL, otherwise embedded in a folder. */
export interface StorePlace {
  readonly databaseUrl: string | null
  readonly dataDir: string
}

/**
 * Opens the store and brings its tables up to date. Throws a `StartFault` if the operator can correct the cause. `onProgress`
 * gets a line for everything that takes time.
 */
export async function openStore(
  place: StorePlace,
  { onProgress }: { onProgress: (line: string) => void },
): Promise<ProjectStore> {
  return place.databaseUrl === null ? openEmbedded(place.dataDir, onProgress) : openOnServer(place.databaseUrl)
}

async function openOnServer(url: string): Promise<ProjectStore> {
  await migrateAlone(url, async (client) => {
    const db = onPostgres({ client })
    await migratePostgres(db, { migrationsFolder: shippedPath('migrations') })
    await refuseNewer(db)
  })
  const clients = { reading: connect(url), writing: connect(url) }
  const db = onPostgres({ client: clients.reading })
  const writing = onPostgres({ client: clients.writing })
  // With connections of their own, so that nothing that is read waits for those who wait to write.
  db.transaction = writing.transaction.bind(writing)
  return databaseStore(db, async () => {
    await Promise.all(Object.values(clients).map(disconnect))
  })
}
