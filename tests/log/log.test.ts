import { execFile } from 'node:child_process'
import { promisify } from 'node:util'
import { expect, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import { plainLine } from '../../src/log/plain-line.ts'
import type { Answered } from '../../src/log/requests.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { StoreError } from '../../src/projects/store-error.ts'
import { NOTHING } from '../../src/shed/stock.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { recordedLog } from './recorded.ts'

function logging() {
  const recorded = recordedLog()
  const answered: Answered[] = []
  const get = () => Promise.reject(new StoreError('unavailable', 'The database is closed.'))
  const app = createApp({
    store: { get, freeStock: async () => NOTHING } as unknown as ProjectStore,
    workers: inThisThread,
    log: recorded.log,
    onAnswered: (one) => void answered.push(one),
  })
  return { app, answered, ...recorded }
}

test.each([
  ['/v1/bends?radius=3m', '/v1/bends', 200],
  ['/v1/projects/secret-id', '/v1/projects/{id}', 503],
  ['/v1/nothing%0a%1b[31m', 'none', 404],
  ['/style.css', 'none', 404],
  ['/demo/line', '/demo/{sheet}', 200],
  ['/plans/secret/saw', '/plans/{id}/{sheet}', 503],
  ['/v1/catalogue/sections?nonsense', '/v1/catalogue/sections', 400],
])('%s is logged as %s with %i, and nothing of its own', async (path, template, status) => {
  const { app, lines, from, answered } = logging()
  const answer = await app.request(path, { headers: { 'X-Request-Id': 'mine', Authorization: 'Bearer hunter2' } })
  expect(answer.status).toBe(status)
  expect(from('info')).toEqual([
    {
      level: status === 503 ? 'warn' : 'info',
      time: expect.any(String),
      ...{ id: 'mine', method: 'GET', template, status, ms: expect.any(Number) },
      ...(status === 503 && { reason: 'The database is closed.' }),
      msg: status === 503 ? 'request failed' : 'request',
    },
  ])
  expect(lines.join('')).not.toMatch(/secret|hunter2|3m|nonsense|\/v1\/nothing/)
  expect(answered).toMatchObject([{ method: 'GET', template, status }])
  expect(answered[0]!.error instanceof StoreError).toBe(status === 503)
})

test('another method than the address has is logged with its template; what machines ask all the time only for debugging', async () => {
  const { app, from, lines } = logging()
  await app.request('/v1/projects/x', { method: 'PATCH' })
  expect(from('info')).toMatchObject([{ template: '/v1/projects/{id}', method: 'PATCH', status: 405 }])
  await app.request('/livez')
  expect(from('info')).toHaveLength(1)
  expect(lines).toHaveLength(2)
})

test('no control character reaches the log', () => {
  const { log, lines } = recordedLog()
  const controls = '\n\r\t\u0000\u001b[31m\u007f\u009b\u2028\u202e'
  log.warn({ reason: controls }, controls)
  expect(lines).toHaveLength(1)
  expect(lines[0]).toMatch(/^[\x20-\x7e]+\n$/)
  expect(JSON.parse(lines[0]!)).toMatchObject({ msg: controls, reason: controls })
  const plain = plainLine(lines[0]!, false)
  expect(plain).toMatch(/^Warning: \n[\x20-\x7e]+\n$/)
})

test('a person gets plain lines, and no line for each request', () => {
  const { log, lines } = recordedLog()
  const request = { id: 'x1', method: 'GET', template: '/livez', status: 200, ms: 1.5 }
  log.info({}, 'Longchord is ready at http://127.0.0.1:8080.')
  log.info(request, 'request')
  log.error({ ...request, status: 500, err: new Error('broken') }, 'request failed')
  const [ready, answered, failed] = lines
  expect(plainLine(ready!, false)).toBe('Longchord is ready at http://127.0.0.1:8080.\n')
  expect(plainLine(answered!, false)).toBeNull()
  expect(plainLine(answered!, true)).toBe('GET /livez: 200 in 1.5 ms, request x1\n')
  expect(plainLine(failed!, false)).toMatch(/^Error: GET \/livez: 500 in 1\.5 ms, request x1\nError: broken\n +at /)
})

test('what is logged right before the end is written, and the level counts', async () => {
  const script = `
    import { openLog } from './src/log/log.ts'
    const { log, flush } = openLog('warn', false)
    process.on('exit', flush)
    log.info({}, 'unheard')
    log.warn({}, 'heard')
    process.exit(0)`
  const run = promisify(execFile)(process.execPath, ['--import', 'tsx', '--input-type=module', '--eval', script], {
    cwd: new URL('../..', import.meta.url).pathname,
  })
  const { stdout } = await run
  expect(
    stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line).msg),
  ).toEqual(['heard'])
})
