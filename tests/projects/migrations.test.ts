import { execFile } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { generateDrizzleJson, generateMigration } from 'drizzle-kit/api'
import { describe, expect, test } from 'vitest'
import { openStore } from '../../src/projects/open-store.ts'
import { shippedPath } from '../../src/projects/shipped-files.ts'
import * as tables from '../../src/projects/tables.ts'
import { serverKinds, unopenedKinds } from '../servers/databases.ts'

const run = promisify(execFile)
const opener = new URL('open-and-close.ts', import.meta.url).pathname
const folder = shippedPath('migrations')
const read = (path: string) => JSON.parse(readFileSync(join(folder, path), 'utf8'))
const entries = (): { tag: string; idx: number }[] => read('meta/_journal.json').entries
const snapshotOf = (idx: number) => read(`meta/${String(idx).padStart(4, '0')}_snapshot.json`)

describe('the migrations', () => {
  test('are those of the journal, each with a name that somebody chose', () => {
    const tags = entries().map(({ tag }) => tag)
    expect(tags.length).toBeGreaterThan(0)
    expect(readdirSync(folder).toSorted()).toEqual([...tags.map((tag) => `${tag}.sql`), 'meta'].toSorted())
    // A machine's choice is an adjective and a hero: 0003_brave_falcon.
    for (const tag of tags) expect(tag).toMatch(/^\d{4}_(projects|[a-z]+(_[a-z]+){2,})$/)
  })

  test('lead to the tables as they are written: else run npm run migrations:generate', async () => {
    const last = snapshotOf(entries().at(-1)!.idx)
    const now = generateDrizzleJson({ ...tables }, last.id)
    expect(Object.keys(now.tables).toSorted()).toEqual(
      [
        'creation_keys',
        'project_builds',
        'project_finished_cards',
        'project_links',
        'project_purchases',
        'project_revisions',
        'projects',
        'shed',
        'shed_reservations',
      ].map((name) => `public.${name}`),
    )
    expect(await generateMigration(last, now)).toEqual([])
    // The comparison does see a difference.
    const { 'public.projects': _, ...fewer } = now.tables
    expect(await generateMigration({ ...now, tables: fewer }, now)).not.toEqual([])
  })

  test.each(unopenedKinds())('of a newer program on $name are left to it', async (kind) => {
    const database = await kind.make()
    const open = () => openStore(database.place, { onProgress: () => {} })
    try {
      await (await open()).close()
      await database.sql((query) =>
        query("insert into drizzle.__drizzle_migrations (hash, created_at) values ('later', 9999999999999)"),
      )
      await expect(open()).rejects.toMatchObject({
        name: 'StartFault',
        message: expect.stringMatching(/^A newer version of Longchord has used this database/),
      })
    } finally {
      await database.dispose()
    }
  })

  test.each(unopenedKinds())('run once on $name, however often it is opened', async (kind) => {
    const database = await kind.make()
    try {
      for (let time = 0; time < 3; time += 1) await (await openStore(database.place, { onProgress: () => {} })).close()
      const ran = await database.sql((query) => query('select id from drizzle.__drizzle_migrations'))
      expect(ran).toHaveLength(entries().length)
    } finally {
      await database.dispose()
    }
  })

  test.for(serverKinds())('run once on $name when processes start together', async (kind) => {
    const database = await kind.make()
    try {
      const env = { ...process.env, DATABASE_URL: database.place.databaseUrl! }
      const processes = Array.from({ length: 2 }, () => run(process.execPath, ['--import', 'tsx', opener], { env }))
      const here = Array.from({ length: 4 }, async () => {
        await (await openStore(database.place, { onProgress: () => {} })).close()
      })
      await Promise.all([...processes, ...here])
      const ran = await database.sql((query) => query('select id from drizzle.__drizzle_migrations'))
      expect(ran).toHaveLength(entries().length)
    } finally {
      await database.dispose()
    }
  })
})
