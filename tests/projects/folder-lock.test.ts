import { type ChildProcess, execFile, spawn } from 'node:child_process'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { promisify } from 'node:util'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { lockFolder } from '../../src/projects/folder-lock.ts'
import { StartFault } from '../../src/projects/start-fault.ts'

const run = promisify(execFile)
const contender = new URL('lock-contender.ts', import.meta.url).pathname
const hasProc = existsSync('/proc/self/stat')
/** Above the largest pid that Linux gives out. */
const NO_SUCH_PID = 2 ** 22 + 1

let folder: string
let path: string
const children: ChildProcess[] = []

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'longchord-lock-'))
  path = join(folder, 'longchord.lock')
})
afterEach(() => {
  for (const child of children.splice(0)) child.kill('SIGKILL')
  rmSync(folder, { recursive: true, force: true })
})

function sleeper(): number {
  const child = spawn(process.execPath, ['-e', 'setTimeout(() => {}, 30_000)'], { stdio: 'ignore' })
  children.push(child)
  return child.pid!
}

function startTime(pid: number): string {
  return readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]!.split(' ')[19]!
}

function leave(holder: { pid: number; startedAt: string | null }): void {
  writeFileSync(path, JSON.stringify({ ...holder, since: '2026-05-04T03:02:01.000Z', token: 'left' }))
}

/** The lock can be had, names this process, and leaves nothing behind. */
function expectFree(): void {
  const release = lockFolder(path, 'there')
  expect(JSON.parse(readFileSync(path, 'utf8'))).toMatchObject({ pid: process.pid })
  expect(readdirSync(folder)).toEqual(['longchord.lock'])
  release()
  expect(readdirSync(folder)).toEqual([])
}

function expectHeldBy(pid: number): void {
  const before = readFileSync(path, 'utf8')
  expect(() => lockFolder(path, './here')).toThrow(StartFault)
  expect(() => lockFolder(path, './here')).toThrow(new RegExp(`\\./here is in use .*process ${pid}, .*Stop .*DATA_DIR`))
  expect(readFileSync(path, 'utf8')).toBe(before)
  expect(readdirSync(folder)).toEqual(['longchord.lock'])
}

describe('the lock on a folder', () => {
  test('is had once, and again after its release', () => {
    expectFree()
    const release = lockFolder(path, 'there')
    expectHeldBy(process.pid)
    release()
    expectFree()
  })

  test('is only released by its holder', () => {
    const release = lockFolder(path, 'there')
    const pid = sleeper()
    leave({ pid, startedAt: hasProc ? startTime(pid) : null })
    release()
    expectHeldBy(pid)
  })

  test('is refused while its holder lives, whose pid is named', () => {
    const pid = sleeper()
    leave({ pid, startedAt: hasProc ? startTime(pid) : null })
    expectHeldBy(pid)
    leave({ pid, startedAt: null })
    expectHeldBy(pid)
  })

  test('is taken over from a process that is gone', () => {
    leave({ pid: NO_SUCH_PID, startedAt: null })
    expectFree()
    leave({ pid: NO_SUCH_PID, startedAt: '12345' })
    expectFree()
  })

  test('is taken over from an earlier process with our own pid', () => {
    leave({ pid: process.pid, startedAt: null })
    expectFree()
    leave({ pid: process.pid, startedAt: '1' })
    expectFree()
  })

  test('is taken over when its pid has been given to another process, where the system tells start times', () => {
    const pid = sleeper()
    leave({ pid, startedAt: '1' })
    if (hasProc) expectFree()
    else expectHeldBy(pid)
  })

  test('is taken over from a process that has ended and whose parent has not noticed', async () => {
    // The shell becomes a process that never asks what has become of its children.
    const shell = spawn('sh', ['-c', 'sleep 0.3 & echo $!; exec sleep 30'], { stdio: ['ignore', 'pipe', 'ignore'] })
    children.push(shell)
    const pid = Number(await new Promise((resolve) => shell.stdout.once('data', resolve)))
    leave({ pid, startedAt: hasProc ? startTime(pid) : null })
    expectHeldBy(pid)
    await wait(600)
    if (hasProc) expectFree()
    else expectHeldBy(pid)
  })

  test.each([
    ['empty', ''],
    ['half written', '{"pid":12'],
    ['not ours', 'null'],
    ['without a pid', '{}'],
    ['with no possible pid', '{"pid":0}'],
  ])('is taken over when a power cut left it %s', (_, content) => {
    writeFileSync(path, content)
    expectFree()
  })

  test('is never had twice, however many want it and however its holders end', async () => {
    const contenders = Array.from({ length: 4 }, () =>
      run(process.execPath, ['--import', 'tsx', contender, path, '1500'], { encoding: 'utf8' }),
    )
    const counts = (await Promise.all(contenders)).map(({ stdout }) => JSON.parse(stdout))
    for (const { had, shared } of counts) {
      expect(shared).toBe(0)
      expect(had).toBeGreaterThan(0)
    }
  })

  test('can be had after contenders were killed at any moment', async () => {
    for (let round = 0; round < 3; round += 1) {
      const killed = Array.from({ length: 3 }, () => {
        const child = spawn(process.execPath, ['--import', 'tsx', contender, path, '30000'], { stdio: 'ignore' })
        children.push(child)
        return { child, ended: new Promise((resolve) => child.once('exit', resolve)) }
      })
      for (const deadline = performance.now() + 10_000; !existsSync(path) && performance.now() < deadline; )
        await wait(10)
      await wait(100 + 37 * round)
      for (const { child } of killed) child.kill('SIGKILL')
      await Promise.all(killed.map(({ ended }) => ended))
      lockFolder(path, 'there')()
      expect(existsSync(path)).toBe(false)
    }
  })
})
