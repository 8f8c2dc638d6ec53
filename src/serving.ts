import type { IncomingMessage, Server, ServerResponse } from 'node:http'
import type { AddressInfo, Socket } from 'node:net'
import { createAdaptorServer } from '@hono/node-server'
import { StartFault } from './projects/start-fault.ts'

export interface Serving {
  /** Where the service answers, e.g. `http://127.0.0.1:8080`. */
  readonly url: string
  /** Accepts no more connections, lets running requests finish, and resolves when the last connection is closed. */
  drain(): Promise<void>
}

/** How long to wait for requests that have reached this machine but not yet this program. */
const ARRIVING_MS = 100

/** Listens. Throws a `StartFault` if it cannot listen on the address. */
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
 * `server.close()` also waits for connections without a request (a browser opens some in advance), so connections are
 * tracked here and those without a request are closed.
 */
function drainable(server: Server): () => Promise<void> {
  const connections = new Set<Socket>()
  const running = new Set<ServerResponse>()
  let draining = false

  server.on('connection', (socket) => {
    connections.add(socket)
    socket.once('close', () => connections.delete(socket))
  })
  server.prependListener('request', (request: IncomingMessage, response: ServerResponse) => {
    running.add(response)
    if (draining) response.setHeader('Connection', 'close')
    response.once('close', () => {
      running.delete(response)
      if (draining) request.socket.destroySoon()
    })
  })

  return () =>
    new Promise((resolve, reject) => {
      draining = true
      server.close((error) => (error === undefined ? resolve() : reject(error)))
      for (const response of running) if (!response.headersSent) response.setHeader('Connection', 'close')
      setTimeout(() => {
        const busy = new Set([...running].map((response) => response.req.socket))
        for (const socket of connections) if (!busy.has(socket)) socket.destroy()
      }, ARRIVING_MS)
    })
}

function explained({ code }: NodeJS.ErrnoException, host: string, port: number): string {
  switch (code) {
    case 'EADDRINUSE':
      return `Port ${port} on ${host} is in use by another program. Stop that program, or choose another port in PORT.`
    case 'EACCES':
      return `This user may not listen on port ${port}. Set PORT to 1024 or higher.`
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
    case 'EAI_AGAIN':
      return `${host} is not an address of this machine (${code}). Correct HOST: 127.0.0.1 for this machine only, 0.0.0.0 for its network.`
    default:
      return `Cannot listen on port ${port} of ${host} (${code}).`
  }
}
