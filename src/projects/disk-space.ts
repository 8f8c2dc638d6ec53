import { accessSync, constants, statfsSync } from 'node:fs'
import type { Database } from './project-rows.ts'
import { StoreError } from './store-error.ts'

/** Four of the database's log files: when the next one does not fit, PGlite would try for ever. */
const LEAST_FREE_BYTES = 64 * 1024 * 1024

/** The disk that a folder is on. */
export class DiskSpace {
  private readonly folder: string

  constructor(folder: string) {
    this.folder = folder
  }

  /** Throws a `StoreError` while the folder cannot be written to or has hardly any space left. */
  refuse(): void {
    const free = this.freeBytes()
    if (free === null) throw new StoreError('unavailable', 'The folder of the embedded database cannot be written to.')
    if (free < LEAST_FREE_BYTES) throw new StoreError('full', `Only ${Math.floor(free / 1e6)} MB are free on the disk.`)
  }

  /** Null if the folder is gone or may not be written to. */
  private freeBytes(): number | null {
    try {
      accessSync(this.folder, constants.W_OK)
      const { bavail, bsize } = statfsSync(this.folder)
      return bavail * bsize
    } catch {
      return null
    }
  }
}

/** Refuses to write to a database while its disk is nearly full, or gone. */
export function refuseFullDisk(db: Database, disk: DiskSpace): void {
  for (const verb of ['transaction', 'insert', 'update', 'delete'] as const) {
    const write = db[verb].bind(db) as (...args: unknown[]) => unknown
    Object.assign(db, {
      [verb]: (...args: unknown[]) => {
        disk.refuse()
        return write(...args)
      },
    })
  }
}
