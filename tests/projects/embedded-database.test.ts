import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { PGlite } from '@electric-sql/pglite'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { openDatabase } from '../../src/projects/embedded-database.ts'
import { openStore } from '../../src/projects/open-store.ts'
import { shippedPath } from '../../src/projects/shipped-files.ts'
import { unpack } from '../../src/projects/unpack.ts'

const opener = new URL('open-and-close.ts', import.meta.url).pathname

let dataDir: string
let said: string[]
const open = (folder = dataDir) =>
  openStore({ databaseUrl: null, dataDir: folder }, { onProgress: (line) => said.push(line) })

beforeEach(() => {
  dataDir = join(mkdtempSync(join(tmpdir(), 'longchord-data-')), 'new', 'folder')
  said = []
})
afterEach(() => rmSync(join(dataDir, '../..'), { recursive: true, force: true }))

describe("the embedded database's folder", () => {
  test('is made with all its parents, tells what it waits for, and is closed to other users', async () => {
    const store = await open()
    expect(said).toHaveLength(2)
    expect(said[0]).toMatch(/^Preparing the embedded database in .*new\/folder, the first time only/)
    expect(said[1]).toMatch(/^The embedded database is ready after \d+\.\d s\.$/)
    expect(readdirSync(dataDir).toSorted()).toEqual(['database', 'journal.jsonl', 'longchord.lock'])
    expect(statSync(dataDir).mode & 0o077).toBe(0)
    expect(statSync(join(dataDir, 'database')).mode & 0o077).toBe(0)
    await store.close()
    expect(readdirSync(dataDir).toSorted()).toEqual(['database', 'journal.jsonl'])
    said = []
    await (await open()).close()
    expect(said).toEqual([])
  })

  test('is made again over what a killed first start left, and that alone is thrown away', async () => {
    for (const left of ['database.unfinished', 'database.unfinished-a1B2c3']) {
      mkdirSync(join(dataDir, left, 'cluster', 'base'), { recursive: true })
      writeFileSync(join(dataDir, left, 'cluster', 'PG_VERSION'), '18\n')
    }
    writeFileSync(join(dataDir, 'notes.txt'), 'mine')
    const store = await open()
    await store.ping()
    await store.close()
    expect(readdirSync(dataDir).toSorted()).toEqual(['database', 'journal.jsonl', 'notes.txt'])
  })

  test('has small buffers, because all of them count as memory from the start', async () => {
    await (await open()).close()
    const client = await openDatabase(join(dataDir, 'database'), dataDir)
    expect((await client.query('show shared_buffers')).rows).toEqual([{ shared_buffers: '16MB' }])
    await client.close()
  })

  test('opens after a first start was killed at any moment', async () => {
    for (let round = 0; round < 3; round += 1) {
      const folder = join(dataDir, String(round))
      const child = spawn(process.execPath, ['--import', 'tsx', opener], {
        env: { ...process.env, DATA_DIR: folder },
        stdio: 'ignore',
      })
      const ended = once(child, 'exit')
      for (const deadline = performance.now() + 10_000; !existsSync(folder) && performance.now() < deadline; )
        await wait(5)
      // From the first files until after the first migration.
      await wait(round * 350)
      child.kill('SIGKILL')
      await ended
      const store = await open(folder)
      const { id } = await store.create({ name: 'after', notes: '', plan: {} })
      expect(await store.get(id)).toMatchObject({ name: 'after' })
      await store.close()
    }
  })

  test('of another major version of PostgreSQL is refused unchanged without a journal, with what to do', async () => {
    await (await open()).close()
    rmSync(join(dataDir, 'journal.jsonl'))
    const version = join(dataDir, 'database', 'cluster', 'PG_VERSION')
    writeFileSync(version, '17\n')
    writeFileSync(join(dataDir, 'database', 'made-with.json'), '{"postgres":"17.5","pglite":"0.3.1"}')
    await expect(open()).rejects.toThrow(/made by PostgreSQL 17 \(PGlite 0\.3\.1\).*embeds PostgreSQL 18.*Start the/s)
    expect(readFileSync(version, 'utf8')).toBe('17\n')
    expect(readdirSync(dataDir)).toEqual(['database'])
  })

  test('that lacks its version is refused, not made again', async () => {
    const cluster = join(dataDir, 'database', 'cluster')
    mkdirSync(cluster, { recursive: true })
    writeFileSync(join(cluster, 'somebody'), 's')
    await expect(open()).rejects.toThrow(/incomplete.*Restore/s)
    expect(readdirSync(cluster)).toEqual(['somebody'])
  })

  test('with damaged files is refused in one message without a journal', async () => {
    await (await open()).close()
    rmSync(join(dataDir, 'journal.jsonl'))
    rmSync(join(dataDir, 'database', 'cluster', 'global'), { recursive: true })
    await expect(open()).rejects.toThrow(/cannot be opened.*Restore/s)
    expect(readdirSync(dataDir)).toEqual(['database'])
  })

  test('must be a folder', async () => {
    writeFileSync(join(dataDir, '../../file'), '')
    const file = join(dataDir, '../../file')
    await expect(open(file)).rejects.toThrow(/Cannot use the folder .*file .*EEXIST.*DATA_DIR/)
    await expect(open(join(file, 'below'))).rejects.toThrow(/Cannot use the folder .*below .*ENOTDIR.*DATA_DIR/)
  })
})

describe('the database that new folders start as', () => {
  let client: PGlite
  let folder: string
  const ask = async (statement: string) => (await client.query<Record<string, string>>(statement)).rows

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'longchord-empty-'))
    await unpack(shippedPath('empty-database.tar.br'), join(folder, 'cluster'))
    client = await PGlite.create({ dataDir: join(folder, 'cluster') })
  })
  afterAll(async () => {
    await client.close()
    rmSync(folder, { recursive: true, force: true })
  })

  test('was made by the PGlite that is installed: else run npm run embedded:template', async () => {
    const { pglite, postgres } = JSON.parse(readFileSync(shippedPath('empty-database.json'), 'utf8'))
    const [answer] = await ask('select version()')
    expect(answer!.version).toContain(`PostgreSQL ${postgres} (PGlite ${pglite})`)
    const installed = new URL('../../node_modules/@electric-sql/pglite/package.json', import.meta.url)
    expect(pglite).toBe(JSON.parse(readFileSync(installed, 'utf8')).version)
  })

  test('holds UTF-8 text, no table, no function and no user but what PostgreSQL brings', async () => {
    expect(await ask('show server_encoding')).toEqual([{ server_encoding: 'UTF8' }])
    // 16384 is the first number that PostgreSQL gives to anything made by a user (access/transam.h).
    for (const catalogue of [
      'pg_class',
      'pg_proc',
      'pg_type',
      'pg_namespace',
      'pg_authid',
      'pg_trigger',
      'pg_extension',
    ])
      expect(await ask(`select oid from ${catalogue} where oid >= 16384`), catalogue).toEqual([])
    expect(await ask("select nspname from pg_namespace where nspname !~ '^pg_' order by 1")).toEqual([
      { nspname: 'information_schema' },
      { nspname: 'public' },
    ])
  })

  test('is refused when its archive is damaged or cut short', async () => {
    const { brotliCompressSync, brotliDecompressSync, constants } = await import('node:zlib')
    const whole = brotliDecompressSync(readFileSync(shippedPath('empty-database.tar.br')))
    const quick = { params: { [constants.BROTLI_PARAM_QUALITY]: 1 } }
    const put = (name: string, archive: Buffer) => {
      writeFileSync(join(folder, name), brotliCompressSync(archive, quick))
      return unpack(join(folder, name), join(folder, `${name}-out`))
    }
    const flipped = Buffer.from(whole)
    flipped[3]! ^= 1
    await expect(put('flipped', flipped)).rejects.toThrow(/checksum/)
    await expect(put('short', whole.subarray(0, 512))).rejects.toThrow(/truncated/)
    await expect(put('empty', Buffer.alloc(0))).rejects.toThrow(/truncated/)
  })
})
