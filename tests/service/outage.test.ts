import { expect, onTestFinished, test } from 'vitest'
import { newestInstallation, startServer } from '../servers/postgres-server.ts'
import { sufferOutages } from './outage.ts'
import { running } from './running.ts'

const ROUNDS = Number(process.env.OUTAGE_ROUNDS ?? 3)

test(
  'the service outlives its database server, and answers again when that is back',
  async () => {
    const server = await startServer(newestInstallation()!)
    onTestFinished(server.stop)
    const service = await running({ DATABASE_URL: server.url })
    let why = 'it runs'
    void service.ended.then(({ code, signal, stdout, stderr }) => {
      why = `it ended with ${code ?? signal}: ${stderr}${stdout.slice(-2_000)}`
    })
    const { statuses, acknowledged, there, backAfterMs } = await sufferOutages(service, server, ROUNDS).catch(
      (error) => {
        throw new Error(`the service did not answer: ${why}`, { cause: error })
      },
    )
    console.log(`${ROUNDS} outages:`, statuses, 'back after at most', Math.round(Math.max(...backAfterMs)), 'ms')
    expect(Object.keys(statuses).filter((status) => !['201', '503'].includes(status))).toEqual([])
    expect(statuses['201']).toBeGreaterThan(ROUNDS)
    expect(acknowledged.filter((name) => !there.has(name))).toEqual([])
    expect(Math.max(...backAfterMs)).toBeLessThan(20_000)
    expect(service.child.exitCode).toBeNull()
  },
  60_000 + ROUNDS * 30_000,
)
