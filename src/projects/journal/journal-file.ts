import { createReadStream } from 'node:fs'
import { type FileHandle, open, rename } from 'node:fs/promises'
import { dirname } from 'node:path'
import { changeLine, headLine, type JournalHead, type RowChange, readJournalLine } from './journal-lines.ts'
import { linesOf } from './lines-of.ts'

/** A journal that is complete up to a torn last line. */
export interface ReadJournal {
  readonly head: JournalHead
  /** Read once, in order. */
  readonly changes: AsyncIterable<RowChange>
}

export class DamagedJournal extends Error {}

/** Read at a time. */
const PART_BYTES = 1024 * 1024

/** An open journal. What `append` has acknowledged survives a power cut. */
export class JournalFile {
  private readonly handle: FileHandle
  /** In bytes. */
  length: number

  private constructor(handle: FileHandle, length: number) {
    this.handle = handle
    this.length = length
  }

  /** Begins a journal with all rows there are, in the place of an earlier one, in one step. */
  static async begin(path: string, head: JournalHead, rows: AsyncIterable<RowChange>): Promise<JournalFile> {
    const unfinished = `${path}.unfinished`
    const handle = await open(unfinished, 'w+', 0o600)
    try {
      let length = 0
      const add = async (line: string) => {
        length += (await handle.write(line)).bytesWritten
      }
      await add(headLine(head))
      for await (const row of rows) await add(changeLine(row))
      await handle.sync()
      await rename(unfinished, path)
      await syncFolder(dirname(path))
      return new JournalFile(handle, length)
    } catch (error) {
      await handle.close()
      throw error
    }
  }

  /** Adds changes and waits until the disk has them; returns how many bytes they take. After a failure the journal is as it was. */
  async append(changes: readonly RowChange[]): Promise<number> {
    const lines = Buffer.from(changes.map(changeLine).join(''))
    try {
      await this.handle.write(lines, 0, lines.length, this.length)
      await this.handle.datasync()
    } catch (error) {
      await this.handle.truncate(this.length).catch(() => {})
      throw error
    }
    this.length += lines.length
    return lines.length
  }

  /** What was appended between two lengths, a part at a time. */
  async *between(from: number, to: number): AsyncGenerator<Uint8Array> {
    for (let at = from; at < to; ) {
      const part = Buffer.alloc(Math.min(PART_BYTES, to - at))
      const { bytesRead } = await this.handle.read(part, 0, part.length, at)
      if (bytesRead === 0) throw new DamagedJournal('The journal is shorter than it was.')
      yield part.subarray(0, bytesRead)
      at += bytesRead
    }
  }

  close(): Promise<void> {
    return this.handle.close()
  }
}

/**
 * Reads a journal. The last line may be torn, because nobody was told that it was written. Throws `DamagedJournal` if
 * another is, or if the first one is missing.
 */
export async function readJournal(path: string): Promise<ReadJournal> {
  const reading = linesOf(createReadStream(path))
  const first = await reading.next()
  const head = first.done === true ? null : readJournalLine(first.value)
  if (head?.kind !== 'head') throw new DamagedJournal('The journal has no head.')
  return { head: head.head, changes: changesIn(reading) }
}

async function* changesIn(lines: AsyncIterator<string>): AsyncGenerator<RowChange> {
  let torn = false
  for (;;) {
    const next = await lines.next()
    if (next.done === true) return
    const line = readJournalLine(next.value)
    if (torn) throw new DamagedJournal('A line in the middle of the journal is damaged.')
    if (line.kind === 'change') yield line.change
    else if (line.kind !== 'end') torn = true
  }
}

/** Makes the names in a folder survive a power cut. */
export async function syncFolder(folder: string): Promise<void> {
  // Windows cannot open a folder, and needs not.
  if (process.platform === 'win32') return
  const handle = await open(folder, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}
