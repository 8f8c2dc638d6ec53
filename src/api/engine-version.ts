import { createHash, randomUUID } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

let version: string | undefined

/**
 * What tells the answers of this program from those of another: a hash of the bundle, or, where it runs from its
 * sources, which may change under it, a word of this process.
 */
export function engineVersion(): string {
  version ??= import.meta.url.endsWith('.ts')
    ? randomUUID()
    : createHash('sha256')
        .update(readFileSync(fileURLToPath(import.meta.url)))
        .digest('base64url')
  return version
}
