import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { brotliDecompressSync } from 'node:zlib'

const BLOCK_BYTES = 512

/**
 * Unpacks a tar archive (POSIX ustar, compressed with brotli) of folders and plain files into a new folder. Only for
 * archives that come with the program; a kind of entry that those do not hold, or a damaged header, throws.
 */
export function unpack(archivePath: string, folder: string): void {
  const archive = brotliDecompressSync(readFileSync(archivePath))
  let at = 0
  while (at < archive.length) {
    const header = archive.subarray(at, at + BLOCK_BYTES)
    // Two blocks of zeros end the archive.
    if (header.every((byte) => byte === 0)) return
    if (checksum(header) !== octal(header, 148, 8)) throw new Error(`damaged header in ${archivePath} at byte ${at}`)
    const name = text(header, 0, 100)
    const sizeBytes = octal(header, 124, 12)
    const kind = text(header, 156, 1)
    const path = join(folder, name)
    at += BLOCK_BYTES
    if (kind === '5') {
      mkdirSync(path, { recursive: true, mode: 0o700 })
    } else if (kind === '0') {
      mkdirSync(dirname(path), { recursive: true, mode: 0o700 })
      writeFileSync(path, archive.subarray(at, at + sizeBytes), { mode: 0o600, flag: 'wx' })
      at += Math.ceil(sizeBytes / BLOCK_BYTES) * BLOCK_BYTES
    } else {
      throw new Error(`entry of kind ${JSON.stringify(kind)} in ${archivePath}`)
    }
  }
  throw new Error(`${archivePath} ends too early`)
}

function text(header: Buffer, offset: number, length: number): string {
  return header.toString('latin1', offset, offset + length).replace(/\0.*$/s, '')
}

function octal(header: Buffer, offset: number, length: number): number {
  return Number.parseInt(text(header, offset, length).trim(), 8)
}

/** The sum of the header's bytes, its own checksum field (bytes 148 to 155) counted as blanks. */
function checksum(header: Buffer): number {
  return header.reduce((sum, byte, index) => sum + (index >= 148 && index < 156 ? 0x20 : byte), 0)
}
