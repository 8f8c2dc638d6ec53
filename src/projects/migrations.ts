import { sql } from 'drizzle-orm'
import { type MigrationMeta, readMigrationFiles } from 'drizzle-orm/migrator'
import type { Database } from './project-rows.ts'
import { shippedPath } from './shipped-files.ts'
import { StartFault } from './start-fault.ts'

/** The migrations of this program, the oldest first. */
export function knownMigrations(): MigrationMeta[] {
  return readMigrationFiles({ migrationsFolder: shippedPath('migrations') })
}

/** When the latest migration of this program was written. */
export function latestMigration(): number {
  return knownMigrations().at(-1)!.folderMillis
}

const NEWER =
  'A newer version of Longchord has used this database. Nothing was changed. Start that version or a newer one.'

/** A newer program may have changed what the tables mean; this one would misread or damage them. */
export async function refuseNewer(db: Database): Promise<void> {
  const [applied] = await db.select({ latest: sql<string>`max(created_at)` }).from(sql`drizzle.__drizzle_migrations`)
  refuseLater(Number(applied!.latest))
}

/** @param migration the latest one that some rows have seen */
export function refuseLater(migration: number): void {
  if (migration > latestMigration()) throw new StartFault(NEWER)
}
