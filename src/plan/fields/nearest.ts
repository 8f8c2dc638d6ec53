import { distance } from 'fastest-levenshtein'

/** Names longer than this are no slips of a known one. */
const LONGEST_NAME = 60

/**
 * The known name a misspelt one was most likely meant to be: at most a third of it, and two letters at least, may
 * differ; capitals, hyphens and underscores do not count. Null when none is that near.
 */
export function meantName(written: string, known: readonly string[]): string | null {
  if (written.length > LONGEST_NAME) return null
  const plain = plainly(written)
  let best: string | null = null
  let least = Number.POSITIVE_INFINITY
  for (const name of known) {
    const steps = distance(plain, plainly(name))
    if (steps < least) [best, least] = [name, steps]
  }
  const allowed = Math.max(2, Math.floor(plain.length / 3))
  return least <= allowed && least < plain.length ? best : null
}

function plainly(name: string): string {
  return name.toLowerCase().replace(/[-_ ]/g, '')
}
