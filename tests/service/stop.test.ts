import { existsSync, readdirSync } from 'node:fs'
import { connect, type Socket } from 'node:net'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { beforeAll, describe, expect, onTestFinished, test } from 'vitest'
import { type AtEnd, type Ended, launch, newFolder, PLAN, running, type Service } from './running.ts'

interface Line {
  readonly socket: Socket
  /** The next piece received. */
  next(): Promise<string>
  /** Everything received, once the other side has closed. */
  readonly closed: Promise<string>
}

async function dial(port: number, atEnd: AtEnd = onTestFinished): Promise<Line> {
  const socket = connect(port, '127.0.0.1')
  atEnd(() => void socket.destroy())
  socket.on('error', () => {})
  await new Promise<void>((resolve, reject) => socket.once('connect', resolve).once('error', reject))
  let received = ''
  socket.setEncoding('utf8').on('data', (text) => {
    received += text
  })
  const closed = new Promise<string>((resolve) => socket.once('close', () => resolve(received)))
  return { socket, next: () => new Promise((resolve) => socket.once('data', resolve)), closed }
}

/** Sends the head of a request and waits until the service has begun with it; half of the body is to follow. */
async function beginSaving(port: number, name: string, atEnd?: AtEnd): Promise<Line & { finish(): void }> {
  const body = JSON.stringify({ name, plan: PLAN })
  const line = await dial(port, atEnd)
  const head = ['POST /v1/projects HTTP/1.1', 'Host: localhost', 'Content-Type: application/json']
  head.push(`Content-Length: ${body.length}`, 'Expect: 100-continue')
  line.socket.write(`${head.join('\r\n')}\r\n\r\n`)
  expect(await line.next()).toMatch(/^HTTP\/1\.1 100 Continue\r\n/)
  line.socket.write(body.slice(0, 20))
  return { ...line, finish: () => void line.socket.write(body.slice(20)) }
}

/** A connection that has been answered once and is kept alive. */
async function beenAnswered(port: number): Promise<Line> {
  const line = await dial(port)
  line.socket.write('GET /livez HTTP/1.1\r\nHost: localhost\r\n\r\n')
  expect(await line.next()).toMatch(/^HTTP\/1\.1 200 /)
  return line
}

async function names(service: Service): Promise<string[]> {
  const answer = await fetch(`${service.url}/v1/projects`)
  const { items } = (await answer.json()) as { items: { name: string }[] }
  return items.map(({ name }) => name)
}

describe('a service that is asked to stop', () => {
  /** Asked before the tests, which go on meanwhile. */
  let neverDone: Promise<Ended & { stoppingMs: number }>

  beforeAll(async () => {
    const ends: Parameters<AtEnd>[0][] = []
    const atEnd: AtEnd = (end) => void ends.unshift(end)
    const service = await running({ DATA_DIR: newFolder(atEnd) }, undefined, atEnd)
    await beginSaving(service.port, 'never finished', atEnd)
    service.child.kill('SIGTERM')
    await service.said(/is stopping/)
    const fromMs = performance.now()
    neverDone = service.ended.then((ended) => ({ ...ended, stoppingMs: performance.now() - fromMs }))
    return async () => {
      for (const end of ends) await end()
    }
  })

  test.for(['SIGTERM', 'SIGINT'] as const)(
    'by %s finishes what it began and closes everything else',
    async (signal) => {
      const DATA_DIR = newFolder()
      const service = await running({ DATA_DIR })
      const silent = await dial(service.port)
      const idle = await beenAnswered(service.port)
      const begun = await beginSaving(service.port, 'begun before')
      expect(readdirSync(DATA_DIR)).toContain('longchord.lock')

      service.child.kill(signal)
      await service.said(/is stopping/)
      expect(await silent.closed).toBe('')
      expect(await idle.closed).toMatch(/^HTTP\/1\.1 200 /)
      await expect(fetch(`${service.url}/livez`)).rejects.toThrow()
      expect(service.child.exitCode).toBeNull()

      begun.finish()
      const answer = await begun.closed
      expect(answer).toMatch(/^HTTP\/1\.1 201 /m)
      expect(answer).toMatch(/^connection: close\r$/im)
      expect(await service.ended).toMatchObject({ code: 0, signal: null, stderr: '' })
      expect(readdirSync(DATA_DIR).toSorted()).toEqual(['database', 'journal.jsonl'])
      expect(await names(await running({ DATA_DIR }))).toEqual(['begun before'])
    },
  )

  test('finishes what its worker threads have begun and what waits for them', async () => {
    const service = await running({ DATA_DIR: newFolder(), SEARCH_THREADS: '1' })
    await fetch(`${service.url}/livez`)
    const readings = Array.from({ length: 200 }, (_, n) => (n < 4 || n > 195 ? 0 : 12 + (n % 5) / 4))
    const asked = [1, 2, 3].map(() =>
      fetch(`${service.url}/v1/bend-checks`, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json' },
        body: JSON.stringify({ chord: 500, readings }),
      }),
    )
    await wait(100)
    service.child.kill('SIGTERM')
    await service.said(/is stopping/)
    expect((await Promise.all(asked)).map(({ status }) => status)).toEqual([200, 200, 200])
    expect(await service.ended).toMatchObject({ code: 0, signal: null, stderr: '' })
  })

  test('takes the echo of a signal for the same wish', async () => {
    const service = await running({ DATA_DIR: newFolder() })
    const begun = await beginSaving(service.port, 'begun before')
    service.child.kill('SIGINT')
    await service.said(/is stopping/)
    service.child.kill('SIGINT')
    await wait(100)
    begun.finish()
    expect(await begun.closed).toMatch(/^HTTP\/1\.1 201 /m)
    expect(await service.ended).toMatchObject({ code: 0, stderr: '' })
  })

  test('while it makes its database, does that first', async () => {
    const DATA_DIR = newFolder()
    const { child, said, ended } = launch({ DATA_DIR, PORT: '0' })
    await said(/Preparing/)
    child.kill('SIGTERM')
    expect(await ended).toMatchObject({ code: 0, stderr: '' })
    expect(readdirSync(DATA_DIR).toSorted()).toEqual(['database', 'journal.jsonl'])
    expect(await names(await running({ DATA_DIR }))).toEqual([])
  })

  test('twice, gives up what it began; its folder can be used again', async () => {
    const DATA_DIR = newFolder()
    const service = await running({ DATA_DIR })
    await beginSaving(service.port, 'never finished')
    service.child.kill('SIGTERM')
    await service.said(/is stopping/)
    await wait(1_200)
    service.child.kill('SIGTERM')
    const ended = await service.ended
    expect(ended).toMatchObject({ code: 1, signal: null })
    expect(ended.stderr).toBe('Longchord stops without waiting for running requests: a second signal arrived.\n')
    expect(await names(await running({ DATA_DIR }))).toEqual([])
  })

  test('gives up what is not finished after 10 s', async () => {
    const { code, signal, stderr, stoppingMs } = await neverDone
    expect({ code, signal }).toEqual({ code: 1, signal: null })
    expect(stderr).toContain('not finished after 10 s')
    expect(stoppingMs).toBeGreaterThan(9_000)
  })

  test('through npm start, hears it', async () => {
    const DATA_DIR = newFolder()
    const service = await running({ DATA_DIR, HOME: newFolder() }, ['npm', 'start'])
    expect(existsSync(join(DATA_DIR, 'longchord.lock'))).toBe(true)
    service.child.kill('SIGTERM')
    await service.said(/is stopping/)
    await service.ended
    expect(readdirSync(DATA_DIR).toSorted()).toEqual(['database', 'journal.jsonl'])
    await expect(fetch(`${service.url}/livez`)).rejects.toThrow()
  })
})
