import { createHash, randomUUID } from 'node:crypto'
import { linkSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { StartFault } from './start-fault.ts'

/** Who holds a lock file, as JSON in it. `startedAt` distinguishes the holder from a later process with the same pid. */
interface Holder {
  readonly pid: number
  /** The kernel's start time of that process (clock ticks since boot); null where there is no /proc. */
  readonly startedAt: string | null
  readonly since: string
  /** Different for every attempt to take a lock, so that no two contents of lock files are ever equal. */
  readonly token: string
}

/** Tokens of the locks that this process holds. */
const heldHere = new Set<string>()

/**
 * Takes the lock file at `path` for this process, or throws a `StartFault` that names the process holding it. A lock whose
 * process has ended is taken over. Returns a function that releases it. Works for processes that see each other's pids: on
 * one machine or in one container.
 */
export function lockFolder(path: string, folder: string): () => void {
  const me: Holder = {
    pid: process.pid,
    startedAt: processState(process.pid)?.startedAt ?? null,
    since: new Date().toISOString(),
    token: randomUUID(),
  }
  const mine = JSON.stringify(me)
  const rival = acquire(path, mine, me.token)
  if (rival !== null)
    throw new StartFault(
      `The folder ${folder} is in use by another Longchord, process ${rival.pid}, running since ${rival.since}. ` +
        'Stop that one first, or set DATA_DIR to another folder. ' +
        'Several processes can only share a PostgreSQL database, set in DATABASE_URL.',
    )
  heldHere.add(me.token)
  return () => {
    heldHere.delete(me.token)
    if (contentOf(path) === mine) rmSync(path, { force: true })
  }
}

/**
 * Null when the lock is ours now, otherwise its living holder.
 *
 * A lock appears with its content in one step (a hard link to a finished file). To replace the lock of a dead holder, a
 * process must hold a second lock, the claim, whose name comes from the content of the dead lock. Of two processes only one
 * gets the claim; the other finds the content changed and starts again. If a process dies while it holds the claim, the
 * claim is a dead lock too and is taken over in the same way.
 */
function acquire(path: string, mine: string, token: string): Holder | null {
  const fresh = `${path}.${token}`
  for (;;) {
    if (placed(fresh, path, mine)) return null
    const found = contentOf(path)
    if (found === null) continue
    const holder = parsed(found)
    if (holder !== null && isAlive(holder)) return holder

    const claim = `${path}.${createHash('sha256').update(found).digest('hex').slice(0, 16)}`
    const rival = acquire(claim, mine, token)
    if (rival !== null) return rival
    try {
      if (contentOf(path) !== found) continue
      writeFileSync(fresh, mine, { flag: 'wx' })
      renameSync(fresh, path)
      return null
    } finally {
      rmSync(claim, { force: true })
    }
  }
}

/** Puts a file with that content at `path` unless there is one already. */
function placed(fresh: string, path: string, content: string): boolean {
  writeFileSync(fresh, content, { flag: 'wx' })
  try {
    linkSync(fresh, path)
    return true
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false
    throw error
  } finally {
    rmSync(fresh, { force: true })
  }
}

function contentOf(path: string): string | null {
  try {
    return readFileSync(path, 'utf8')
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null
    throw error
  }
}

/** Null for a file that a power cut left empty or broken: no running process can have written it. */
function parsed(content: string): Holder | null {
  try {
    const { pid, startedAt, since, token } = JSON.parse(content)
    return Number.isSafeInteger(pid) && pid > 0 ? { pid, startedAt, since, token } : null
  } catch {
    return null
  }
}

function isAlive(holder: Holder): boolean {
  if (holder.pid === process.pid) return heldHere.has(holder.token)
  try {
    process.kill(holder.pid, 0)
  } catch (error) {
    // EPERM: it is running and belongs to another user.
    if ((error as NodeJS.ErrnoException).code === 'ESRCH') return false
  }
  const state = processState(holder.pid)
  if (state === null || holder.startedAt === null) return true
  return !state.ended && state.startedAt === holder.startedAt
}

/** From /proc/PID/stat (proc(5)): field 3 is the state, field 22 the start time. The name, field 2, may hold blanks. */
function processState(pid: number): { startedAt: string; ended: boolean } | null {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8')
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ')
    return { startedAt: fields[19]!, ended: fields[0] === 'Z' || fields[0] === 'X' }
  } catch {
    return null
  }
}
