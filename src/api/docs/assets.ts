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

const GUIDE = `body { font: 1.0625rem/1.55 system-ui, sans-serif; max-width: 52rem; margin: 1.5rem auto 4rem; padding: 0 1rem; color: #1d2721; }
h1 { line-height: 1.15; margin: 1rem 0 0.5rem; }
h2 { margin: 3rem 0 0.6rem; padding-top: 1rem; border-top: 1px solid #ccc; line-height: 1.2; }
h3 { margin: 1.6rem 0 0.4rem; }
a { color: #2c5a43; }
.lead { font-size: 1.2rem; }
.button { display: inline-block; background: #2c5a43; color: #fff; text-decoration: none; font-weight: 600; padding: 0.5rem 1rem; border-radius: 0.4rem; margin: 0 0.6rem 0.4rem 0; }
code, pre { font: 0.9375rem/1.45 ui-monospace, Consolas, Menlo, monospace; overflow-wrap: anywhere; }
pre { white-space: pre-wrap; background: #f4f2ea; border: 1px solid #d9d5c6; border-radius: 0.3rem; padding: 0.6rem 0.7rem; margin: 0.2rem 0 0.7rem; }
kbd { font: inherit; font-weight: 600; }
var { background: #fff3c4; padding: 0 0.2em; white-space: nowrap; }
dt { color: #525f57; }
dd { margin: 0 0 0.4rem; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: 0.4rem 0.8rem 0.4rem 0; border-bottom: 1px solid #ccc; }
.example { margin: 1rem 0; padding: 1rem 1rem 0.3rem; border: 1px solid #d9d5c6; border-radius: 0.5rem; }
.example dt { font-size: 0.9375rem; }
.sheet { width: auto; max-width: 100%; margin-bottom: 0.8rem; }
.sheet th, .sheet td { border: 1px solid #bbb; padding: 0.2rem 0.6rem; overflow-wrap: anywhere; }
.wide .sheet th, .wide .sheet td { overflow-wrap: normal; }
.sheet thead th, .sheet thead td, .sheet tbody th { background: #eee; text-align: center; font-weight: 400; color: #525f57; }
.sheet .typed { background: #fff3c4; }
output { font-weight: 600; overflow-wrap: anywhere; }
.cell { border-top: 1px solid #ddd; }
.cell p { margin: 0.3rem 0; }
.live a { overflow-wrap: anywhere; }
summary { cursor: pointer; padding: 0.3rem 0; }
li { margin: 0.3rem 0; }
`

const OWN: Readonly<Record<string, Asset>> = {
  'start.js': { type: JAVASCRIPT, content: START },
  'plain.css': { type: CSS, content: PLAIN },
  'guide.css': { type: CSS, content: GUIDE },
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
