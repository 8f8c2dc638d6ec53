import { createHash, randomBytes } from 'node:crypto'

const BYTES = 32

/** 256 random bits, in letters that no spreadsheet encodes in an address: A–Z a–z 0–9 - _. */
export function newToken(): string {
  return randomBytes(BYTES).toString('base64url')
}

/** What is stored of a token; the token cannot be recovered from it. Null for a text that cannot be a token. */
export function tokenHash(token: string): string | null {
  if (!/^[\w-]{43}$/.test(token)) return null
  return createHash('sha256').update(token).digest('base64url')
}
