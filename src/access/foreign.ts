import type { OwnHosts } from './hosts.ts'
import { SIGN_IN_PATH } from './sign-in.ts'

/** What a browser says about where a request comes from; other clients say nothing of it. */
export interface Provenance {
  readonly method: string
  /** The address that was asked for. */
  readonly url: URL
  readonly contentType: string | undefined
  readonly origin: string | undefined
  /** Sec-Fetch-Site, -Mode and -Dest (Fetch Metadata Request Headers, W3C working draft). */
  readonly fetchSite: string | undefined
  readonly fetchMode: string | undefined
  readonly fetchDest: string | undefined
}

const READING = new Set(['GET', 'HEAD', 'OPTIONS'])

/** What a form can be sent as without asking the service first. */
const FORM = /^(application\/x-www-form-urlencoded|multipart\/form-data|text\/plain)\b/i

/**
 * Whether a page of another site is behind a request. Its links to the page may be followed; it may neither change
 * anything nor read the interface, which would cost work even though the browser hides the answer.
 */
export function isForeign(request: Provenance, hosts: OwnHosts): boolean {
  const { method, url, contentType, origin, fetchSite, fetchMode, fetchDest } = request
  const followsLink = fetchMode === 'navigate' && fetchDest === 'document' && !url.pathname.startsWith('/v1/')
  if (READING.has(method) && followsLink) return false
  const named = origin !== undefined && origin !== 'null' && URL.canParse(origin) ? new URL(origin) : null
  if (named !== null && hosts.added(named.hostname)) return false
  if (fetchSite !== undefined && fetchSite !== 'same-origin' && fetchSite !== 'none') return true
  if (named !== null) return !isOwnOrigin(named, url)
  if (fetchSite !== undefined) return false
  return origin !== undefined || (method === 'POST' && FORM.test(contentType ?? '') && !namesNoOrigin(url.pathname))
}

/** Programs name no origin, and their requests are for the interface; browsers always name that of a posted form. */
function namesNoOrigin(path: string): boolean {
  return path.startsWith('/v1/') || path === SIGN_IN_PATH
}

const LOOPBACK = ['localhost', '127.0.0.1', '[::1]']

/** The scheme is not compared, because a proxy may add TLS. */
function isOwnOrigin(origin: URL, url: URL): boolean {
  if (origin.host === url.host) return true
  return origin.port === url.port && LOOPBACK.includes(origin.hostname) && LOOPBACK.includes(url.hostname)
}
