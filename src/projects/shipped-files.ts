import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

/** This module runs from `src/projects/` or, bundled, from `dist/`; the folder `drizzle/` is beside both. */
function shippedFolder(): URL {
  const places = ['../../drizzle/', '../drizzle/'].map((path) => new URL(path, import.meta.url))
  const found = places.find((place) => existsSync(new URL('migrations/meta/_journal.json', place)))
  if (found === undefined) throw new Error('the folder drizzle/ is missing beside the program')
  return found
}

/** The path of a file or folder in `drizzle/`. */
export function shippedPath(name: string): string {
  return fileURLToPath(new URL(name, shippedFolder()))
}
