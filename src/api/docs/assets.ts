import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

interface Asset {
  readonly type: string
  readonly content: string | Uint8Array<ArrayBuffer>
}

const JAVASCRIPT = 'text/javascript; charset=utf-8'
const CSS = 'text/css; charset=utf-8'

/** Files of the installed package swagger-ui-dist that are served; no other name reaches the disk. */
const PACKAGED: Readonly<Record<string, string>> = {
  'swagger-ui.css': CSS,
  'swagger-ui-bundle.js': JAVASCRIPT,
}

const START = `window.ui = SwaggerUIBundle({
  url: 'openapi.json',
  dom_id: '#reference',
  deepLinking: true,
  validatorUrl: null,
})
`

const PLAIN = `body { font: 1rem/1.5 system-ui, sans-serif; max-width: 60rem; margin: 2rem auto; padding: 0 1rem; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: 0.4rem 0.8rem 0.4rem 0; border-bottom: 1px solid #ccc; }
tr:target { background: #fff3c4; }
`

const OWN: Readonly<Record<string, Asset>> = {
  'start.js': { type: JAVASCRIPT, content: START },
  'plain.css': { type: CSS, content: PLAIN },
}

const read = new Map<string, Asset>()

/** A file of the documentation screens by name; null when there is none. Files are read once. */
export async function readAsset(name: string): Promise<Asset | null> {
  if (Object.hasOwn(OWN, name)) return OWN[name]!
  if (!Object.hasOwn(PACKAGED, name)) return null
  const known = read.get(name)
  if (known) return known
  const folder = dirname(createRequire(import.meta.url).resolve('swagger-ui-dist/package.json'))
  const content = new Uint8Array(await readFile(join(folder, name)))
  const asset = { type: PACKAGED[name]!, content }
  read.set(name, asset)
  return asset
}
