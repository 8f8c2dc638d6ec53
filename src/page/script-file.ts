import { createHash } from 'node:crypto'
import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { fileURLToPath } from 'node:url'

/** The page's only script. The build puts it beside the bundle; where the sources run it is bundled when they start. */
export const SCRIPT = built() ?? bundled()

const hash = createHash('sha256').update(SCRIPT).digest('hex').slice(0, 12)

/** The name has a hash of the content, so that browsers can cache it permanently. */
export const SCRIPT_PATH = `/longchord-${hash}.js`

function built(): string | null {
  const file = new URL('page-script.js', import.meta.url)
  return existsSync(file) ? readFileSync(file, 'utf8') : null
}

function bundled(): string {
  const { buildSync } = createRequire(import.meta.url)('esbuild') as typeof import('esbuild')
  const entry = fileURLToPath(new URL('script/main.ts', import.meta.url))
  const how = JSON.parse(readFileSync(new URL('script/bundling.json', import.meta.url), 'utf8'))
  const { outputFiles } = buildSync({ ...how, entryPoints: [entry], write: false })
  return outputFiles![0]!.text
}
