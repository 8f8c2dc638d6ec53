import { createHash, randomUUID } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

let version: string | undefined

/** Worker threads get a copy of the environment when they start. */
const OF_THIS_PROCESS = 'LONGCHORD_ENGINE'

/**
 * What tells the answers of this program from those of another: a hash of the bundle, or, where it runs from its
 * sources, which may change under it, a word of this process. The same in all its threads, if it is called before they start.
 */
export function engineVersion(): string {
  if (import.meta.url.endsWith('.ts')) {
    process.env[OF_THIS_PROCESS] ??= randomUUID()
    return process.env[OF_THIS_PROCESS]
  }
  version ??= createHash('sha256')
    .update(readFileSync(fileURLToPath(new URL('./main.js', import.meta.url))))
    .digest('base64url')
  return version
}
