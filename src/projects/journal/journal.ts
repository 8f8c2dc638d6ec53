import { randomUUID } from 'node:crypto'
import type { PGlite } from '@electric-sql/pglite'
import type { Write } from '../everything-types.ts'
import { StoreError } from '../store-error.ts'
import { JournalFile } from './journal-file.ts'
import { changeLine } from './journal-lines.ts'
import { allRows, beginWith, changesAfter, forgetBefore, noteChanges } from './row-changes.ts'

/**
 * After so many bytes in the journal, the database forgets what it noted of them, and lets its log files be used again: it
 * would do neither by itself.
 */
const TIDY_AFTER_BYTES = 8 * 1024 * 1024

/**
 * Makes an embedded database, which never waits for the disk, survive a power cut: whatever it has committed is in a file
 * beside it, on the disk, before anybody hears of it.
 */
export class Journal {
  private readonly client: PGlite
  private readonly file: JournalFile
  /** The last change that is in the file. */
  private seq = 0
  private untidyBytes = 0
  private writing: Promise<void> = Promise.resolve()
  private next: Promise<void> | null = null

  private constructor(client: PGlite, file: JournalFile) {
    this.client = client
    this.file = file
  }

  /** Begins a journal of a migrated database that nobody uses yet. */
  static async begin(client: PGlite, path: string, migration: number): Promise<Journal> {
    const id = randomUUID()
    await noteChanges(client)
    const file = await JournalFile.begin(path, { id, migration }, allRows(client))
    await beginWith(client, id)
    return new Journal(client, file)
  }

  /** Resolves when everything that was committed before the call is on the disk. Calls at the same time share the wait. */
  settle(): Promise<void> {
    this.next ??= this.writing
      .catch(() => {})
      .then(() => {
        this.next = null
        this.writing = this.write()
        return this.writing
      })
    return this.next
  }

  /**
   * Everything that is stored, without keeping the database from others: its rows, read one after another, and then what has
   * changed meanwhile.
   */
  async copyTo(write: Write): Promise<void> {
    await this.settle()
    const from = this.file.length
    for await (const row of allRows(this.client)) await write(changeLine(row))
    await this.settle()
    for await (const part of this.file.between(from, this.file.length)) await write(part)
  }

  async close(): Promise<void> {
    await this.settle()
    await this.file.close()
  }

  private async write(): Promise<void> {
    const changes = await changesAfter(this.client, this.seq)
    if (changes.length === 0) return
    try {
      this.untidyBytes += await this.file.append(changes)
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException
      throw new StoreError('full', `The journal cannot be written (${code}).`, code ?? null)
    }
    this.seq = changes.at(-1)!.seq
    if (this.untidyBytes > TIDY_AFTER_BYTES) await this.tidy()
  }

  private async tidy(): Promise<void> {
    await forgetBefore(this.client, this.seq)
    await this.client.exec('checkpoint')
    this.untidyBytes = 0
  }
}
