import { spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

const top = process.env.LONGCHORD_TOP ?? new URL('../..', import.meta.url).pathname

export interface Service {
  readonly url: string
  readonly pid: number
  dead(): boolean
  stop(): void
}

/** A service of its own with an empty database. */
export async function startService(): Promise<Service> {
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

export function peakMb(pid: number): number {
  try {
    return Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))![1]) / 1024
  } catch {
    return Number.NaN
  }
}
