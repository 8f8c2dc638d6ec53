import { createHash, createHmac, timingSafeEqual } from 'node:crypto'

/** How long a browser stays signed in. */
export const SESSION_DAYS = 30
const DAY_MS = 86_400_000

const SESSION = /^(\d{1,15})\.([\w-]{43})$/

/** The key of the service, and the sessions of browsers that have shown it. */
export class AccessKey {
  private readonly digest: Buffer
  private readonly signingKey: Buffer

  constructor(key: string) {
    this.digest = sha256(key)
    this.signingKey = sha256(`session of ${key}`)
  }

  /** Takes the same time for every wrong key. */
  is(given: string): boolean {
    return timingSafeEqual(sha256(given), this.digest)
  }

  /**
   * A session is its last moment, signed: nothing needs to be stored, a restart does not end it, and another key ends
   * all of them.
   */
  newSession(nowMs: number): string {
    const until = String(nowMs + SESSION_DAYS * DAY_MS)
    return `${until}.${this.signature(until)}`
  }

  isSession(session: string, nowMs: number): boolean {
    const [, until, signature] = SESSION.exec(session) ?? []
    if (until === undefined || signature === undefined) return false
    return timingSafeEqual(Buffer.from(signature), Buffer.from(this.signature(until))) && nowMs < Number(until)
  }

  private signature(text: string): string {
    return createHmac('sha256', this.signingKey).update(text).digest('base64url')
  }
}

function sha256(text: string): Buffer {
  return createHash('sha256').update(text).digest()
}
