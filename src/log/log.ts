import { type DestinationStream, pino } from 'pino'
import { plainLine } from './plain-line.ts'

export const LOG_LEVELS = ['debug', 'info', 'warn', 'error', 'silent'] as const
export type LogLevel = (typeof LOG_LEVELS)[number]

export interface Log {
  debug(about: object, text: string): void
  info(about: object, text: string): void
  warn(about: object, text: string): void
  error(about: object, text: string): void
  isLevelEnabled(level: string): boolean
}

export interface OpenLog {
  readonly log: Log
  /** Writes what is still on its way; call it before the process ends. */
  flush(): void
}

/** What waits for a reader of the log that does not read; more is thrown away, so that it cannot stop the service. */
const MOST_WAITING_BYTES = 4 * 1024 * 1024

/**
 * The log on standard output: one JSON object a line for programs, plain lines for a person at a terminal, who is spared a
 * line for each request unless a level is set.
 */
export function openLog(level: LogLevel | null, isTerminal = process.stdout.isTTY): OpenLog {
  if (isTerminal) {
    const everything = level !== null
    const write = (line: string) => {
      const plain = plainLine(line, everything)
      if (plain !== null) process.stdout.write(plain)
    }
    return { log: logTo({ write }, level ?? 'info'), flush: () => {} }
  }
  const output = pino.destination({ dest: 1, sync: false, maxLength: MOST_WAITING_BYTES })
  // Nobody reads any more; the service has better things to do than to end.
  output.on('error', () => {})
  const flush = () => {
    try {
      output.flushSync()
    } catch {
      // It could not be written before either.
    }
  }
  return { log: logTo(output, level ?? 'info'), flush }
}

/** A log that writes lines of JSON somewhere. */
export function logTo(output: DestinationStream, level: LogLevel): Log {
  return pino(
    {
      level,
      base: null,
      timestamp: pino.stdTimeFunctions.isoTime,
      formatters: { level: (label) => ({ level: label }) },
    },
    { write: (line) => output.write(escaped(line)) },
  )
}

export const SILENT: Log = pino({ level: 'silent' })

/** What JSON leaves as it is and a terminal may take for an order or an end of a line. */
const CONTROLS = /[\x7f-\x9f\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069]/g

function escaped(line: string): string {
  return line.replace(CONTROLS, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`)
}
