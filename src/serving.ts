import type { IncomingMessage, Server, ServerResponse } from 'node:http'
import { type AddressInfo, Server as NetServer, type Socket } from 'node:net'
import { createAdaptorServer } from '@hono/node-server'
import { StartFault } from './projects/start-fault.ts'

export interface Serving {
  /** Where the service answers, e.g. `http://127.0.0.1:8080`. */
  readonly url: string
  /** Accepts no more connections, lets running requests finish, and resolves when the last connection is closed. */
  drain(): Promise<void>
}

/** Without a new connection for this many turns, a stopping server stops listening, and at the latest after the longest wait. */
const QUIET_TURNS = 10
const TURN_MS = 10
const LONGEST_WAIT_MS = 2_000
/**
 * How long a connection without a request stays open while draining: its client may just have sent one, and gets its answer
 * with `Connection: close`.
 */
const LINGER_MS = 500
/** A client that reads nothing of its answer for this long is disconnected; the answer is kept in memory until then. */
const STALLED_MS = 20_000
/** The same for one that sends nothing. The longest work takes less. */
const SILENT_MS = 120_000
/** To send the headers of a request. */
const HEADERS_MS = 15_000
/** To send all of it; an import may be large. */
const REQUEST_MS = 300_000
/** More are closed when they come. */
const MOST_CONNECTIONS = 512

/** Listens. Throws a `StartFault` if it cannot listen on the address. */
export async function serve(
  app: { readonly fetch: (request: Request) => Response | Promise<Response> },
  { host, port, stalledMs = STALLED_MS }: { readonly host: string; readonly port: number; readonly stalledMs?: number },
): Promise<Serving> {
  /** While stopping: when the requests that come may be answered. */
  let held: Promise<void> | null = null
  const fetch: typeof app.fetch = (...asked) =>
    held === null ? app.fetch(...asked) : held.then(() => app.fetch(...asked))
  const server = createAdaptorServer({ fetch, hostname: host }) as Server
  Object.assign(server, { headersTimeout: HEADERS_MS, requestTimeout: REQUEST_MS, timeout: SILENT_MS })
  server.maxConnections = MOST_CONNECTIONS
  disconnectStalled(server, stalledMs)
  const drain = drainable(server, (until) => {
    held = until
  })
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => reject(new StartFault(explained(error, host, port))))
    server.listen(port, host, resolve)
  })
  const address = server.address() as AddressInfo
  return { url: `http://${host.includes(':') ? `[${host}]` : host}:${address.port}`, drain }
}

/** From the head of an answer to its end, its client has to read on. */
function disconnectStalled(server: Server, stalledMs: number): void {
  server.prependListener('request', ({ socket }: IncomingMessage, response: ServerResponse) => {
    const { writeHead } = response
    response.writeHead = ((...head: Parameters<typeof writeHead>) => {
      socket.setTimeout(stalledMs)
      return writeHead.apply(response, head)
    }) as typeof writeHead
    response.once('close', () => socket.setTimeout(SILENT_MS))
  })
}

/**
 * `server.close()` cuts answers off that are written but not read yet, and waits for connections without a request (a browser
 * opens some in advance). So connections are tracked here, and closed when they have nothing more to do.
 */
function drainable(server: Server, hold: (until: Promise<void>) => void): () => Promise<void> {
  /** With the answers that each is still owed. */
  const connections = new Map<Socket, number>()
  const answers = new Set<ServerResponse>()
  let draining = false

  server.on('connection', (socket) => {
    connections.set(socket, 0)
    socket.once('close', () => connections.delete(socket))
    if (draining) closeUnused(socket)
  })
  server.prependListener('request', ({ socket }: IncomingMessage, response: ServerResponse) => {
    connections.set(socket, (connections.get(socket) ?? 0) + 1)
    if (draining) response.setHeader('Connection', 'close')
    answers.add(response)
    response.once('close', () => {
      answers.delete(response)
      if (connections.has(socket)) connections.set(socket, connections.get(socket)! - 1)
      if (draining) closeUnused(socket)
    })
  })

  /** Unless a request has come in the meantime. */
  function closeUnused(socket: Socket): void {
    setTimeout(() => {
      if (connections.get(socket) === 0) socket.destroySoon()
    }, LINGER_MS)
  }

  return async () => {
    draining = true
    for (const response of answers) if (!response.headersSent) response.setHeader('Connection', 'close')
    for (const socket of connections.keys()) closeUnused(socket)
    const quiet = quietOf(server)
    hold(quiet)
    await quiet
    await new Promise<void>((resolve, reject) =>
      NetServer.prototype.close.call(server, (error?: Error) => (error === undefined ? resolve() : reject(error))),
    )
  }
}

/**
 * Resolves when no connection has come for a while. Those that are waiting to be accepted while a server closes are reset;
 * clients come to rest as long as their requests are held.
 */
function quietOf(server: Server): Promise<void> {
  const fromMs = performance.now()
  // Turns, not milliseconds: a machine that is busy may accept nothing for a while.
  let quietTurns = 0
  const noted = () => {
    quietTurns = 0
  }
  server.on('connection', noted)
  return new Promise((resolve) => {
    const timer = setInterval(() => {
      quietTurns += 1
      if (quietTurns < QUIET_TURNS && performance.now() - fromMs < LONGEST_WAIT_MS) return
      clearInterval(timer)
      server.off('connection', noted)
      // Just after connections were accepted.
      setImmediate(resolve)
    }, TURN_MS)
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
