import { readFileSync } from 'node:fs'
import { uptime } from 'node:os'

/**
 * Something that changes whenever the machine starts. What was written in the same boot is still in the system's memory,
 * if not on the disk; what was written before may be lost in part.
 */
export function bootId(): string {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim()
  } catch {
    // To the minute: a clock that is set makes it differ, which only costs time.
    return `about ${Math.round((Date.now() / 1000 - uptime()) / 60)}`
  }
}
