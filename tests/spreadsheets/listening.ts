import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'

export interface Heard {
  readonly method: string
  readonly headers: Readonly<Record<string, string>>
}

/** A server that takes down who asks it and how, and answers as the service does. */
export interface Listening {
  readonly url: string
  /** What was heard since the last time. */
  heard(): Heard[]
  close(): Promise<void>
}

export async function listening(): Promise<Listening> {
  let heard: Heard[] = []
  const server: Server = createServer((request, response) => {
    const pairs = request.rawHeaders.flatMap((name, at, all) => (at % 2 === 0 ? [[name, all[at + 1]!] as const] : []))
    heard.push({ method: request.method!, headers: Object.fromEntries(pairs.filter(([name]) => name !== 'Host')) })
    const isTable = new URL(request.url!, 'http://here').pathname.endsWith('.csv')
    response.setHeader('Content-Type', isTable ? 'text/csv; charset=utf-8' : 'text/plain; charset=utf-8')
    if (request.method === 'OPTIONS') response.writeHead(204, { Allow: 'GET, HEAD, OPTIONS' }).end()
    else response.end(isTable ? 'rail,midMm\r\nouter,10.5\r\n' : '10.5')
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    heard() {
      const now = heard
      heard = []
      return now
    },
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve())
        server.closeAllConnections()
      }),
  }
}
