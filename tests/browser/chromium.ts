import { accessSync, constants } from 'node:fs'
import { delimiter, join } from 'node:path'
import { type Browser, chromium } from 'playwright-core'

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome']

/** The Chromium on this machine; null when there is none on the PATH. */
export function chromiumPath(): string | null {
  const folders = (process.env.PATH ?? '').split(delimiter).filter(Boolean)
  return NAMES.flatMap((name) => folders.map((folder) => join(folder, name))).find(isExecutable) ?? null
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK)
    return true
  } catch {
    return false
  }
}

/** A Chromium with a fresh profile that calls nobody but the pages it is sent to. */
export async function launchChromium(): Promise<Browser> {
  const executablePath = chromiumPath()
  if (executablePath === null) throw new Error('these tests need Chromium: install it, or put it on the PATH')
  return chromium.launch({
    executablePath,
    headless: true,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  })
}
