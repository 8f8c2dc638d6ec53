import { sql } from 'drizzle-orm'
import { readMigrationFiles } from 'drizzle-orm/migrator'
import { drizzle as onPglite } from 'drizzle-orm/pglite'
import { migrate as migratePglite } from 'drizzle-orm/pglite/migrator'
import { drizzle as onPostgres } from 'drizzle-orm/postgres-js'
import { migrate as migratePostgres } from 'drizzle-orm/postgres-js/migrator'
import { databaseStore } from './database-store.ts'
import { openEmbeddedDatabase } from './embedded-database.ts'
import { connect, disconnect, migrateAlone } from './postgres-server.ts'
import type { Database } from './project-rows.ts'
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
    await refuseNewer(db)
  } catch (error) {
    await database.close()
    if (error instanceof StartFault) throw error
    throw new StartFault(
      `The tables of the embedded database in ${dataDir} could not be brought up to date (${codeOf(error) ?? 'no code'}). ` +
        'Nothing was changed. Start the version of Longchord that used this folder last, or set DATA_DIR to another folder.',
    )
  }
  return databaseStore(db, database.close)
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

/** A newer program may have changed what the tables mean; this one would misread or damage them. */
async function refuseNewer(db: Database): Promise<void> {
  const [applied] = await db.select({ latest: sql<string>`max(created_at)` }).from(sql`drizzle.__drizzle_migrations`)
  const known = readMigrationFiles({ migrationsFolder: shippedPath('migrations') }).at(-1)!.folderMillis
  if (Number(applied!.latest) > known)
    throw new StartFault(
      'A newer version of Longchord has used this database. Nothing was changed. Start that version or a newer one.',
    )
}
