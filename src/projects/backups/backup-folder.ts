import { createHash, type Hash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { mkdir, open, readdir, rename, rm, stat, statfs } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import type { Write } from '../everything-types.ts'
import { syncFolder } from '../journal/journal-file.ts'
import { type BackupFile, superseded } from './superseded.ts'

/** A backup must leave this much of the disk free, so that it is not what stops plans from being saved. */
const LEFT_FREE_BYTES = 256 * 1024 * 1024

const NAME = /^longchord-(\d{6,})-(\d{4}-\d\d-\d\dT\d\d)(\d\d)(\d\d)Z\.jsonl$/
const UNFINISHED = /^longchord-.*\.unfinished$/
/** An unfinished file this old is of a process that was ended. */
const ABANDONED_MS = 60 * 60 * 1000

/** Why a backup could not be written, with what to do. */
export class BackupFault extends Error {}

/** A folder with backups, each of which is there as a whole or not at all. */
export class BackupFolder {
  readonly path: string
  private readonly mostBytes: number
  /** Of the newest backup; null where it is not known. */
  private newestHash: { readonly name: string; readonly hash: string } | null = null

  /** @param mostBytes that all backups together may take */
  constructor(path: string, mostBytes: number) {
    this.path = path
    this.mostBytes = mostBytes
  }

  /** The oldest first; none if there is no folder. */
  async list(): Promise<BackupFile[]> {
    const names = await readdir(this.path).catch(ignoreMissing)
    const files = await Promise.all((names ?? []).map((name) => this.fileNamed(name)))
    return files.filter((file) => file !== null).toSorted((a, b) => a.number - b.number)
  }

  /** The backup with this name; null if there is none. */
  async find(name: string): Promise<BackupFile | null> {
    return this.fileNamed(name)
  }

  read(file: BackupFile): AsyncIterable<Uint8Array> {
    return createReadStream(join(this.path, file.name))
  }

  /**
   * Writes a backup, unless the newest one has the same bytes, and removes what it supersedes.
   *
   * @param copy writes the lines
   * @param inUse files that are kept, whatever supersedes them
   */
  async add(
    copy: (write: Write) => Promise<void>,
    now: Date,
    inUse: readonly string[] = [],
  ): Promise<'written' | 'unchanged'> {
    try {
      await mkdir(this.path, { recursive: true, mode: 0o700 })
      await this.removeAbandoned(now)
      const files = await this.list()
      const newest = files.at(-1)
      await this.refuseFullDisk(newest?.bytes ?? 0)
      const name = nameOf((newest?.number ?? 0) + 1, now)
      const unfinished = join(this.path, `${name}.${process.pid}.unfinished`)
      try {
        const hash = await writeSynced(unfinished, copy)
        if (newest !== undefined && hash === (await this.hashOf(newest))) return 'unchanged'
        await rename(unfinished, join(this.path, name))
        await syncFolder(this.path)
        this.newestHash = { name, hash }
      } finally {
        await rm(unfinished, { force: true })
      }
      const needed = inUse.map((file) => resolve(file))
      for (const { name: old } of superseded(await this.list(), this.mostBytes))
        if (!needed.includes(resolve(this.path, old))) await rm(join(this.path, old))
      return 'written'
    } catch (error) {
      throw explained(error, this.path)
    }
  }

  private async hashOf(file: BackupFile): Promise<string> {
    if (this.newestHash?.name === file.name) return this.newestHash.hash
    const hash = createHash('sha256')
    for await (const part of this.read(file)) hash.update(part)
    return hash.digest('hex')
  }

  private async fileNamed(name: string): Promise<BackupFile | null> {
    const [, number, hour, minute, second] = NAME.exec(name) ?? []
    if (number === undefined) return null
    const found = await stat(join(this.path, name)).catch(ignoreMissing)
    return found?.isFile()
      ? { name, number: Number(number), madeAt: `${hour}:${minute}:${second}Z`, bytes: found.size }
      : null
  }

  private async refuseFullDisk(bytes: number): Promise<void> {
    const { bavail, bsize } = await statfs(this.path)
    if (bavail * bsize < bytes + LEFT_FREE_BYTES)
      throw new BackupFault(`The disk with the backups has too little space left: ${this.path}`)
  }

  private async removeAbandoned(now: Date): Promise<void> {
    for (const name of await readdir(this.path)) {
      if (!UNFINISHED.test(name)) continue
      const path = join(this.path, name)
      const found = await stat(path).catch(ignoreMissing)
      if (found && Math.abs(now.getTime() - found.mtimeMs) > ABANDONED_MS) await rm(path, { force: true })
    }
  }
}

function nameOf(number: number, now: Date): string {
  const time = now.toISOString().slice(0, 19).replaceAll(':', '')
  return `longchord-${String(number).padStart(6, '0')}-${time}Z.jsonl`
}

/** Writes a file and brings it to the disk; returns its hash. */
async function writeSynced(path: string, copy: (write: Write) => Promise<void>): Promise<string> {
  const hash: Hash = createHash('sha256')
  const handle = await open(path, 'wx', 0o600)
  try {
    await copy(async (lines) => {
      hash.update(lines)
      await handle.writeFile(lines)
    })
    await handle.sync()
  } finally {
    await handle.close()
  }
  return hash.digest('hex')
}

function ignoreMissing(error: NodeJS.ErrnoException): null {
  if (error.code === 'ENOENT') return null
  throw error
}

const FULL = ['ENOSPC', 'EDQUOT']
const NOT_WRITABLE = ['EACCES', 'EPERM', 'EROFS', 'ENOTDIR', 'ENOENT', 'EEXIST']

function explained(error: unknown, folder: string): unknown {
  const { code } = error as NodeJS.ErrnoException
  if (code !== undefined && FULL.includes(code)) return new BackupFault(`The disk with the backups is full: ${folder}`)
  if (code !== undefined && NOT_WRITABLE.includes(code))
    return new BackupFault(
      `The folder for backups cannot be written to (${code}): ${folder}. Set BACKUP_DIR to one that can.`,
    )
  return error
}
