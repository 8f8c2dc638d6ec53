import { spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { watchLiveness } from './livez.ts'
import { WORST_REQUESTS, type WorstRequest } from './requests.ts'
import { sendTo } from './send.ts'

/*
 * The worst requests against a service of its own: each alone, then ten at once.
 *
 *     npm run test:worst [part of a name]
 */

const top = process.env.LONGCHORD_TOP ?? new URL('../..', import.meta.url).pathname
const AT_ONCE = 10
const LIMIT_MS = Number(process.env.WORST_LIMIT_S ?? 90) * 1000

async function start() {
  const folder = mkdtempSync(join(tmpdir(), 'longchord-worst-'))
  const child = spawn(process.execPath, [join(top, 'src/start.mjs')], {
    cwd: top,
    env: { PATH: process.env.PATH!, PORT: '0', DATA_DIR: folder },
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const url = await new Promise<string>((resolve, reject) => {
    let said = ''
    child.stdout.setEncoding('utf8').on('data', (text) => {
      said += text
      const match = /ready at (http:\/\/\S+)/.exec(said)
      if (match) resolve(match[1]!)
    })
    child.once('exit', () => reject(new Error(said)))
  })
  return {
    url,
    pid: child.pid!,
    dead: () => child.exitCode !== null || child.signalCode !== null,
    stop: () => {
      child.kill('SIGKILL')
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

function peakMb(pid: number): number {
  try {
    return Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))![1]) / 1024
  } catch {
    return Number.NaN
  }
}

const wanted = process.argv.slice(2)
const chosen = WORST_REQUESTS.filter(({ name }) => wanted.length === 0 || wanted.some((part) => name.includes(part)))
let service = await start()

/** Sends requests at once and prints what became of them, and how long others were held. */
async function measure(name: string, requests: readonly WorstRequest[]): Promise<void> {
  if (service.dead()) service = await start()
  const watch = watchLiveness(service.url)
  const sent = await Promise.all(requests.map((request) => sendTo(service.url, request, LIMIT_MS)))
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
service.stop()
