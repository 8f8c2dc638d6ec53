import { crc32, inflateRawSync } from 'node:zlib'

const END = 0x06054b50
const ENTRY = 0x02014b50
const LOCAL = 0x04034b50
const STORED = 0
const DEFLATED = 8
const ENCRYPTED = 1

/** A number that is this says that another record has the real one, for archives over 4 GiB (ZIP64). */
const ELSEWHERE = 0xffffffff

interface Entry {
  readonly flags: number
  readonly method: number
  readonly sum: number
  readonly packed: number
  readonly at: number
}

/** Why an archive gives no file. */
export class ArchiveFault extends Error {
  readonly why: 'damaged' | 'encrypted' | 'too-large'

  constructor(why: ArchiveFault['why']) {
    super(why)
    this.why = why
  }
}

/**
 * The files of a ZIP archive (PKWARE APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.16). A small archive can be made to grow a
 * thousandfold, so what its files come to is counted as they are unpacked, and never believed. Archives in the manner of
 * those over 4 GiB are refused.
 */
export class Archive {
  private readonly entries = new Map<string, Entry>()
  private readonly file: Buffer
  private room: number

  /** @param room bytes that may be unpacked, of all files that are read together */
  constructor(bytes: Uint8Array, room: number) {
    this.room = room
    this.file = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength)
    try {
      this.list()
    } catch (error) {
      throw error instanceof RangeError ? new ArchiveFault('damaged') : error
    }
  }

  has(name: string): boolean {
    return this.entries.has(name)
  }

  /** Unpacks a file; null where there is none of this name. */
  read(name: string): Buffer | null {
    const entry = this.entries.get(name)
    if (!entry) return null
    if (entry.flags & ENCRYPTED) throw new ArchiveFault('encrypted')
    try {
      const { file } = this
      if (file.readUInt32LE(entry.at) !== LOCAL) throw new ArchiveFault('damaged')
      const from = entry.at + 30 + file.readUInt16LE(entry.at + 26) + file.readUInt16LE(entry.at + 28)
      const content = this.unpacked(file.subarray(from, from + entry.packed), entry.method)
      if (crc32(content) !== entry.sum) throw new ArchiveFault('damaged')
      this.room -= content.length
      return content
    } catch (error) {
      throw error instanceof ArchiveFault ? error : new ArchiveFault('damaged')
    }
  }

  private unpacked(data: Buffer, method: number): Buffer {
    if (method === STORED) {
      if (data.length > this.room) throw new ArchiveFault('too-large')
      return data
    }
    if (method !== DEFLATED) throw new ArchiveFault('damaged')
    if (this.room === 0) throw new ArchiveFault('too-large')
    try {
      return inflateRawSync(data, { maxOutputLength: this.room })
    } catch (error) {
      throw (error as { code?: string }).code === 'ERR_BUFFER_TOO_LARGE' ? new ArchiveFault('too-large') : error
    }
  }

  private list(): void {
    const { file } = this
    let end = file.length - 22
    while (end >= 0 && file.readUInt32LE(end) !== END) end--
    if (end < 0) throw new ArchiveFault('damaged')
    let at = file.readUInt32LE(end + 16)
    for (let left = file.readUInt16LE(end + 10); left > 0; left--) {
      if (file.readUInt32LE(at) !== ENTRY) throw new ArchiveFault('damaged')
      const name = file.readUInt16LE(at + 28)
      const entry: Entry = {
        flags: file.readUInt16LE(at + 8),
        method: file.readUInt16LE(at + 10),
        sum: file.readUInt32LE(at + 16),
        packed: file.readUInt32LE(at + 20),
        at: file.readUInt32LE(at + 42),
      }
      if (entry.packed === ELSEWHERE || entry.at === ELSEWHERE) throw new ArchiveFault('damaged')
      this.entries.set(file.toString('utf8', at + 46, at + 46 + name), entry)
      at += 46 + name + file.readUInt16LE(at + 30) + file.readUInt16LE(at + 32)
    }
  }
}
