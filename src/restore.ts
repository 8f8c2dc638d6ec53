import { existsSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { readConfig } from './config.ts'
import { BackupFolder } from './projects/backups/backup-folder.ts'
import type { Imported } from './projects/everything-types.ts'
import { openStore, type StorePlace } from './projects/open-store.ts'
import { type RestoreFault, restoreFile } from './projects/restoring.ts'
import { StartFault } from './projects/start-fault.ts'

const USAGE = `Puts a backup back.

    npm run restore -- FILE [--into PLACE] [--dry-run] [--replace]

FILE        a backup, an export, or a journal.jsonl, also of an earlier version
--into      the folder of an embedded database, or the URL of a PostgreSQL server;
            without it, what DATA_DIR or DATABASE_URL says
--dry-run   only says what would change
--replace   allows projects that are there to be replaced; a backup of them is made before
`

/** Where to restore to, and where what is there is kept before; null for nowhere. */
interface Target {
  readonly place: StorePlace
  readonly called: string
  readonly backups: { readonly folder: string; readonly mostBytes: number } | null
}

function targetOf(into: string | undefined): Target {
  const read = readConfig(process.env)
  if ('faults' in read) throw new StartFault(`wrong settings in the environment: ${read.faults.join('; ')}.`)
  const { databaseUrl, dataDir, backups } = read.config
  if (into === undefined)
    return {
      place: { databaseUrl, dataDir },
      called: databaseUrl === null ? `the folder ${dataDir}` : 'the PostgreSQL server of DATABASE_URL',
      backups,
    }
  if (!/^postgres(ql)?:/.test(into))
    return {
      place: { databaseUrl: null, dataDir: into },
      called: `the folder ${into}`,
      backups: backups && { ...backups, folder: join(into, 'backups') },
    }
  const given = readConfig({ DATABASE_URL: into })
  if ('faults' in given) throw new StartFault(`--into: ${given.faults.join('; ')}.`)
  return { place: { databaseUrl: into, dataDir }, called: 'that PostgreSQL server', backups }
}

async function run(): Promise<number> {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      into: { type: 'string' },
      'dry-run': { type: 'boolean', default: false },
      replace: { type: 'boolean', default: false },
      help: { type: 'boolean', default: false },
    },
  })
  const [file, ...more] = positionals
  if (values.help || file === undefined || more.length > 0) {
    process.stdout.write(USAGE)
    return values.help ? 0 : 2
  }
  if (!existsSync(file)) throw new StartFault(`there is no file ${file}.`)
  const how = { dryRun: values['dry-run'], replace: values.replace || values['dry-run'] }
  const target = targetOf(values.into)
  return withPlace(target, how.dryRun, async (place) => {
    const store = await openStore(place, { onProgress: (line) => process.stdout.write(`${line}\n`) })
    try {
      if (values.replace && !how.dryRun && target.backups !== null) {
        const kept = new BackupFolder(target.backups.folder, target.backups.mostBytes)
        await kept.add((write) => store.copyTo(write), new Date(), [file])
        process.stdout.write(`What was there is kept in ${target.backups.folder}.\n`)
      }
      const result = await restoreFile(store, file, how)
      const isDone = !('kind' in result)
      process.stdout.write(isDone ? report(result, target, how.dryRun, values.replace) : `${refusal(result)}\n`)
      return isDone ? 0 : 1
    } finally {
      await store.close()
    }
  })
}

/** A dry run makes no new database: where there is none, it looks at an empty one elsewhere. */
async function withPlace<T>({ place }: Target, dryRun: boolean, work: (place: StorePlace) => Promise<T>): Promise<T> {
  const isMissing = place.databaseUrl === null && !existsSync(join(place.dataDir, 'journal.jsonl'))
  if (!dryRun || !isMissing || existsSync(join(place.dataDir, 'database'))) return work(place)
  const dataDir = await mkdtemp(join(tmpdir(), 'longchord-dry-run-'))
  try {
    return await work({ databaseUrl: null, dataDir })
  } finally {
    await rm(dataDir, { recursive: true, force: true })
  }
}

function report(result: Imported, { called }: Target, dryRun: boolean, replace: boolean): string {
  const { projects, revisions, rows, replacedProjects, changes } = result
  const lines = [
    `${dryRun ? 'This would put' : 'Put'} ${counted(projects, 'project')} with ${counted(revisions, 'revision')}, ${counted(rows, 'row')} in all, into ${called}.`,
  ]
  for (const change of ['added', 'changed', 'removed'] as const)
    for (const { name, id } of changes.filter((each) => each.change === change))
      lines.push(`  ${change}: ${printable(name)} (${id})`)
  if (changes.length === 0) lines.push('  No project differs.')
  if (dryRun) lines.push('Nothing was changed.')
  if (dryRun && replacedProjects > 0 && !replace)
    lines.push(`There is something already (${counted(replacedProjects, 'project')}), so --replace will be needed.`)
  return `${lines.join('\n')}\n`
}

function counted(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? '' : 's'}`
}

function printable(name: string): string {
  return name.replace(/[\p{Cc}\p{Cf}\u2028\u2029]/gu, '?')
}

function refusal(fault: RestoreFault): string {
  switch (fault.kind) {
    case 'not-empty':
      return `There is something already (${counted(fault.projects, 'project')}), which would be removed. Nothing was changed. Look with --dry-run, then add --replace.`
    case 'cut-off':
      return 'The end of the file is missing: it was not copied completely. Nothing was changed.'
    case 'newer-version':
    case 'other-version':
      return 'The file is of a newer version of Longchord. Nothing was changed. Restore it with that version.'
    case 'not-an-export':
      return `Line ${fault.line} of the file is damaged, or the file is something else. Nothing was changed.`
  }
}

try {
  process.exitCode = await run()
} catch (error) {
  const isUsage = (error as NodeJS.ErrnoException).code?.startsWith('ERR_PARSE_ARGS')
  process.stderr.write(`Longchord cannot restore: ${(error as Error).message}\n${isUsage ? `\n${USAGE}` : ''}`)
  process.exitCode = isUsage ? 2 : 1
}
