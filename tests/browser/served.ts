import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll } from 'vitest'
import { createApp } from '../../src/app.ts'
import { openStore } from '../../src/projects/open-store.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { type Serving, serve } from '../../src/serving.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { launchChromium } from './chromium.ts'

/** A service with an empty store, and a browser, for the tests of one file. To be read once these run. */
interface Served {
  store: ProjectStore
  serving: Serving
  browser: Browser
}

export function served(): Readonly<Served> {
  const here = {} as Served
  let folder: string

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'longchord-browser-'))
    here.store = await openStore({ databaseUrl: null, dataDir: join(folder, 'data') }, { onProgress: () => {} })
    here.serving = await serve(createApp({ store: here.store, workers: inThisThread }), { host: '127.0.0.1', port: 0 })
    here.browser = await launchChromium()
  }, 60_000)

  afterAll(async () => {
    await here.browser?.close()
    await here.serving.drain()
    await here.store.close()
    await rm(folder, { recursive: true })
  })

  return here
}
