import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { brotliCompressSync, constants } from 'node:zlib'
import { PGlite } from '@electric-sql/pglite'

/**
 * Makes `empty-database.tar.br`, the folder that every new embedded database starts as, and `empty-database.json`,
 * which says what made it. Run after a change of PGlite: `npm run embedded:template`. It holds what PGlite's own
 * first start writes and no table of ours; the migrations run on it as on any other database.
 */
const scratch = mkdtempSync(join(tmpdir(), 'longchord-empty-database-'))
const cluster = join(scratch, 'cluster')

const database = await PGlite.create({ dataDir: cluster })
const answer = await database.query<{ version: string }>('select version()')
const made = /^PostgreSQL (?<postgres>\S+) \(PGlite (?<pglite>\S+)\)/.exec(answer.rows[0]!.version)!.groups!
await database.close()

const archive = execFileSync('tar', ['--format=ustar', '-cf', '-', '-C', cluster, '.'], { maxBuffer: 2 ** 28 })
const packed = brotliCompressSync(archive, {
  params: {
    [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY,
    [constants.BROTLI_PARAM_LGWIN]: constants.BROTLI_MAX_WINDOW_BITS,
    [constants.BROTLI_PARAM_SIZE_HINT]: archive.length,
  },
})
writeFileSync(new URL('empty-database.tar.br', import.meta.url), packed)
writeFileSync(
  new URL('empty-database.json', import.meta.url),
  `${JSON.stringify({ postgres: made.postgres, pglite: made.pglite }, null, 2)}\n`,
)
rmSync(scratch, { recursive: true })
