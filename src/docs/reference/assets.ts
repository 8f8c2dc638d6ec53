import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

interface Asset {
  readonly type: string
  readonly content: string | Uint8Array<ArrayBuffer>
}

const JAVASCRIPT = 'text/javascript; charset=utf-8'

/** Files of the installed package swagger-ui-dist that are served; no other name reaches the disk. */
const PACKAGED: Readonly<Record<string, string>> = {
  'swagger-ui.css': 'text/css; charset=utf-8',
  'swagger-ui-bundle.js': JAVASCRIPT,
}

/** Swagger UI becomes dark by a class, the site by the reader's system setting. */
const START = `const dark = matchMedia('(prefers-color-scheme: dark)')
const follow = () => document.documentElement.classList.toggle('dark-mode', dark.matches)
dark.addEventListener('change', follow)
follow()
window.ui = SwaggerUIBundle({
  url: '/openapi.json',
  dom_id: '#reference',
  deepLinking: true,
  validatorUrl: null,
})
`

const read = new Map<string, Asset>([['start.js', { type: JAVASCRIPT, content: START }]])

/** A file of the reference by name; null when there is none. Files are read once. */
export async function readAsset(name: string): Promise<Asset | null> {
  const known = read.get(name)
  if (known) return known
  if (!Object.hasOwn(PACKAGED, name)) return null
  const folder = dirname(createRequire(import.meta.url).resolve('swagger-ui-dist/package.json'))
  const content = new Uint8Array(await readFile(join(folder, name)))
  const asset = { type: PACKAGED[name]!, content }
  read.set(name, asset)
  return asset
}
