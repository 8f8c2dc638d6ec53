import { crc32 } from 'node:zlib'
import { type Entry, fromBufferPromise, type ZipFile } from 'yauzl'

/**
 * The extra field of a file that holds its size or place in archives over 4 GiB (PKWARE APPNOTE 6.3, section 4.5.3).
 */
const ZIP64 = 1

/** Why an archive cannot be read. */
export class ArchiveFault extends Error {
  readonly why: 'damaged' | 'encrypted' | 'too-large'

  constructor(why: ArchiveFault['why']) {
    super(why)
    this.why = why
  }
}

/**
 * The files of a ZIP archive. A small archive can unpack to a thousand times its size, so the bytes are counted while
 * unpacking; the sizes stated in the archive are not trusted.
 */
export class Archive {
  private readonly zip: ZipFile
  private readonly entries: ReadonlyMap<string, Entry>
  private room: number

  private constructor(zip: ZipFile, entries: ReadonlyMap<string, Entry>, room: number) {
    this.zip = zip
    this.entries = entries
    this.room = room
  }

  /** @param room bytes that may be unpacked from all files together */
  static async open(bytes: Uint8Array, room: number): Promise<Archive> {
    try {
      const file = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength)
      const zip = await fromBufferPromise(file, { autoClose: false, validateEntrySizes: false })
      const entries = new Map<string, Entry>()
      for await (const entry of zip.eachEntry()) {
        if (entry.extraFields.some(({ id }) => id === ZIP64)) throw new ArchiveFault('damaged')
        entries.set(entry.fileName, entry)
      }
      return new Archive(zip, entries, room)
    } catch {
      throw new ArchiveFault('damaged')
    }
  }

  /** The text of a file; null where there is none of this name. */
  async read(name: string): Promise<string | null> {
    const entry = this.entries.get(name)
    if (!entry) return null
    if (entry.isEncrypted()) throw new ArchiveFault('encrypted')
    const chunks: Buffer[] = []
    let sum = 0
    try {
      for await (const chunk of await this.zip.openReadStreamPromise(entry)) {
        this.room -= chunk.length
        if (this.room < 0) throw new ArchiveFault('too-large')
        sum = crc32(chunk, sum)
        chunks.push(chunk)
      }
    } catch (error) {
      throw error instanceof ArchiveFault ? error : new ArchiveFault('damaged')
    }
    if (sum !== entry.crc32) throw new ArchiveFault('damaged')
    return Buffer.concat(chunks).toString('utf8')
  }
}
