import { createReadStream, mkdirSync } from 'node:fs'
import { pipeline } from 'node:stream/promises'
import { createBrotliDecompress } from 'node:zlib'
import { unpackTar } from 'modern-tar/fs'

/** Unpacks a tar archive, compressed with brotli, into a new folder that is closed to other users. */
export async function unpack(archivePath: string, folder: string): Promise<void> {
  mkdirSync(folder, { mode: 0o700 })
  const unpacking = unpackTar(folder, { strict: true, dmode: 0o700, fmode: 0o600 })
  await pipeline(createReadStream(archivePath), createBrotliDecompress(), unpacking)
}
