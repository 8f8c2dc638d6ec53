import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'

/** The page's only style sheet; the build puts a copy of it beside the bundle. */
export const STYLESHEET = readFileSync(new URL('style.css', import.meta.url), 'utf8')

const hash = createHash('sha256').update(STYLESHEET).digest('hex').slice(0, 12)

/** The name has a hash of the content, so that browsers can cache it permanently. */
export const STYLESHEET_PATH = `/longchord-${hash}.css`
