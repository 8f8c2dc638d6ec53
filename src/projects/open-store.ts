import { drizzle as onPglite } from 'drizzle-orm/pglite'
import { migrate as migratePglite } from 'drizzle-orm/pglite/migrator'
import { drizzle as onPostgres } from 'drizzle-orm/postgres-js'
import { migrate as migratePostgres } from 'drizzle-orm/postgres-js/migrator'
import { databaseStore } from './database-store.ts'
import { openEmbeddedDatabase } from './embedded-database.ts'
import { connect, disconnect, migrateAlone } from './postgres-server.ts'
import { shippedPath } from './shipped-files.ts'
import { StartFault } from './start-fault.ts'
import type { ProjectStore } from './store.ts'
import { codeOf } from './store-error.ts'

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

async function openEmbedded(dataDir: string, onProgress: (line: string) => void): Promise<ProjectStore> {
  const database = await openEmbeddedDatabase(dataDir, onProgress)
  const db = onPglite({ client: database.client })
  try {
    await migratePglite(db, { migrationsFolder: shippedPath('migrations') })
  } catch (error) {
    await database.close()
    throw new StartFault(
      `The tables of the embedded database in ${dataDir} could not be brought up to date (${codeOf(error) ?? 'no code'}). ` +
        'Nothing was changed. Start the version of Longchord that used this folder last, or set DATA_DIR to another folder.',
    )
  }
  return databaseStore(db, database.close)
}

async function openOnServer(url: string): Promise<ProjectStore> {
  await migrateAlone(url, (client) =>
    migratePostgres(onPostgres({ client }), { migrationsFolder: shippedPath('migrations') }),
  )
  const client = connect(url)
  return databaseStore(onPostgres({ client }), () => disconnect(client))
}
