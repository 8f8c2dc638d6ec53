import type { IncomingMessage, Server, ServerResponse } from 'node:http'
import type { AddressInfo, Socket } from 'node:net'
import { createAdaptorServer } from '@hono/node-server'
import { StartFault } from './projects/start-fault.ts'

export interface Serving {
  /** Where the service answers, e.g. `http://127.0.0.1:8080`. */
  readonly url: string
  /** Takes no more connections, lets the requests under way finish, and resolves when the last connection is closed. */
  drain(): Promise<void>
}

/** A request that has reached this machine but not yet this program counts as under way for so long. */
const ARRIVING_MS = 100

/** Listens. Throws a `StartFault` when the address cannot be had. */
export async function serve(
  app: { readonly fetch: (request: Request) => Response | Promise<Response> },
  { host, port }: { readonly host: string; readonly port: number },
): Promise<Serving> {
  const server = createAdaptorServer({ fetch: app.fetch, hostname: host }) as Server
  const drain = drainable(server)
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => reject(new StartFault(explained(error, host, port))))
    server.listen(port, host, resolve)
  })
  const address = server.address() as AddressInfo
  return { url: `http://${host.includes(':') ? `[${host}]` : host}:${address.port}`, drain }
}

/**
 * `server.close()` waits for connections on which nothing has been asked yet (a browser opens some ahead of need), so
 * the connections are counted here and those without a request are closed.
 */
function drainable(server: Server): () => Promise<void> {
  const connections = new Set<Socket>()
  const underWay = new Set<ServerResponse>()
  let draining = false

  server.on('connection', (socket) => {
    connections.add(socket)
    socket.once('close', () => connections.delete(socket))
  })
  server.prependListener('request', (request: IncomingMessage, response: ServerResponse) => {
    underWay.add(response)
    if (draining) response.setHeader('Connection', 'close')
    response.once('close', () => {
      underWay.delete(response)
      if (draining) request.socket.destroySoon()
    })
  })

  return () =>
    new Promise((resolve, reject) => {
      draining = true
      server.close((error) => (error === undefined ? resolve() : reject(error)))
      for (const response of underWay) if (!response.headersSent) response.setHeader('Connection', 'close')
      setTimeout(() => {
        const busy = new Set([...underWay].map((response) => response.req.socket))
        for (const socket of connections) if (!busy.has(socket)) socket.destroy()
      }, ARRIVING_MS)
    })
}

function explained({ code }: NodeJS.ErrnoException, host: string, port: number): string {
  switch (code) {
    case 'EADDRINUSE':
      return `Port ${port} on ${host} is in use by another program. Stop that one, or name another port in PORT.`
    case 'EACCES':
      return `This user may not listen on port ${port}. Name one from 1024 up in PORT.`
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
    case 'EAI_AGAIN':
      return `${host} is no address of this machine (${code}). Correct HOST: 127.0.0.1 for this machine alone, 0.0.0.0 for its network.`
    default:
      return `Cannot listen on port ${port} of ${host} (${code}).`
  }
}
