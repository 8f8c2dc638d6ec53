import { request } from 'node:http'
import { expect, onTestFinished, test } from 'vitest'
import { createMetrics } from '../../src/metrics/metrics.ts'
import { serveMetrics } from '../../src/metrics/serve-metrics.ts'

function figures(latest: () => string | null = () => null) {
  return createMetrics({ queuedWork: () => 3, latestBackup: latest, backupsFail: () => true })
}

async function ask(url: string, host: string, method = 'GET'): Promise<{ status: number; text: string }> {
  return new Promise((resolve, reject) => {
    request(url, { method, headers: { Host: host } }, (answer) => {
      let text = ''
      answer.setEncoding('utf8').on('data', (part) => {
        text += part
      })
      answer.on('end', () => resolve({ status: answer.statusCode!, text }))
    })
      .on('error', reject)
      .end()
  })
}

test('are served on a port of their own, to this computer and under no other name', async () => {
  const metrics = figures()
  const serving = await serveMetrics(metrics.registry, 0)
  onTestFinished(serving.close)
  metrics.answered({ method: 'GET', template: '/v1/bends', status: 200, ms: 30 })
  metrics.databaseFailed('unavailable')
  const { status, text } = await ask(serving.url, 'localhost:1')
  expect(status).toBe(200)
  for (const line of [
    'longchord_request_duration_seconds_bucket{le="0.025",method="GET",template="/v1/bends",status="200"} 0',
    'longchord_request_duration_seconds_bucket{le="0.05",method="GET",template="/v1/bends",status="200"} 1',
    'longchord_request_duration_seconds_sum{method="GET",template="/v1/bends",status="200"} 0.03',
    'longchord_database_errors_total{kind="unavailable"} 1',
    'longchord_queued_work 3',
    'longchord_backup_failing 1',
  ])
    expect(text.split('\n')).toContain(line)
  expect(text).toContain('nodejs_eventloop_lag_p99_seconds')
  expect((await ask(serving.url, 'evil.example')).status).toBe(421)
  expect((await ask(serving.url.replace('/metrics', '/other'), '127.0.0.1')).status).toBe(404)
  expect((await ask(serving.url, '127.0.0.1', 'POST')).status).toBe(404)
  const { port } = new URL(serving.url)
  await expect(serveMetrics(metrics.registry, Number(port))).rejects.toMatchObject({ code: 'EADDRINUSE' })
})

test('tell the age of the newest backup, where there is one', async () => {
  const age = async (latest: string | null) =>
    /^longchord_backup_age_seconds (\S+)$/m.exec(await figures(() => latest).registry.metrics())?.[1]
  expect(Number(await age(new Date(Date.now() - 90_000).toISOString()))).toBeCloseTo(90, -1)
  expect(await age(null)).toBe('Nan')
})
