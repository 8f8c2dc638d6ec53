import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { onTestFinished } from 'vitest'

const start = new URL('../../src/start.mjs', import.meta.url).pathname
const top = new URL('../..', import.meta.url).pathname

export interface Ended {
  readonly code: number | null
  readonly signal: NodeJS.Signals | null
  readonly stdout: string
  readonly stderr: string
  /** From the start of the process to its end. */
  readonly elapsedMs: number
}

export interface Process {
  readonly child: ChildProcess
  readonly ended: Promise<Ended>
  /** Resolves when standard output has a match; rejects when the process ends without one. */
  said(pattern: RegExp): Promise<RegExpExecArray>
}

export interface Service extends Process {
  readonly url: string
  readonly port: number
}

/** What ends or removes something, to be called in the end: after its test unless somebody else takes care of that. */
export type AtEnd = (end: () => void | Promise<void>) => void

/** Runs the service as `npm start` does, with nothing in its environment but what is given. Killed with its test. */
export function launch(
  env: Record<string, string>,
  command = [process.execPath, start],
  atEnd: AtEnd = onTestFinished,
): Process {
  const startedMs = performance.now()
  const [program, ...args] = command
  // Without a folder of its data, its backups would be written beside the sources.
  const withoutBackups: Record<string, string> = env.DATA_DIR === undefined ? { BACKUP_MB: '0' } : {}
  const child = spawn(program!, args, { cwd: top, env: { PATH: process.env.PATH!, ...withoutBackups, ...env } })
  let stdout = ''
  let stderr = ''
  let over = false
  const waiting = new Set<() => void>()
  const wake = () => {
    for (const look of waiting) look()
  }
  child.stdout.setEncoding('utf8').on('data', (text) => {
    stdout += text
    wake()
  })
  child.stderr.setEncoding('utf8').on('data', (text) => {
    stderr += text
  })
  const ended = new Promise<Ended>((resolve) => {
    child.once('close', (code, signal) => {
      over = true
      resolve({ code, signal, stdout, stderr, elapsedMs: performance.now() - startedMs })
      wake()
    })
  })
  const said = (pattern: RegExp) =>
    new Promise<RegExpExecArray>((resolve, reject) => {
      const look = () => {
        const match = pattern.exec(stdout)
        if (match === null && !over) return
        waiting.delete(look)
        if (match === null) reject(new Error(`ended without ${pattern}; said ${stdout}${stderr}`))
        else resolve(match)
      }
      waiting.add(look)
      look()
    })
  atEnd(async () => {
    child.kill('SIGKILL')
    await ended
  })
  return { child, ended, said }
}

/** A service that is ready, on a free port. */
export async function running(env: Record<string, string>, command?: string[], atEnd?: AtEnd): Promise<Service> {
  const service = launch({ PORT: '0', ...env }, command, atEnd)
  const [, url, port] = await service.said(/ready at (http:\/\/\S+?:(\d+))/)
  return { ...service, url: url!, port: Number(port) }
}

/** A folder that goes with the test. */
export function newFolder(atEnd: AtEnd = onTestFinished): string {
  const folder = mkdtempSync(join(tmpdir(), 'longchord-service-'))
  atEnd(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}

/** The smallest plan there is. */
export const PLAN = {
  rail: { section: '250', material: 'brass' },
  tracks: [{ name: 'main', elements: [{ kind: 'tangent', length: '6 ft' }] }],
}

/** The status of the answer to what is worked out in a worker thread. */
export async function thoroughCut(url: string): Promise<number> {
  const answer = await fetch(`${url}/v1/cut-plans`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    body: JSON.stringify({
      runs: [{ length: '9 ft' }, { length: '4 ft' }],
      sticks: [{ length: '6 ft', price: '17.25' }],
      effort: 'thorough',
    }),
  })
  return answer.status
}
