import { type ChildProcess, spawn, spawnSync } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import { accessSync, constants, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import { createInterface } from 'node:readline'
import { pathToFileURL } from 'node:url'

const SCRIPT = new URL('office.py', import.meta.url).pathname

/** What these tests need of the machine. */
export interface Programs {
  readonly soffice: string
  /** A Python that can talk to the office. */
  readonly python: string
}

export type CellRead =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'text' | 'error'; readonly value: string }

/** What stands in a cell, as it is shown. */
export interface CellShown {
  readonly kind: CellRead['kind']
  readonly value: string
}

/** By sheet, then by address such as `B4`; empty cells are left out. */
export type Sheets<Cell = CellRead> = Readonly<Record<string, Readonly<Record<string, Cell>>>>

export type Locale = 'en-US' | 'de-DE' | 'fr-FR' | 'sv-SE'

export interface Opened {
  /** A document to open; a new one without. */
  readonly file?: string
  /** What the office is set to: decides decimal sign and separator of arguments. */
  readonly locale?: Locale
  /** What is typed in, as a person would; `Sheet.B4`, or `B4` of the first sheet. */
  readonly enter?: readonly (readonly [cell: string, content: string | number])[]
  /** A table to link at a cell, with the options of LibreOffice's CSV filter. */
  readonly link?: { readonly cell: string; readonly address: string; readonly options: string }
}

export interface Office {
  /** A folder whose documents may fetch from the network when they are opened. */
  readonly trusted: string
  /** A folder whose documents may not. */
  readonly untrusted: string
  /** Opens, types, calculates everything, reads every cell, and closes without saving. */
  read(opened: Opened): Promise<Sheets>
  /** The same, but every cell as it is shown. */
  show(opened: Opened): Promise<Sheets<CellShown>>
  /** Of each row, by its number, how much higher it is than what it holds, in hundredths of a millimetre. */
  spareHeights(opened: Opened): Promise<Sheets>
  close(): Promise<void>
}

/** LibreOffice and a Python that knows it; null when this machine lacks either. */
export function officePrograms(): Programs | null {
  const soffice = onPath('soffice')
  if (soffice === null) return null
  const python = [onPath('python3'), '/usr/bin/python3'].find(
    (path) => path !== null && spawnSync(path, ['-c', 'import uno']).status === 0,
  )
  return python ? { soffice, python } : null
}

function onPath(name: string): string | null {
  const folders = (process.env.PATH ?? '').split(delimiter).filter(Boolean)
  return folders.map((folder) => join(folder, name)).find(isExecutable) ?? null
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK)
    return true
  } catch {
    return false
  }
}

/** An office without windows and with a profile of its own. */
export function startOffice(): Office {
  const programs = officePrograms()
  if (programs === null)
    throw new Error('these tests need LibreOffice Calc and its Python bridge: install libreoffice-calc and python3-uno')
  const scratch = mkdtempSync(join(tmpdir(), 'longchord-office-'))
  const folder = (name: string) => {
    const path = join(scratch, name)
    mkdirSync(path, { recursive: true })
    return path
  }
  const [profile, trusted, untrusted] = [folder('profile'), folder('trusted'), folder('untrusted')]
  writeFileSync(join(folder('profile/user'), 'registrymodifications.xcu'), trusting(trusted))
  const pipe = `longchord-${randomUUID()}`
  const env = { PATH: process.env.PATH!, HOME: profile, LC_ALL: 'C.UTF-8' }
  const office = spawn(
    programs.soffice,
    [
      `-env:UserInstallation=${pathToFileURL(profile)}`,
      '--headless',
      '--norestore',
      '--nologo',
      '--nodefault',
      `--accept=pipe,name=${pipe};urp;`,
    ],
    { env, stdio: 'ignore', detached: true },
  )
  const reader = spawn(programs.python, [SCRIPT, pipe], { env, stdio: ['pipe', 'pipe', 'inherit'] })
  const answers = createInterface({ input: reader.stdout })[Symbol.asyncIterator]()
  let before: Promise<unknown> = Promise.resolve()

  async function ask<Cell>(request: object): Promise<Sheets<Cell>> {
    reader.stdin.write(`${JSON.stringify(request)}\n`)
    const { value, done } = await answers.next()
    if (done === true) throw new Error('the office has ended')
    const answer = JSON.parse(value) as { sheets: Sheets<Cell> } | { failed: string }
    if ('failed' in answer) throw new Error(`the office failed: ${answer.failed}`)
    return answer.sheets
  }

  function inTurn<Cell>(
    { file, locale = 'en-US', enter = [], link }: Opened,
    tell: 'values' | 'shown' | 'heights',
  ): Promise<Sheets<Cell>> {
    const request = { file: file ?? null, locale, enter, link: link ?? null, tell }
    const answer = before.then(() => ask<Cell>(request))
    before = answer.catch(() => {})
    return answer
  }

  return {
    trusted,
    untrusted,
    read: (opened) => inTurn<CellRead>(opened, 'values'),
    show: (opened) => inTurn<CellShown>(opened, 'shown'),
    spareHeights: (opened) => inTurn<CellRead>(opened, 'heights'),
    async close() {
      reader.stdin.end()
      await Promise.all([ended(reader), ended(office)])
      rmSync(scratch, { recursive: true, force: true })
    },
  }
}

/** What Tools ▸ Options ▸ LibreOffice ▸ Security ▸ Macro Security ▸ Trusted Sources ▸ Trusted File Locations writes. */
function trusting(folder: string): string {
  return `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Common/Security/Scripting"><prop oor:name="SecureURL" oor:op="fuse"><value><it>${pathToFileURL(folder)}</it></value></prop></item>
</oor:items>
`
}

/** Resolves when the process has ended; one that does not end by itself within ten seconds is ended. */
function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return Promise.resolve()
  return new Promise((resolve) => {
    const tooLong = setTimeout(() => child.kill('SIGKILL'), 10_000)
    child.once('exit', () => {
      clearTimeout(tooLong)
      resolve()
    })
  })
}
