import { PAIRS } from './dimensions.ts'
import { watchLiveness } from './livez.ts'
import { PAPER_REQUESTS } from './paper-requests.ts'
import { WORST_REQUESTS, type WorstRequest } from './requests.ts'
import { sendTo } from './send.ts'
import { peakMb, startService } from './service.ts'
import { SHED_REQUESTS } from './shed.ts'

/*
 * The worst requests against a service of its own: each alone, then ten at once.
 *
 * Pairs of dimensions come alone, and only where they are asked for: there are many.
 *
 *     npm run test:worst [part of a name]
 */

const AT_ONCE = 10
const LIMIT_MS = Number(process.env.WORST_LIMIT_S ?? 90) * 1000

const wanted = process.argv.slice(2)
const isWanted = ({ name }: WorstRequest) => wanted.some((part) => name.includes(part))
const chosen = [...WORST_REQUESTS, ...PAPER_REQUESTS].filter((request) => wanted.length === 0 || isWanted(request))
const inOrder = [
  ...SHED_REQUESTS.filter((request) => wanted.length === 0 || isWanted(request)),
  ...PAIRS.filter(isWanted),
]
let service = await startService()

/** Sends requests at once and prints what became of them, and how long others were held. */
async function measure(name: string, requests: readonly WorstRequest[]): Promise<void> {
  if (service.dead()) service = await startService()
  const { url } = service
  const ready = await Promise.all(requests.map(async (request) => (await request.prepare?.(url)) ?? request))
  const watch = watchLiveness(service.url)
  const sent = await Promise.all(ready.map((request) => sendTo(url, request, LIMIT_MS)))
  const isLost = sent.some(({ status }) => status === 'TimeoutError')
  if (isLost) service.stop()
  const live = await watch.stop()
  const held = isLost ? 'no answer' : `held ${live.worstMs.toFixed(0)} ms, p99 ${live.p99Ms.toFixed(0)} ms`
  const tookMs = Math.max(...sent.map((each) => each.tookMs))
  const megabytes = sent.reduce((sum, { bytes }) => sum + bytes, 0) / 1e6
  console.log(
    `${name.padEnd(45)} ${sent.map(({ status }) => status).join(' ')}, ${tookMs.toFixed(0)} ms, ${megabytes.toFixed(1)} MB; ${held}; peak ${peakMb(service.pid).toFixed(0)} MB`,
  )
}

for (const request of chosen) await measure(request.name, [request])
for (let from = 0; from < chosen.length; from += AT_ONCE)
  await measure(`${AT_ONCE} at once, from ${chosen[from]!.name}`, chosen.slice(from, from + AT_ONCE))
for (const request of inOrder) await measure(request.name, [request])
service.stop()
