import { createReadStream } from 'node:fs'
import { copyFile, mkdir, mkdtemp, open, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Imported, ImportFault } from './everything-types.ts'
import { readJournalLine } from './journal/journal-lines.ts'
import { linesOf } from './journal/lines-of.ts'
import { latestMigration } from './migrations.ts'
import { openStore } from './open-store.ts'
import type { ProjectStore } from './store.ts'

export interface Restoring {
  readonly dryRun: boolean
  /** Whether projects that are there may be replaced. */
  readonly replace: boolean
}

export type RestoreFault = ImportFault | { readonly kind: 'newer-version' }

/** Replaces what a store has by a backup, an export, or a journal of the embedded database, also of an earlier version. */
export async function restoreFile(store: ProjectStore, file: string, how: Restoring): Promise<Imported | RestoreFault> {
  const kind = await kindOf(file)
  if (typeof kind !== 'string') return kind
  if (kind === 'as it is') return store.importAll(linesIn(file), how)
  const folder = await mkdtemp(join(tmpdir(), 'longchord-restore-'))
  try {
    const whole = join(folder, 'export.jsonl')
    await bringUpToDate(file, join(folder, 'data'), whole)
    return await store.importAll(linesIn(whole), how)
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

const linesIn = (file: string) => linesOf(createReadStream(file))

/**
 * Whether a file can be imported as it is. One of an earlier version, and a journal, whose last line may be torn, have to be
 * opened as the journal of a database first.
 */
async function kindOf(file: string): Promise<'as it is' | 'as a journal' | RestoreFault> {
  let number = 0
  let ends = false
  let last: string | null = null
  let migration = 0
  for await (const text of linesIn(file)) {
    number += 1
    const line = readJournalLine(text)
    if (number === 1) {
      if (line.kind !== 'head') return { kind: 'not-an-export', line: 1 }
      ends = line.head.ends === true
      migration = line.head.migration
    } else if (last === 'damaged' || (line.kind === 'damaged' && ends)) return { kind: 'not-an-export', line: number }
    last = line.kind
  }
  if (last === null) return { kind: 'not-an-export', line: 1 }
  if (ends && last !== 'end') return { kind: 'cut-off' }
  if (migration > latestMigration()) return { kind: 'newer-version' }
  return ends && migration === latestMigration() ? 'as it is' : 'as a journal'
}

/** Makes an export of this version from a journal or an export of an earlier one. */
async function bringUpToDate(file: string, dataDir: string, whole: string): Promise<void> {
  await mkdir(dataDir, { mode: 0o700 })
  await copyFile(file, join(dataDir, 'journal.jsonl'))
  const store = await openStore({ databaseUrl: null, dataDir }, { onProgress: () => {} })
  try {
    const out = await open(whole, 'wx', 0o600)
    try {
      await store.copyTo((lines) => out.writeFile(lines))
    } finally {
      await out.close()
    }
  } finally {
    await store.close()
  }
}
