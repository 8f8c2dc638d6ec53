import { COMMANDS, commandOf } from './commands.ts'

/** What was typed after the name of the program. */
export interface Typed {
  readonly command: keyof typeof COMMANDS | null
  /** The file that is read; null for standard input. */
  readonly input: string | null
  /** Where the answer is written; null for standard output. */
  readonly out: string | null
  /** Of the input, where its name does not say it. */
  readonly contentType: string | null
  readonly wants: 'answer' | 'help' | 'version'
  /** All others, in order: they are the parameters of the interface. */
  readonly options: readonly (readonly [name: string, value: string])[]
}

type Read = { readonly ok: true; readonly typed: Typed } | { readonly ok: false; readonly faults: readonly string[] }

/** The options of the command line itself. */
const OWN = ['out', 'content-type'] as const

/** Reads `COMMAND [FILE] [--name value | --name=value]…`, with every fault in it. */
export function readArguments(words: readonly string[]): Read {
  const faults: string[] = []
  const plain: string[] = []
  const options: [string, string][] = []
  let wants: Typed['wants'] = 'answer'
  for (let at = 0; at < words.length; at++) {
    const word = words[at]!
    if (word === '--help' || word === '-h') wants = 'help'
    else if (word === '--version') wants = 'version'
    else if (/^--./.test(word)) {
      const [, name, glued] = /^--([^=]*)(?:=(.*))?$/s.exec(word)!
      const value = glued ?? words[++at]
      if (value === undefined) faults.push(`--${name} has no value: write --${name} VALUE`)
      else options.push([name!, value])
    } else if (/^-./.test(word)) faults.push(`${word} is no option: options begin with two dashes`)
    else plain.push(word)
  }
  const [first, input, ...more] = plain
  const command = first === undefined ? null : commandOf(first)
  if (first === undefined && wants === 'answer') faults.push('no command is given')
  if (first !== undefined && command === null)
    faults.push(`${first} is no command: there are ${Object.keys(COMMANDS).join(', ')}`)
  if (more.length > 0) faults.push(`one file is read, not ${more.length + 1}: leave out ${more.join(', ')}`)
  for (const name of OWN)
    if (options.filter(([each]) => each === name).length > 1) faults.push(`--${name} is given twice: give it once`)
  if (faults.length > 0) return { ok: false, faults }
  const own = (name: (typeof OWN)[number]) => options.find(([each]) => each === name)?.[1] ?? null
  return {
    ok: true,
    typed: {
      command,
      input: input === undefined || input === '-' ? null : input,
      out: own('out'),
      contentType: own('content-type'),
      wants,
      options: options.filter(([name]) => !OWN.includes(name as never)),
    },
  }
}
