import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { PGlite } from '@electric-sql/pglite'
import { lockFolder } from './folder-lock.ts'
import { bootId } from './journal/boot.ts'
import { shippedPath } from './shipped-files.ts'
import { StartFault } from './start-fault.ts'
import { unpack } from './unpack.ts'

/*
 * The folder of the embedded database:
 *
 *     longchord.lock            the process that uses the folder
 *     database/cluster/         PGlite's own files
 *     database/made-with.json   the PostgreSQL and the PGlite that made them
 *     database/boot             during which boot of the machine they were opened last
 *     journal.jsonl             all rows, and all changes since, on the disk before they are acknowledged
 *
 * `database` is made under another name and renamed when it is complete, so a process that is killed during its first start
 * leaves nothing that looks like a database.
 */
export interface DataFolder {
  readonly database: string
  readonly journal: string
  release(): void
}

/** Takes the folder for this process; creates it if it is missing. */
export function takeDataFolder(dataDir: string): DataFolder {
  const folder = resolve(dataDir)
  try {
    // PGlite makes files that every user may write; this keeps other users out of their folder.
    mkdirSync(folder, { recursive: true, mode: 0o700 })
    const release = lockFolder(join(folder, 'longchord.lock'), dataDir)
    return { database: join(folder, 'database'), journal: join(folder, 'journal.jsonl'), release }
  } catch (error) {
    if (error instanceof StartFault) throw error
    const { code } = error as NodeJS.ErrnoException
    throw new StartFault(
      `Cannot use the folder ${dataDir} for the embedded database (${code}). ` +
        'Set DATA_DIR to a folder that this user may write to.',
    )
  }
}

/** An empty database at `database`, in the place of anything there, in one step. */
export async function makeDatabase(database: string): Promise<void> {
  removeUnfinished(database)
  const unfinished = mkdtempSync(`${database}${UNFINISHED}-`)
  await unpack(shippedPath('empty-database.tar.br'), join(unfinished, 'cluster'))
  copyFileSync(shippedPath('empty-database.json'), join(unfinished, 'made-with.json'))
  rmSync(database, { recursive: true, force: true })
  renameSync(unfinished, database)
  removeUnfinished(database)
}

const UNFINISHED = '.unfinished'

/** Removes what starts left that were killed, or as much of it as their unpacking, which ends with them, lets go of. */
function removeUnfinished(database: string): void {
  const folder = dirname(database)
  for (const name of readdirSync(folder)) {
    if (!name.startsWith(basename(database) + UNFINISHED)) continue
    try {
      rmSync(join(folder, name), { recursive: true, force: true })
    } catch {
      // It is in nobody's way, and removed with the next database that is made.
    }
  }
}

/**
 * PostgreSQL's usual buffers of 128 MB are all written to at the start, so they count as memory in use; the projects of a
 * garden fit into these.
 */
const START_PARAMS = [...PGlite.defaultStartParams, '-c', 'shared_buffers=16MB']

/** Opens a database that is there. Throws a `StartFault` if it is another major version's or cannot be opened. */
export async function openDatabase(database: string, dataDir: string): Promise<PGlite> {
  refuseOtherMajor(database, dataDir)
  writeFileSync(join(database, 'boot'), bootId())
  try {
    return await PGlite.create({ dataDir: join(database, 'cluster'), startParams: START_PARAMS })
  } catch {
    throw new StartFault(
      `The embedded database in ${dataDir} cannot be opened: its files are damaged or the disk is full. ` +
        'Restore the folder from a copy, or set DATA_DIR to a new one.',
    )
  }
}

/** Whether the files are as they were last written: those from before the machine started may be lost in part. */
export function isOfThisBoot(database: string): boolean {
  try {
    return readFileSync(join(database, 'boot'), 'utf8') === bootId()
  } catch {
    return false
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
