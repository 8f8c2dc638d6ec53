import { isIP } from 'node:net'

/** Names that always mean the computer a client runs on (RFC 6761, section 6.3). */
const LOOPBACK_NAME = /^(.*\.)?localhost$/

/** Whether an address to listen on, or a name in a request, can only be this computer. */
export function isLoopback(host: string): boolean {
  const name = bare(host)
  return LOOPBACK_NAME.test(name) || /^(::ffff:)?127\.\d+\.\d+\.\d+$/.test(name) || name === '::1'
}

/**
 * The names this service may be addressed by. Any other name may be a foreign site's own that resolves to this computer,
 * by which its pages would read everything here (DNS rebinding). That takes a name: the address at which a connection
 * arrived is safe.
 */
export class OwnHosts {
  private readonly names: ReadonlySet<string>

  /** @param names added to the loopback ones, without ports */
  constructor(names: readonly string[]) {
    this.names = new Set(names.map(bare))
  }

  /**
   * @param host a host without a port
   * @param localAddress where the connection arrived, if known
   */
  includes(host: string, localAddress?: string): boolean {
    const name = bare(host)
    if (isLoopback(name) || this.names.has(name)) return true
    return localAddress !== undefined && isIP(name) !== 0 && name === bare(localAddress).replace(/^::ffff:(?=\d)/, '')
  }

  /** Whether a name was added by the operator. */
  added(host: string): boolean {
    return this.names.has(bare(host))
  }
}

/** In lower case, without the brackets of an IPv6 address or the dot at the end of a complete name. */
function bare(host: string): string {
  return host
    .toLowerCase()
    .replace(/^\[(.*)\]$/, '$1')
    .replace(/\.$/, '')
}
