import { existsSync, readFileSync } from 'node:fs'

/*
 * Texts that are read at run time. This module runs from `src/docs/` or, bundled, from `dist/`, where the build puts a copy
 * of them (src/build.mjs).
 */

const here = new URL('./', import.meta.url)
const bundled = existsSync(new URL('docs/pages/', here))

const PAGES = new URL(bundled ? 'docs/pages/' : 'pages/', here)
const STYLE = new URL(bundled ? 'docs/docs.css' : 'docs.css', here)
const CHANGES = new URL(bundled ? 'docs/CHANGELOG.md' : '../../openapi/CHANGELOG.md', here)
const EXAMPLES = new URL(bundled ? 'docs/examples/' : '../../openapi/examples/', here)

const EXAMPLE_NAME = /^[a-z-]+\.(?:json|csv|xlsx|ods)$/

/** The Markdown of a guide. */
export function guideSource(name: string): string {
  return readFileSync(name === 'changes' ? CHANGES : new URL(`${name}.md`, PAGES), 'utf8')
}

export function docsStyle(): string {
  return readFileSync(STYLE, 'utf8')
}

/** A file of `openapi/examples/`; null when there is none of that name. */
export function exampleFile(name: string): Uint8Array<ArrayBuffer> | null {
  const file = new URL(name, EXAMPLES)
  return EXAMPLE_NAME.test(name) && existsSync(file) ? new Uint8Array(readFileSync(file)) : null
}
