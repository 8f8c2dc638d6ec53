import { randomUUID } from 'node:crypto'
import { Readable } from 'node:stream'
import { promisify } from 'node:util'
import { createGunzip, gzip } from 'node:zlib'

const pack = promisify(gzip)

/** A copy is forgotten after this time, and when others were offered since. */
const REMEMBERED_MS = 30 * 60_000
const MOST = 3

/** Copies that were sent to be looked at, until somebody decides whether they are to be put back. Packed, in memory. */
export class OfferedCopies {
  private readonly copies = new Map<string, { readonly packed: Buffer; readonly offeredMs: number }>()

  /** Returns an id of the copy. */
  async offer(copy: Uint8Array): Promise<string> {
    const id = randomUUID()
    this.copies.set(id, { packed: await pack(copy), offeredMs: performance.now() })
    for (const [other, { offeredMs }] of this.copies)
      if (this.copies.size > MOST || performance.now() - offeredMs > REMEMBERED_MS) this.copies.delete(other)
    return id
  }

  /** The copy with this id; null if it is not remembered. */
  read(id: string): AsyncIterable<Uint8Array> | null {
    const copy = this.copies.get(id)
    return copy ? Readable.from([copy.packed]).pipe(createGunzip()) : null
  }

  forget(id: string): void {
    this.copies.delete(id)
  }
}
