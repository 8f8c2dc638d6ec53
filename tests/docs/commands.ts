import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { basename } from 'node:path'

/*
 * Runs the command lines of the README and the guides without a shell and curl, which a machine that runs the tests may
 * not have: `curl …`, its answer piped into `node -p`, kept in a variable by `name=$(…)`, lines continued by a backslash.
 */

/** A command of a guide, with the answer printed below it, if there is one. */
export interface Command {
  readonly line: string
  readonly answer: string | null
}

const FENCES = /^```sh\n([\s\S]+?)\n```(?:\n\n```(?:json|csv|text)\n([\s\S]+?)\n```)?/gm

/** The commands of a guide, in order: those that ask the service, or others by how they begin. */
export function commandsIn(markdown: string, begins = /^(?:\w+=\$\()?curl /): Command[] {
  return [...markdown.matchAll(FENCES)]
    .map(([, line, answer]) => ({ line: line!, answer: answer ?? null }))
    .filter(({ line }) => begins.test(line))
}

/** Where the service is in the guides as they are written. */
const WRITTEN_ADDRESS = 'http://127.0.0.1:8080'

/** Runs commands one after the other against one service, as in one terminal; each gives what it prints. */
export function terminal(service: string): (line: string) => Promise<string> {
  const variables = new Map<string, string>()

  return async (line) => {
    const [, name, inside] = /^(\w+)=\$\(([\s\S]+)\)$/.exec(line) ?? []
    const printed = await run(inside ?? line)
    if (name === undefined) return printed
    variables.set(name, printed.trim())
    return ''
  }

  async function run(line: string): Promise<string> {
    const words = wordsOf(line, variables)
    const pipe = words.indexOf('|')
    const answer = await curl(words.slice(1, pipe === -1 ? undefined : pipe), service)
    if (pipe === -1) return answer
    const [program, option, expression, ...others] = words.slice(pipe + 1)
    if (program !== 'node' || option !== '-p' || others.length > 0) throw new Error(`this is not node -p: ${line}`)
    return execFileSync(process.execPath, ['-p', expression!], { input: answer, encoding: 'utf8' })
  }
}

/** An example file; its folder does not matter, as readers of the guides have fetched it. */
const exampleText = (path: string) =>
  readFileSync(new URL(`../../openapi/examples/${basename(path)}`, import.meta.url), 'utf8')

async function curl(words: readonly string[], service: string): Promise<string> {
  let url: string | undefined
  let method: string | undefined
  let body: string | undefined
  let saves = false
  let keeps = false
  const headers: Record<string, string> = {}
  for (let at = 0; at < words.length; at++) {
    const word = words[at]!
    if (word === '-s') continue
    if (word === '-sO') saves = true
    else if (word === '-o') keeps = at++ >= 0
    else if (word === '-X') method = words[++at]
    else if (word === '-H') {
      const [name, ...value] = words[++at]!.split(': ')
      headers[name!] = value.join(': ')
    } else if (word === '-d' || word === '--data-binary') {
      const sent = words[++at]!
      body = sent.startsWith('@') ? exampleText(sent.slice(1)) : sent
    } else if (word.startsWith(WRITTEN_ADDRESS)) url = word.replace(WRITTEN_ADDRESS, service)
    else throw new Error(`curl has no ${word} here`)
  }
  if (url === undefined) throw new Error('curl without an address')
  const response = await fetch(url, {
    method: method ?? (body === undefined ? 'GET' : 'POST'),
    headers,
    body: body ?? null,
  })
  if (keeps && !response.ok) throw new Error(`${url}: ${response.status} ${await response.text()}`)
  const text = await response.text()
  if (keeps) return ''
  if (!saves) return text.replaceAll('\r\n', '\n')
  if (text !== exampleText(url)) throw new Error(`${url} is not the example file`)
  return ''
}

/** A line as a shell splits it: quotes, `$name`, and `$(cat file)` in double quotes. */
function wordsOf(line: string, variables: ReadonlyMap<string, string>): string[] {
  const filled = (text: string) =>
    text
      .replace(/\$\(cat (\S+?)\)/g, (_, file: string) => exampleText(file))
      .replace(/\$(\w+)/g, (_, name: string) => variables.get(name) ?? unknown(name))
  const words: string[] = []
  const part = /'([^']*)'|"((?:\\.|[^"\\])*)"|([^\s'"]+)|(\s+)/g
  let word: string | null = null
  for (const [, single, double, bare, blank] of line.replace(/\\\n\s*/g, ' ').matchAll(part)) {
    if (blank !== undefined) {
      if (word !== null) words.push(word)
      word = null
    } else
      word = (word ?? '') + (single ?? (double === undefined ? filled(bare!) : filled(double.replace(/\\(.)/g, '$1'))))
  }
  return word === null ? words : [...words, word]
}

function unknown(name: string): never {
  throw new Error(`no command before has set ${name}`)
}
