import { renameSync, rmSync, writeFileSync } from 'node:fs'
import { setImmediate as breathe, setTimeout as wait } from 'node:timers/promises'
import { lockFolder } from '../../src/projects/folder-lock.ts'
import { StartFault } from '../../src/projects/start-fault.ts'

/*
 * A process that takes the lock at argv[2] again and again for argv[3] milliseconds. Each time it has it, it checks
 * that nobody else does, then lets go: by releasing it, or by leaving it as a process does that dies. Prints how often
 * it had the lock, and how often somebody else had it at the same time.
 */
const [, , path, durationMs] = process.argv as [string, string, string, string]
const inside = `${path}-inside`
const dead = { pid: 2 ** 22 + 1, startedAt: '1', since: '2026-01-01T00:00:00.000Z' }
let had = 0
let shared = 0

const endMs = performance.now() + Number(durationMs)
while (performance.now() < endMs) {
  await breathe()
  let release: () => void
  try {
    release = lockFolder(path, 'contended')
  } catch (error) {
    if (error instanceof StartFault) continue
    throw error
  }
  had += 1
  try {
    writeFileSync(inside, '', { flag: 'wx' })
  } catch {
    shared += 1
  }
  await wait(1)
  rmSync(inside, { force: true })
  if (had % 3 === 0) {
    release()
  } else {
    const corpse = `${path}-corpse-${process.pid}`
    writeFileSync(corpse, JSON.stringify({ ...dead, token: `${process.pid}-${had}` }))
    renameSync(corpse, path)
    release()
  }
}
console.log(JSON.stringify({ had, shared }))
