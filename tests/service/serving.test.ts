import { Agent, request } from 'node:http'
import { connect } from 'node:net'
import { setTimeout as wait } from 'node:timers/promises'
import { expect, onTestFinished, test } from 'vitest'
import { type Serving, serve } from '../../src/serving.ts'

const LARGE = new Uint8Array(22 * 1024 * 1024).fill(97)
const HERE = { host: '127.0.0.1', port: 0 }

/** Answers with 22 MB at `/large`, and elsewhere after some milliseconds. */
const app = {
  fetch: async (asked: Request) => {
    if (asked.url.endsWith('/large')) return new Response(LARGE)
    await wait(5)
    return new Response('here')
  },
}

async function served(stalledMs?: number): Promise<Serving & { readonly port: number }> {
  const serving = await serve(app, { ...HERE, ...(stalledMs !== undefined && { stalledMs }) })
  return { ...serving, port: Number(new URL(serving.url).port) }
}

/** A client that has sent a request for the large answer and not read anything of it. */
async function silentReader(port: number) {
  const socket = connect(port, '127.0.0.1').pause()
  onTestFinished(() => void socket.destroy())
  socket.on('error', () => {})
  socket.write('GET /large HTTP/1.1\r\nHost: localhost\r\n\r\n')
  let received = 0
  socket.on('data', (bytes) => {
    received += bytes.length
  })
  socket.pause()
  const closed = new Promise<void>((resolve) => socket.once('close', () => resolve()))
  return { read: () => socket.resume(), closed, received: () => received }
}

test('who does not read an answer is disconnected, so that it need not be kept', async () => {
  const serving = await served(300)
  const reader = await silentReader(serving.port)
  await wait(1_500)
  reader.read()
  await reader.closed
  expect(reader.received()).toBeLessThan(LARGE.length)
  await serving.drain()
})

test('who reads slowly gets all of an answer', async () => {
  const serving = await served(1_000)
  const reader = await silentReader(serving.port)
  for (let times = 0; times < 4; times++) {
    await wait(200)
    reader.read()
  }
  await serving.drain()
  await reader.closed
  expect(reader.received()).toBeGreaterThan(LARGE.length)
})

test('stopping sends answers whole that are not read yet', async () => {
  const serving = await served()
  const reader = await silentReader(serving.port)
  await wait(200)
  const drained = serving.drain()
  await wait(800)
  reader.read()
  await reader.closed
  await drained
  expect(reader.received()).toBeGreaterThan(LARGE.length)
})

/** Asks again and again over one connection until it is refused, and counts what goes wrong otherwise. */
async function asking(url: string): Promise<{ answered: number; broken: string[] }> {
  const agent = new Agent({ keepAlive: true, maxSockets: 1 })
  const broken: string[] = []
  for (let answered = 0; ; answered++) {
    const outcome = await new Promise<string>((resolve) => {
      const asked = request(url, { agent }, (answer) => {
        let text = ''
        answer.setEncoding('utf8').on('data', (part) => {
          text += part
        })
        answer.on('end', () => resolve(text)).on('error', (error) => resolve(error.message))
      })
      asked.on('error', (error: NodeJS.ErrnoException) => resolve(error.code ?? error.message)).end()
    })
    if (outcome === 'ECONNREFUSED') {
      agent.destroy()
      return { answered, broken }
    }
    if (outcome !== 'here') broken.push(outcome)
  }
}

test('stopping breaks no request of thirty clients, ten times', async () => {
  const broken: string[] = []
  let answered = 0
  for (let round = 0; round < 10; round++) {
    const serving = await served()
    const clients = Array.from({ length: 30 }, () => asking(serving.url))
    await wait(100 + 7 * round)
    await serving.drain()
    for (const client of await Promise.all(clients)) {
      broken.push(...client.broken)
      answered += client.answered
    }
  }
  expect(broken).toEqual([])
  expect(answered).toBeGreaterThan(300)
})
