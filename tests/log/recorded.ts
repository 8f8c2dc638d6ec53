import { type Log, logTo } from '../../src/log/log.ts'

export interface RecordedLog {
  readonly log: Log
  readonly lines: string[]
  /** The lines from a level on, as JSON. */
  from(level: 'info' | 'warn' | 'error'): Record<string, unknown>[]
}

/** A log whose lines are kept for a test. */
export function recordedLog(): RecordedLog {
  const lines: string[] = []
  const levels = ['debug', 'info', 'warn', 'error']
  return {
    log: logTo({ write: (line) => void lines.push(line) }, 'debug'),
    lines,
    from: (level) =>
      lines
        .map((line) => JSON.parse(line) as Record<string, unknown>)
        .filter((line) => levels.indexOf(String(line.level)) >= levels.indexOf(level)),
  }
}
