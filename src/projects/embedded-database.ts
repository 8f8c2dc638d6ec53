import { copyFileSync, mkdirSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { PGlite } from '@electric-sql/pglite'
import { lockFolder } from './folder-lock.ts'
import { shippedPath } from './shipped-files.ts'
import { StartFault } from './start-fault.ts'
import { unpack } from './unpack.ts'

export interface EmbeddedDatabase {
  readonly client: PGlite
  /** Closes the database, then releases the folder for the next process. */
  close(): Promise<void>
}

/**
 * Opens the embedded database in a folder, which is created if it is missing:
 *
 *     longchord.lock            the process that uses the folder
 *     database/cluster/         PGlite's own files
 *     database/made-with.json   the PostgreSQL and the PGlite that made them
 *
 * `database` is made under another name and renamed when it is complete, so a process that is killed during its first start
 * leaves nothing that looks like a database.
 */
export async function openEmbeddedDatabase(
  dataDir: string,
  onProgress: (line: string) => void,
): Promise<EmbeddedDatabase> {
  const folder = resolve(dataDir)
  const release = takeFolder(folder, dataDir)
  try {
    const database = join(folder, 'database')
    const isNew = !exists(database)
    const startedMs = performance.now()
    if (isNew) {
      onProgress(`Preparing the embedded database in ${dataDir}, the first time only ...`)
      await makeDatabase(folder, database)
    }
    refuseOtherMajor(database, dataDir)
    const client = await openCluster(join(database, 'cluster'), dataDir)
    if (isNew) onProgress(`The embedded database is ready after ${seconds(performance.now() - startedMs)} s.`)
    return {
      client,
      close: async () => {
        try {
          await client.close()
        } finally {
          release()
        }
      },
    }
  } catch (error) {
    release()
    throw error
  }
}

function takeFolder(folder: string, dataDir: string): () => void {
  try {
    // PGlite makes files that every user may write; this keeps other users out of their folder.
    mkdirSync(folder, { recursive: true, mode: 0o700 })
    return lockFolder(join(folder, 'longchord.lock'), dataDir)
  } catch (error) {
    if (error instanceof StartFault) throw error
    const { code } = error as NodeJS.ErrnoException
    throw new StartFault(
      `Cannot use the folder ${dataDir} for the embedded database (${code}). ` +
        'Set DATA_DIR to a folder that this user may write to.',
    )
  }
}

async function makeDatabase(folder: string, database: string): Promise<void> {
  const unfinished = join(folder, 'database.unfinished')
  rmSync(unfinished, { recursive: true, force: true })
  mkdirSync(unfinished, { mode: 0o700 })
  await unpack(shippedPath('empty-database.tar.br'), join(unfinished, 'cluster'))
  copyFileSync(shippedPath('empty-database.json'), join(unfinished, 'made-with.json'))
  renameSync(unfinished, database)
}

async function openCluster(cluster: string, dataDir: string): Promise<PGlite> {
  try {
    return await PGlite.create({ dataDir: cluster })
  } catch {
    throw new StartFault(
      `The embedded database in ${dataDir} cannot be opened: its files are damaged or the disk is full. ` +
        'Restore the folder from a copy, or set DATA_DIR to a new one.',
    )
  }
}

/** A folder of one major version of PostgreSQL cannot be read by another. */
function refuseOtherMajor(database: string, dataDir: string): void {
  const ours = majorOf(readFileSync(shippedPath('empty-database.json'), 'utf8'))
  let theirs: string
  let madeWith: string
  try {
    theirs = readFileSync(join(database, 'cluster', 'PG_VERSION'), 'utf8').trim()
    madeWith = readFileSync(join(database, 'made-with.json'), 'utf8')
  } catch {
    throw new StartFault(
      `The folder ${dataDir} has an incomplete database: PG_VERSION or made-with.json is missing. ` +
        'Restore it from a copy, or set DATA_DIR to a new folder.',
    )
  }
  if (theirs === ours) return
  const { pglite } = JSON.parse(madeWith) as { pglite: string }
  throw new StartFault(
    `The folder ${dataDir} was made by PostgreSQL ${theirs} (PGlite ${pglite}); this version of Longchord embeds PostgreSQL ${ours}, ` +
      'which cannot read it. Nothing was changed. Start the version that made it, read the projects from its interface and ' +
      'send them to this version with a new folder in DATA_DIR.',
  )
}

function majorOf(madeWith: string): string {
  const { postgres } = JSON.parse(madeWith) as { postgres: string }
  return postgres.split('.')[0]!
}

function exists(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false }) !== undefined
}

function seconds(elapsedMs: number): string {
  return (elapsedMs / 1000).toFixed(1)
}
