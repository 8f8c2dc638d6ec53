import { Agent, get } from 'node:http'

/** How long `/livez` took while something else went on. */
export interface Liveness {
  readonly asked: number
  readonly p50Ms: number
  readonly p99Ms: number
  readonly worstMs: number
}

/** Asks `/livez` every 20 ms, whether or not earlier ones are answered, until `stop` is called. */
export function watchLiveness(url: string, everyMs = 20): { stop(): Promise<Liveness> } {
  const agent = new Agent({ keepAlive: true, maxSockets: 200 })
  const tookMs: number[] = []
  const open = new Set<Promise<void>>()
  const ask = () => {
    const fromMs = performance.now()
    const asked = new Promise<void>((resolve) => {
      const request = get(`${url}/livez`, { agent }, (answer) => answer.resume().on('end', resolve))
      request.on('error', () => resolve())
    }).then(() => {
      tookMs.push(performance.now() - fromMs)
      open.delete(asked)
    })
    open.add(asked)
  }
  const timer = setInterval(ask, everyMs)
  return {
    async stop() {
      clearInterval(timer)
      await Promise.all(open)
      agent.destroy()
      const sorted = tookMs.toSorted((a, b) => a - b)
      const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0
      return { asked: sorted.length, p50Ms: at(0.5), p99Ms: at(0.99), worstMs: sorted.at(-1) ?? 0 }
    },
  }
}
