import { spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { watchLiveness } from './livez.ts'
import { WORST_REQUESTS, type WorstRequest } from './requests.ts'

/*
 * The worst requests against a service of its own: each alone, then ten at once.
 *
 *     npm run test:worst [part of a name]
 */

const top = process.env.LONGCHORD_TOP ?? new URL('../..', import.meta.url).pathname
const LIMIT_MS = Number(process.env.WORST_LIMIT_S ?? 90) * 1000

export interface Outcome {
  readonly name: string
  readonly status: number | string
  readonly tookMs: number
  readonly bytes: number
  readonly liveWorstMs: number
  readonly liveP99Ms: number
  readonly peakMb: number
}

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

export async function send(url: string, { path, method = 'GET', headers = {}, body }: WorstRequest) {
  const fromMs = performance.now()
  try {
    const answer = await fetch(`${url}${path}`, {
      method,
      headers: { ...headers, ...(body && { Origin: url }) },
      redirect: 'manual',
      ...(body && { body: body() }),
      signal: AbortSignal.timeout(LIMIT_MS),
    })
    const bytes = (await answer.arrayBuffer()).byteLength
    return { status: answer.status, bytes, tookMs: performance.now() - fromMs }
  } catch (error) {
    return { status: (error as Error).name, bytes: 0, tookMs: performance.now() - fromMs }
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
for (const request of chosen) {
  if (service.dead()) service = await start()
  const watch = watchLiveness(service.url)
  const { status, bytes, tookMs } = await send(service.url, request)
  if (status === 'TimeoutError') service.stop()
  const outcome = status === 'TimeoutError' ? null : await watch.stop()
  console.log(
    `${request.name.padEnd(45)} ${String(status).padStart(5)} ${tookMs.toFixed(0).padStart(7)} ms ${(bytes / 1e6).toFixed(1).padStart(6)} MB  livez worst ${outcome?.worstMs.toFixed(0) ?? '-'} p99 ${outcome?.p99Ms.toFixed(0) ?? '-'} ms  peak ${peakMb(service.pid).toFixed(0)} MB`,
  )
  if (outcome === null) {
    service = await start()
  }
}
service.stop()
