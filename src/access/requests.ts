import type { IncomingMessage } from 'node:http'
import type { AccessRequest } from './guard.ts'
import { SESSION_COOKIE } from './sign-in.ts'

/** What the guard looks at in a request; `incoming` is known if the request came over a network. */
export function accessRequest(request: Request, incoming: IncomingMessage | undefined): AccessRequest {
  const header = (name: string) => request.headers.get(name) ?? undefined
  return {
    method: request.method,
    url: new URL(request.url),
    host: header('host'),
    contentType: header('content-type'),
    origin: header('origin'),
    fetchSite: header('sec-fetch-site'),
    fetchMode: header('sec-fetch-mode'),
    fetchDest: header('sec-fetch-dest'),
    authorization: header('authorization'),
    session: sessionIn(header('cookie')),
    remoteAddress: incoming?.socket.remoteAddress,
    localAddress: incoming?.socket.localAddress,
  }
}

const SESSION = new RegExp(`(?:^|;\\s*)${SESSION_COOKIE}=([^;\\s]*)`)

function sessionIn(cookies: string | undefined): string | undefined {
  return SESSION.exec(cookies ?? '')?.[1]
}
