import { isCalculation } from './calculations.ts'
import { isForeign, type Provenance } from './foreign.ts'
import { OwnHosts } from './hosts.ts'
import { AccessKey } from './key.ts'
import { WrongKeys } from './wrong-keys.ts'

export interface AccessSettings {
  /** Names in `Host` and `Origin` beside the loopback ones. */
  readonly allowedHosts: readonly string[]
  /** Without a key everyone who reaches the service may use it. */
  readonly accessKey: string | null
  /** Origins such as `https://railway.example` whose pages may calculate, but not reach stored data. */
  readonly calculationOrigins: readonly string[]
}

export interface AccessRequest extends Provenance {
  /** The `Host` header, with a port or without. */
  readonly host: string | undefined
  readonly authorization: string | undefined
  /** The value of the session cookie. */
  readonly session: string | undefined
  /** Where the connection comes from and where it arrived, if it came over a network. */
  readonly remoteAddress: string | undefined
  readonly localAddress: string | undefined
}

export type AccessRefusal =
  | { readonly kind: 'unknown-host' | 'foreign-request' | 'key-required'; readonly detail: string }
  | { readonly kind: 'too-many-wrong-keys'; readonly detail: string; readonly retryAfterS: number }

/** Whether the process and its database are up is no secret; the pages for signing in need their style and script. */
const OPEN_PATHS = /^\/(livez|readyz|sign-in|longchord-[\w-]+\.(?:css|js))$/

const UNKNOWN: AccessRefusal = {
  kind: 'unknown-host',
  detail: 'The name in the address is not one of this service. Its operator can add the name to ALLOWED_HOSTS.',
}
const FOREIGN: AccessRefusal = {
  kind: 'foreign-request',
  detail: 'The request comes from a page of another site.',
}
const NO_KEY: AccessRefusal = {
  kind: 'key-required',
  detail: 'Send the access key of this service as “Authorization: Bearer …”, or sign in with it on the page.',
}
const WRONG_KEY: AccessRefusal = { kind: 'key-required', detail: 'This is not the access key of this service.' }

/** Decides who may use the service. */
export class AccessGuard {
  private readonly hosts: OwnHosts
  private readonly key: AccessKey | null
  private readonly origins: ReadonlySet<string>
  private readonly wrongKeys = new WrongKeys()
  private readonly now: () => number

  constructor({ allowedHosts, accessKey, calculationOrigins }: AccessSettings, now: () => number = Date.now) {
    this.hosts = new OwnHosts(allowedHosts)
    this.key = accessKey === null ? null : new AccessKey(accessKey)
    this.origins = new Set(calculationOrigins)
    this.now = now
  }

  /** Why a request may not be answered; null if it may. Counts a wrong key. */
  refusal(request: AccessRequest): AccessRefusal | null {
    return this.refusalByAddress(request) ?? this.refusalByKey(request)
  }

  /** Whether a request may be answered, without counting a wrong key. */
  admits(request: AccessRequest): boolean {
    if (this.refusalByAddress(request) !== null) return false
    return this.key === null || request.authorization === undefined ? this.refusalByKey(request) === null : false
  }

  /** The origin that may read the answer to this request beside the service's own pages; null for none. */
  foreignReader({ origin, url }: Provenance): string | null {
    return origin !== undefined && this.origins.has(origin) && isCalculation(url.pathname) ? origin : null
  }

  /** A new session for whoever has the key, or why there is none. */
  signIn(key: string, remoteAddress: string | undefined): { readonly session: string } | AccessRefusal {
    if (this.key === null) return { kind: 'key-required', detail: 'This service has no access key.' }
    const refusal = this.refusalOfKey(this.key, key, remoteAddress)
    return refusal ?? { session: this.key.newSession(this.now()) }
  }

  private refusalByAddress(request: AccessRequest): AccessRefusal | null {
    const { host, url, localAddress } = request
    const named = host === undefined ? url.hostname : host.replace(/:\d*$/, '')
    if (![named, url.hostname].every((name) => this.hosts.includes(name, localAddress))) return UNKNOWN
    if (this.foreignReader(request) !== null) return null
    return isForeign(request, this.hosts) ? FOREIGN : null
  }

  private refusalByKey({ method, url, authorization, session, remoteAddress }: AccessRequest): AccessRefusal | null {
    if (this.key === null || OPEN_PATHS.test(url.pathname) || method === 'OPTIONS') return null
    // The token of a link is a secret of its own, for programs that cannot send a header.
    if (url.pathname.startsWith('/v1/linked/')) return null
    if (session !== undefined && this.key.isSession(session, this.now())) return null
    const [, given] = /^Bearer +(\S.*)$/i.exec(authorization ?? '') ?? []
    return given === undefined ? NO_KEY : this.refusalOfKey(this.key, given.trimEnd(), remoteAddress)
  }

  private refusalOfKey(key: AccessKey, given: string, remoteAddress = ''): AccessRefusal | null {
    const now = this.now()
    const retryAfterS = this.wrongKeys.waitS(remoteAddress, now)
    if (retryAfterS > 0)
      return {
        kind: 'too-many-wrong-keys',
        detail: `Too many wrong keys came from your address. Try again in ${retryAfterS} s.`,
        retryAfterS,
      }
    if (key.is(given)) return null
    this.wrongKeys.add(remoteAddress, now)
    return WRONG_KEY
  }
}
