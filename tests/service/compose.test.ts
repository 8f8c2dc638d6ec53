import { execFile } from 'node:child_process'
import { cpSync, existsSync, mkdirSync, readFileSync, symlinkSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { promisify } from 'node:util'
import { describe, expect, onTestFinished, test } from 'vitest'
import { parse } from 'yaml'
import { type DatabaseKind, serverKinds } from '../servers/databases.ts'
import { newFolder, running, thoroughCut } from './running.ts'

const run = promisify(execFile)
const top = new URL('../../', import.meta.url).pathname
const text = readFileSync(join(top, 'docker-compose.yml'), 'utf8')

interface Service {
  readonly build?: { readonly dockerfile_inline: string }
  readonly image?: string
  readonly environment: Readonly<Record<string, string>>
  readonly healthcheck: { readonly test: readonly unknown[] }
  readonly depends_on?: Readonly<Record<string, { readonly condition: string }>>
  readonly ports?: readonly string[]
  readonly volumes?: readonly string[]
  readonly restart: string
}

const { services, volumes } = parse(text) as {
  services: { longchord: Service; database: Service }
  volumes: Record<string, unknown>
}

interface Stage {
  readonly lines: readonly string[]
}

function stages(dockerfile: string): Stage[] {
  const lines = dockerfile.split('\n').filter((line) => line.trim() !== '' && !line.startsWith('#'))
  const starts = lines.flatMap((line, index) => (line.startsWith('FROM ') ? [index] : []))
  return starts.map((start, n) => ({ lines: lines.slice(start + 1, starts[n + 1]) }))
}

/** Does what a stage's COPY lines do, into a folder of its own; the installed packages stand in for `npm ci`. */
function copied({ lines }: Stage, earlier: string | null): string {
  const folder = newFolder()
  for (const line of lines.filter((each) => each.startsWith('COPY '))) {
    const words = line.split(' ').slice(1)
    const origin = words[0]!.startsWith('--from=') ? earlier! : top
    const paths = words.filter((word) => !word.startsWith('--'))
    const destination = paths.pop()!
    for (const path of paths) {
      const source = join(origin, path.replace(/^\/app\//, ''))
      const target = destination.endsWith('/') ? join(folder, destination, path) : join(folder, destination)
      mkdirSync(dirname(target), { recursive: true })
      cpSync(source, target, { recursive: true })
    }
  }
  symlinkSync(join(top, 'node_modules'), join(folder, 'node_modules'))
  return folder
}

describe('docker-compose.yml', () => {
  test('runs the service, not as root, beside a database whose data outlive it, as the backups do', () => {
    expect(Object.keys(services)).toEqual(['longchord', 'database'])
    expect(services.longchord.build!.dockerfile_inline).toMatch(/^USER node$/m)
    expect(services.longchord.depends_on).toEqual({ database: { condition: 'service_healthy' } })
    expect(services.longchord.ports).toEqual([expect.stringMatching(/^127\.0\.0\.1:.*:8080$/)])
    expect(services.database.image).toBe('postgres:18')
    const [volume] = services.database.volumes!
    expect(volume).toMatch(/^[a-z]+:\/var\/lib\/postgresql$/)
    expect(services.longchord.volumes).toEqual([`backups:${services.longchord.environment.BACKUP_DIR}`])
    expect(Object.keys(volumes)).toEqual(['backups', volume!.split(':')[0]])
    for (const service of Object.values(services)) {
      expect(service.restart).toBe('unless-stopped')
      expect(service.healthcheck.test.length).toBeGreaterThan(1)
      for (const word of service.healthcheck.test) expect(word).toBeTypeOf('string')
    }
  })

  test('has one password, which must be given to start it', () => {
    const asked = services.longchord.environment.PGPASSWORD
    expect(asked).toMatch(/^\$\{LONGCHORD_DB_PASSWORD:\?[^}]+\}$/)
    expect(services.database.environment.POSTGRES_PASSWORD).toBe(asked)
    const url = new URL(services.longchord.environment.DATABASE_URL!)
    expect([url.username, url.password, url.hostname]).toEqual(['longchord', '', 'database'])
    expect(url.pathname).toBe(`/${services.database.environment.POSTGRES_DB}`)
    expect(url.username).toBe(services.database.environment.POSTGRES_USER)
  })

  test.for(serverKinds().slice(0, 1) satisfies DatabaseKind[])(
    'builds and runs from the files it copies, on $name',
    async (kind) => {
      const [building, final, ...others] = stages(services.longchord.build!.dockerfile_inline)
      expect(others).toEqual([])
      const built = copied(building!, null)
      expect(building!.lines.at(-1)).toBe('RUN npm run build')
      await run('npm', ['run', 'build'], { cwd: built })

      const image = copied(final!, built)
      const command = JSON.parse(final!.lines.at(-1)!.replace(/^CMD /, '')) as string[]
      expect(command).toEqual(['node', 'dist/main.js'])
      expect(existsSync(join(image, 'src'))).toBe(false)
      const database = await kind.make()
      onTestFinished(database.dispose)
      const url = new URL(database.place.databaseUrl!)
      const { password } = url
      url.password = ''
      const main = join(image, command[1]!)
      const service = await running({ DATABASE_URL: url.href, PGPASSWORD: password }, [process.execPath, main])
      for (const path of ['/', '/docs', '/docs/plans', '/docs/changes', '/docs/docs.css', '/openapi.json'])
        expect((await fetch(service.url + path)).status).toBe(200)
      expect(await thoroughCut(service.url)).toBe(200)

      const [kindOfTest, program, flag, script] = services.longchord.healthcheck.test as string[]
      expect([kindOfTest, program, flag]).toEqual(['CMD', 'node', '-e'])
      const check = () => run(process.execPath, ['-e', script!.replace(':8080/', `:${service.port}/`)])
      await check()
      service.child.kill('SIGTERM')
      expect(await service.ended).toMatchObject({ code: 0 })
      await expect(check()).rejects.toMatchObject({ code: 1 })
    },
  )
})
