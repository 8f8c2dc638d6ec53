import { createReadStream, mkdirSync } from 'node:fs'
import { pipeline } from 'node:stream/promises'
import { createBrotliDecompress } from 'node:zlib'
import { unpackTar } from 'modern-tar/fs'

/*
 * Unpacks a tar archive, compressed with brotli, into a new folder that is closed to other users. The service runs this as
 * a process of its own (src/projects/unpack.ts), which ends when its input does: with the service. Plain JavaScript, so
 * that it need not be built.
 *
 *     node src/unpack.mjs ARCHIVE FOLDER
 */
process.stdin.on('end', () => process.exit(1)).resume()

const [archive, folder] = process.argv.slice(2)
mkdirSync(folder, { mode: 0o700 })
const unpacking = unpackTar(folder, { strict: true, dmode: 0o700, fmode: 0o600 })
await pipeline(createReadStream(archive), createBrotliDecompress(), unpacking)
process.exit()
