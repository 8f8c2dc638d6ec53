const MOST_WRONG = 10
const WINDOW_MS = 600_000
/** Older ones are forgotten first. */
const MOST_CLIENTS = 10_000

/** Counts wrong keys by client: after ten in ten minutes a client has to wait. */
export class WrongKeys {
  private readonly timesOf = new Map<string, number[]>()

  /** Seconds until this client may try again; 0 if it may now. */
  waitS(address: string, nowMs: number): number {
    const times = this.recent(clientOf(address), nowMs)
    return times.length < MOST_WRONG ? 0 : Math.ceil((times[0]! + WINDOW_MS - nowMs) / 1000)
  }

  add(address: string, nowMs: number): void {
    const client = clientOf(address)
    const times = [...this.recent(client, nowMs), nowMs].slice(-MOST_WRONG)
    this.timesOf.delete(client)
    this.timesOf.set(client, times)
    if (this.timesOf.size > MOST_CLIENTS) this.timesOf.delete(this.timesOf.keys().next().value!)
  }

  private recent(client: string, nowMs: number): readonly number[] {
    return (this.timesOf.get(client) ?? []).filter((timeMs) => nowMs - timeMs < WINDOW_MS)
  }
}

/** A client may choose freely among the addresses of an IPv6 network of 64 bits: these count as one. */
function clientOf(address: string): string {
  if (!address.includes(':') || /^::ffff:\d/.test(address)) return address
  const [head = '', tail] = address.split('::')
  const groups = head === '' ? [] : head.split(':')
  const after = tail ? tail.split(':').length : 0
  const zeros = tail === undefined ? 0 : 8 - groups.length - after
  return [...groups, ...Array.from({ length: zeros }, () => '0')].slice(0, 4).join(':')
}
