import { COMMANDS, type Command } from './commands.ts'

/** What of the description of the interface help is made of. */
export interface Described {
  readonly paths: Readonly<Record<string, Readonly<Partial<Record<string, unknown>>>>>
  readonly components?: { readonly schemas?: Readonly<Record<string, unknown>> }
}

interface Operation {
  readonly summary: string
  readonly description: string
  readonly parameters?: readonly {
    readonly name: string
    readonly in: string
    readonly required?: boolean
    readonly description?: string
    readonly schema: Schema
  }[]
}

interface Schema {
  readonly $ref?: string
  readonly type?: string
  readonly enum?: readonly string[]
  readonly items?: Schema
}

const WIDTH = 100

/** How the program is used, with all commands. */
export function helpOfAll(document: Described): string {
  const names = Object.keys(COMMANDS) as (keyof typeof COMMANDS)[]
  const lines = names.map((name) => `  ${name.padEnd(19)}${operationOf(document, COMMANDS[name]).summary}`)
  return `Works out track for garden railways, without a service. The same words as its interface.

  longchord COMMAND [FILE] [--name value ...]

${lines.join('\n')}

FILE is what the interface is sent: mostly a plan in JSON; an estimate also reads a track as CSV, XLSX or ODS.
Without a file, or with -, standard input is read. The last s of a command may be left out.

  --out FILE           writes the answer there instead of to standard output
  --content-type TYPE  what the input is, where the name of its file does not say it
  --help               after a command: its options, which are the parameters of the interface
  --version            the version of this program

It ends with 0 if there is an answer, 1 if what was sent has faults, 2 if the command line has.

  longchord estimate plan.json --fields bill
  longchord drawings plan.json --file plan.dxf --out plan.dxf
  longchord sheets plan.json --for saw,bench --paper letter --out sheets.pdf
  longchord bends --diameter 18ft --section 250 --material brass
`
}

/** One command: what it does, and its options. */
export function helpOf(name: keyof typeof COMMANDS, document: Described): string {
  const command: Command = COMMANDS[name]
  const { summary, description, parameters = [] } = operationOf(document, command)
  const options = parameters.filter((each) => each.in !== 'header' && each.name !== 'refresh')
  const lines = options.map(({ name: option, description: says = '', required, schema }) => {
    const values = valuesOf(schema, document)
    const isLong = values.length > 60
    const about = [says, isLong ? `One of ${values.replaceAll('|', ', ')}.` : '', required ? 'Required.' : '']
    const text = about.filter((each) => each !== '').join(' ')
    return `  --${option} ${isLong ? 'NAME' : values}${text === '' ? '' : `\n${wrapped(text, '      ')}`}`
  })
  return `longchord ${name}${command.method === 'post' ? ' [FILE]' : ''} [--name value ...]

${wrapped(`${summary}. ${description}`, '')}
${lines.length === 0 ? '\nIt has no options of its own.\n' : `\n${lines.join('\n')}\n`}`
}

function operationOf({ paths }: Described, { method, path }: Command): Operation {
  return paths[path]![method] as Operation
}

/** What may stand after an option. */
function valuesOf(schema: Schema, document: Described): string {
  if (schema.$ref !== undefined)
    return valuesOf(document.components!.schemas![schema.$ref.split('/').at(-1)!] as Schema, document)
  if (schema.items !== undefined) return valuesOf(schema.items, document)
  if (schema.enum !== undefined) return schema.enum.join('|')
  return schema.type === 'integer' || schema.type === 'number' ? 'NUMBER' : 'TEXT'
}

function wrapped(text: string, indent: string): string {
  const paragraphs = text.replaceAll('`', '').split('\n\n')
  return paragraphs
    .map((paragraph) => {
      const lines: string[] = []
      for (const word of paragraph.split(/\s+/)) {
        const last = lines.at(-1)
        if (last === undefined || last.length + 1 + word.length > WIDTH) lines.push(`${indent}${word}`)
        else lines[lines.length - 1] = `${last} ${word}`
      }
      return lines.join('\n')
    })
    .join('\n\n')
}
