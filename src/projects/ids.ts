import { randomBytes } from 'node:crypto'

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i

/** Whether a text can be the id of a project at all. Anything else is simply missing, without asking the database. */
export function isProjectId(text: string): boolean {
  return UUID.test(text)
}

const COUNTER_MAX = 0xfff

/**
 * Makes UUIDs of version 7 (RFC 9562, section 5.7): 48 bits of Unix time in milliseconds, then 12 bits of a counter
 * (section 6.2, method 1), then 62 random bits. One maker's ids always ascend, also within one millisecond and when
 * the clock is set back, so that "newest first" is "id descending".
 */
export function projectIdMaker(clock: () => number = Date.now, random = randomBytes): () => string {
  let lastMs = 0
  let counter = 0
  return () => {
    const bytes = random(16)
    const nowMs = clock()
    if (nowMs > lastMs) {
      lastMs = nowMs
      // A random start hides how many projects are made; its top bit stays clear to leave room for counting.
      counter = bytes.readUInt16BE(6) & (COUNTER_MAX >> 1)
    } else if (counter < COUNTER_MAX) {
      counter += 1
    } else {
      lastMs += 1
      counter = 0
    }
    bytes.writeUIntBE(lastMs, 0, 6)
    bytes.writeUInt16BE(0x7000 | counter, 6)
    bytes.writeUInt8(0x80 | (bytes.readUInt8(8) & 0x3f), 8)
    return bytes.toString('hex').replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5')
  }
}
