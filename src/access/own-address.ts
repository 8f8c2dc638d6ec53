import type { Context } from 'hono'

/** A name, an IPv4 address, or an IPv6 address in brackets, with or without a port: nothing that could end a text in a formula. */
const HOST = /^(?:\w(?:[\w.-]*\w)?|\[[\da-f:.]+\])(?::\d{1,5})?$/

/**
 * The address of this service as the client sees it, e.g. `http://127.0.0.1:8080`, without a slash at the end; null if the
 * Host of the request is not the name of a machine. A proxy that uses TLS sets X-Forwarded-Proto.
 */
export function ownAddress(c: Context): string | null {
  const { host } = new URL(c.req.url)
  if (!HOST.test(host)) return null
  return `${c.req.header('x-forwarded-proto') === 'https' ? 'https' : 'http'}://${host}`
}

/** From where an address can be reached, as far as it shows; private addresses are those of RFC 1918. */
export function reachableFrom(address: string): 'this computer' | 'this network' | 'anywhere' {
  const { hostname } = new URL(address)
  if (/^127\.|^\[::1\]$|^(.*\.)?localhost$/.test(hostname)) return 'this computer'
  if (/^10\.|^192\.168\.|^172\.(1[6-9]|2\d|3[01])\.|^\[f[cde]|\.local$/.test(hostname) || /^[\w-]+$/.test(hostname))
    return 'this network'
  return 'anywhere'
}
