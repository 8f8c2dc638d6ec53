import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import type { Registry } from 'prom-client'

/** Names by which this computer is reached from itself; under any other a foreign page may be asking. */
const OWN_HOST = /^(localhost|127\.0\.0\.1|\[::1\])(:\d+)?$/i

/** Serves the figures at `/metrics` on a port of their own, to this computer alone. Rejects if the port is in use. */
export async function serveMetrics(registry: Registry, port: number): Promise<{ readonly url: string; close(): void }> {
  const server = createServer(async ({ url, method, headers }, response) => {
    const isRead = method === 'GET' || method === 'HEAD'
    if (url !== '/metrics' || !isRead || !OWN_HOST.test(headers.host ?? '')) {
      response.writeHead(OWN_HOST.test(headers.host ?? '') ? 404 : 421).end()
      return
    }
    const text = await registry.metrics()
    response.writeHead(200, { 'Content-Type': registry.contentType, 'X-Content-Type-Options': 'nosniff' }).end(text)
  })
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject)
    server.listen(port, '127.0.0.1', resolve)
  })
  const { port: taken } = server.address() as AddressInfo
  return {
    url: `http://127.0.0.1:${taken}/metrics`,
    close: () => {
      server.close()
      server.closeAllConnections()
    },
  }
}
