import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openStore } from '../../src/projects/open-store.ts'

/** A data folder with an empty embedded database at the latest migration. Making one takes as long as four copies. */
export async function makeTemplate(): Promise<{ readonly folder: string; remove(): void }> {
  const parent = mkdtempSync(join(tmpdir(), 'longchord-template-'))
  const folder = join(parent, 'data')
  const store = await openStore({ databaseUrl: null, dataDir: folder }, { onProgress: () => {} })
  await store.close()
  return { folder, remove: () => rmSync(parent, { recursive: true, force: true }) }
}

let own: Promise<string> | undefined

/** Copies the template that was given to this process, or one of its own. */
export async function copyTemplate(given: string | undefined, dataDir: string): Promise<void> {
  own ??= given === undefined ? makeOwn() : Promise.resolve(given)
  cpSync(await own, dataDir, { recursive: true })
}

async function makeOwn(): Promise<string> {
  const { folder, remove } = await makeTemplate()
  process.once('exit', remove)
  return folder
}
