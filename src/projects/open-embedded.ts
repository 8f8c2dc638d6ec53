import { existsSync } from 'node:fs'
import { dirname } from 'node:path'
import type { PGlite } from '@electric-sql/pglite'
import { drizzle, type PgliteDatabase } from 'drizzle-orm/pglite'
import { migrate } from 'drizzle-orm/pglite/migrator'
import { databaseStore } from './database-store.ts'
import { DiskSpace, refuseFullDisk } from './disk-space.ts'
import { type DataFolder, isOfThisBoot, makeDatabase, openDatabase, takeDataFolder } from './embedded-database.ts'
import { Journal } from './journal/journal.ts'
import { DamagedJournal, readJournal } from './journal/journal-file.ts'
import { applyChanges, positionOf } from './journal/row-changes.ts'
import { knownMigrations, latestMigration, refuseLater, refuseNewer } from './migrations.ts'
import { shippedPath } from './shipped-files.ts'
import { StartFault } from './start-fault.ts'
import type { ProjectStore } from './store.ts'
import { codeOf } from './store-error.ts'

type Progress = (line: string) => void

/**
 * Opens the embedded database in a folder, or makes it: a new one, or, where the one that is there may have lost something,
 * again from its journal.
 */
export async function openEmbedded(dataDir: string, onProgress: Progress): Promise<ProjectStore> {
  const folder = takeDataFolder(dataDir)
  let client: PGlite | null = null
  try {
    client = await openSound(folder, dataDir, onProgress)
    const db = drizzle({ client })
    await bringUpToDate(db, dataDir)
    const journal = await Journal.begin(client, folder.journal, latestMigration())
    const disk = new DiskSpace(dirname(folder.journal))
    refuseFullDisk(db, disk)
    const opened = client
    const close = async () => {
      try {
        await journal.close()
      } finally {
        await opened.close().finally(folder.release)
      }
    }
    return databaseStore(db, close, {
      settled: () => journal.settle(),
      refuse: () => disk.refuse(),
      copyRows: (write) => journal.copyTo(write),
    })
  } catch (error) {
    await client?.close().catch(() => {})
    folder.release()
    throw error instanceof DamagedJournal ? damaged(folder.journal, error) : error
  }
}

async function openSound(folder: DataFolder, dataDir: string, onProgress: Progress): Promise<PGlite> {
  const { database, journal } = folder
  const startedMs = performance.now()
  const isThere = existsSync(database)
  if (!existsSync(journal)) {
    if (isThere) return openDatabase(database, dataDir)
    onProgress(`Preparing the embedded database in ${dataDir}, the first time only ...`)
    await makeDatabase(database)
    const made = await openDatabase(database, dataDir)
    onProgress(`The embedded database is ready after ${seconds(startedMs)} s.`)
    return made
  }
  const client = isThere && isOfThisBoot(database) ? await openIfWhole(folder, dataDir) : null
  if (client !== null) return client
  onProgress(`Making the embedded database in ${dataDir} again from its journal ...`)
  const restored = await restore(folder, dataDir)
  onProgress(`The embedded database is ready after ${seconds(startedMs)} s.`)
  return restored
}

/** The database if it has everything that its journal has; otherwise null. */
async function openIfWhole({ database, journal }: DataFolder, dataDir: string): Promise<PGlite | null> {
  let client: PGlite
  try {
    client = await openDatabase(database, dataDir)
  } catch {
    // Damaged, or made by another major version of PostgreSQL.
    return null
  }
  try {
    const [position, written] = await Promise.all([positionOf(client), lastOf(journal)])
    if (position !== null && position.id === written.id && position.seq >= written.seq) return client
  } catch (error) {
    await client.close()
    throw error
  }
  await client.close()
  return null
}

async function lastOf(journal: string): Promise<{ readonly id: string; readonly seq: number }> {
  const { head, changes } = await readJournal(journal)
  let seq = 0
  for await (const change of changes) seq = change.seq
  return { id: head.id, seq }
}

/** A database as the journal describes it, at the migrations of the journal. */
async function restore({ database, journal }: DataFolder, dataDir: string): Promise<PGlite> {
  const { head, changes } = await readJournal(journal)
  refuseLater(head.migration)
  await makeDatabase(database)
  const client = await openDatabase(database, dataDir)
  const { dialect, session } = drizzle({ client }) as unknown as Migrating
  const seen = knownMigrations().filter(({ folderMillis }) => folderMillis <= head.migration)
  await dialect.migrate(seen, session, { migrationsFolder: shippedPath('migrations') })
  await applyChanges(client, changes)
  return client
}

/** What drizzle's own `migrate` calls, which cannot be given a part of the migrations. */
interface Migrating {
  readonly dialect: { migrate(migrations: unknown, session: unknown, config: unknown): Promise<void> }
  readonly session: unknown
}

function damaged(journal: string, { message }: DamagedJournal): StartFault {
  return new StartFault(
    `The journal ${journal} is damaged: ${message} Restore the folder from a copy, or move the journal away to start with the database as it is.`,
  )
}

async function bringUpToDate(db: PgliteDatabase, dataDir: string): Promise<void> {
  try {
    await migrate(db, { migrationsFolder: shippedPath('migrations') })
    await refuseNewer(db)
  } catch (error) {
    if (error instanceof StartFault) throw error
    throw new StartFault(
      `The tables of the embedded database in ${dataDir} could not be brought up to date (${codeOf(error) ?? 'no code'}). ` +
        'Nothing was changed. Start the version of Longchord that used this folder last, or set DATA_DIR to another folder.',
    )
  }
}

function seconds(startedMs: number): string {
  return ((performance.now() - startedMs) / 1000).toFixed(1)
}
