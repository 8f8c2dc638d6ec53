import { randomUUID } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { PGlite } from '@electric-sql/pglite'
import postgres from 'postgres'
import { inject } from 'vitest'
import { openStore, type StorePlace } from '../../src/projects/open-store.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { copyTemplate } from './embedded-template.ts'

/** A new, private database. */
export interface TestDatabase {
  readonly place: StorePlace
  /** Statements past the store. The embedded database has one user: close the store before. */
  sql<T>(work: (query: (statement: string) => Promise<Record<string, unknown>[]>) => Promise<T>): Promise<T>
  dispose(): Promise<void>
}

export interface DatabaseKind {
  readonly name: string
  make(): Promise<TestDatabase>
}

/** The embedded database, with nothing in it, and every PostgreSQL server that was found. */
export function databaseKinds(): DatabaseKind[] {
  return [{ name: 'the embedded database', make: copyEmbedded }, ...serverKinds()]
}

/** The same where nothing has been opened yet. */
export function unopenedKinds(): DatabaseKind[] {
  return [{ name: 'the embedded database', make: makeEmbedded }, ...serverKinds()]
}

export function serverKinds(): DatabaseKind[] {
  return inject('postgresServers').map(({ name, url }) => ({ name, make: () => makeOnServer(url) }))
}

async function copyEmbedded(): Promise<TestDatabase> {
  const database = await makeEmbedded()
  await copyTemplate(inject('embeddedTemplate'), database.place.dataDir)
  return database
}

export async function makeEmbedded(): Promise<TestDatabase> {
  const dataDir = mkdtempSync(join(tmpdir(), 'longchord-embedded-'))
  return {
    place: { databaseUrl: null, dataDir },
    sql: async (work) => {
      const client = await PGlite.create({ dataDir: join(dataDir, 'database', 'cluster') })
      try {
        return await work(async (statement) => (await client.query<Record<string, unknown>>(statement)).rows)
      } finally {
        await client.close()
      }
    },
    dispose: async () => rmSync(dataDir, { recursive: true, force: true }),
  }
}

async function makeOnServer(adminUrl: string): Promise<TestDatabase> {
  const name = `longchord_${randomUUID().replaceAll('-', '')}`
  const databaseUrl = new URL(adminUrl)
  databaseUrl.pathname = `/${name}`
  const url = databaseUrl.href
  await connected(adminUrl, (query) => query(`create database ${name} template template0`))
  return {
    place: { databaseUrl: url, dataDir: 'unused' },
    sql: (work) => connected(url, work),
    dispose: () => connected(adminUrl, async (query) => void (await query(`drop database ${name} with (force)`))),
  }
}

async function connected<T>(
  url: string,
  work: (query: (statement: string) => Promise<Record<string, unknown>[]>) => Promise<T>,
): Promise<T> {
  const client = postgres(url, { max: 1, onnotice: () => {} })
  try {
    return await work(async (statement) => [...(await client.unsafe(statement))])
  } finally {
    await client.end()
  }
}

/** A store on a new embedded database, for tests that need some store. `close` removes it. */
export async function temporaryStore(): Promise<ProjectStore> {
  const database = await copyEmbedded()
  const store = await openStore(database.place, { onProgress: () => {} })
  return {
    ...store,
    close: async () => {
      await store.close()
      await database.dispose()
    },
  }
}
