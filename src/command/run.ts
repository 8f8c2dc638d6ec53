import type { Problem } from '../api/answers/problem.ts'
import { createApi } from '../api/api.ts'
import { openApiDocument } from '../api/openapi-document.ts'
import { ODS, XLSX } from '../api/tables-answer.ts'
import { papers } from '../print/papers.ts'
import type { ProjectStore } from '../projects/store.ts'
import { inThisThread } from '../workers/in-this-thread.ts'
import { readArguments, type Typed } from './arguments.ts'
import { COMMANDS, type Command } from './commands.ts'
import { faultText } from './fault-text.ts'
import { type Described, helpOf, helpOfAll } from './help.ts'

/** What the command line does to the world. */
interface World {
  /** A file; null for standard input. Rejects if it cannot be read. */
  read(file: string | null): Promise<Uint8Array<ArrayBuffer>>
  /** To a file; null for standard output. Rejects if it cannot be written. */
  write(file: string | null, bytes: Uint8Array): Promise<void>
  /** To the person. */
  complain(text: string): void
  /** Whether standard output is a screen, which shows text alone. */
  readonly isScreen: boolean
}

const [ANSWERED, REFUSED, MISUSED] = [0, 1, 2]

/** Nothing here asks for what is stored. */
const NO_STORE = {} as ProjectStore

/** Runs one command line to its end, and says how it ended: 0 answered, 1 refused, 2 not understood. */
export async function run(words: readonly string[], world: World): Promise<number> {
  const misused = (faults: readonly string[]) => {
    world.complain(`${faults.join('\n')}\nlongchord --help says how it is used.`)
    return MISUSED
  }
  const read = readArguments(words)
  if (!read.ok) return misused(read.faults)
  const { typed } = read
  const api = createApi({ store: NO_STORE, workers: inThisThread, papers })
  api.onError((error) => {
    throw error
  })
  if (typed.wants !== 'answer' || typed.command === null) {
    const document = openApiDocument(api)
    const described = document as unknown as Described
    const text = typed.wants === 'version' ? `${document.info.version}\n` : helpText(typed, described)
    await world.write(null, new TextEncoder().encode(text))
    return ANSWERED
  }
  const command: Command = COMMANDS[typed.command]
  const asked = addressOf(command, typed)
  if (!asked.ok) return misused([asked.fault])
  let body: Uint8Array<ArrayBuffer> | undefined
  try {
    if (command.method === 'post') body = await world.read(typed.input)
    else if (typed.input !== null) return misused([`${typed.command} reads no file: leave out ${typed.input}`])
  } catch (error) {
    return misused([`${typed.input ?? 'standard input'} cannot be read: ${(error as Error).message}`])
  }
  const response = await api.request(asked.address, {
    method: command.method.toUpperCase(),
    ...(body && { headers: { 'Content-Type': contentTypeOf(typed) }, body }),
  })
  if (!response.ok) {
    world.complain(faultText((await response.json()) as Problem))
    return REFUSED
  }
  const type = response.headers.get('content-type')!
  if (typed.out === null && world.isScreen && type === 'application/pdf')
    return misused(['a PDF is no text for a screen: add --out FILE'])
  const answer = new Uint8Array(await response.arrayBuffer())
  try {
    await world.write(typed.out, type === 'application/json' ? Buffer.concat([answer, Buffer.from('\n')]) : answer)
  } catch (error) {
    return misused([`${typed.out ?? 'standard output'} cannot be written: ${(error as Error).message}`])
  }
  return ANSWERED
}

function helpText({ command }: Typed, document: Described): string {
  return command === null ? helpOfAll(document) : helpOf(command, document)
}

/** The address with its parameters; `{file}` in it is an option as well. */
function addressOf(
  { path }: Command,
  { options }: Typed,
): { ok: true; address: string } | { ok: false; fault: string } {
  const [, inPath] = /\{(\w+)\}/.exec(path) ?? []
  const query = new URLSearchParams(options.filter(([name]) => name !== inPath) as [string, string][])
  const asked = query.size === 0 ? '' : `?${query}`
  if (inPath === undefined) return { ok: true, address: `${path}${asked}` }
  const value = options.find(([name]) => name === inPath)?.[1]
  if (value === undefined)
    return { ok: false, fault: `--${inPath} is missing: --help after the command says which there are` }
  return { ok: true, address: `${path.replace(`{${inPath}}`, encodeURIComponent(value))}${asked}` }
}

const TYPES: Readonly<Record<string, string>> = { csv: 'text/csv', xlsx: XLSX, ods: ODS }

function contentTypeOf({ contentType, input }: Typed): string {
  return contentType ?? TYPES[input?.split('.').at(-1)?.toLowerCase() ?? ''] ?? 'application/json'
}
