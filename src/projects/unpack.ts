import { execFile } from 'node:child_process'
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'

/**
 * Unpacks a tar archive, compressed with brotli, into a new folder that is closed to other users. In a process of its own:
 * the 60 MB that it takes are given back before the database is opened, which takes most. It ends with this process.
 */
export async function unpack(archivePath: string, folder: string): Promise<void> {
  await promisify(execFile)(process.execPath, [program(), archivePath, folder])
}

/** This module runs from `src/projects/` or, bundled, from `dist/`. */
function program(): string {
  const places = ['../unpack.mjs', './unpack.mjs'].map((path) => fileURLToPath(new URL(path, import.meta.url)))
  return places.find((path) => existsSync(path))!
}
