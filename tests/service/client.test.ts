import { spawnSync } from 'node:child_process'
import { expect, test } from 'vitest'
import { guideSource } from '../../src/docs/shipped.ts'
import { commandsIn } from '../docs/commands.ts'
import { newFolder, running } from './running.ts'

const top = new URL('../..', import.meta.url).pathname

/** Runs the example of a client, as its first lines say. */
function client(plan: string, service: string) {
  const words = ['--import', 'tsx', 'openapi/client/shopping-list.ts', `openapi/examples/${plan}.json`, service]
  const { status, stdout, stderr } = spawnSync(process.execPath, words, { cwd: top, encoding: 'utf8' })
  return { status, stdout, stderr }
}

test('the example of a client prints the shopping list that a running service works out, and every fault of a plan', async () => {
  const { url } = await running({ DATA_DIR: newFolder() })
  const listed = client('quarter-loop', url)
  expect([listed.status, listed.stderr]).toEqual([0, ''])
  const [shown] = commandsIn(guideSource('programs'), /shopping-list\.ts/)
  expect(listed.stdout.trimEnd()).toBe(shown!.answer)
  // by hand, from the plan's packs and prices: 5 × 14.50 + 1 × 9 + 2 × 21 + 2 × 12
  expect(listed.stdout).toContain('147.50 USD in all\n')
  const refused = client('three-faults', url)
  expect([refused.status, refused.stdout]).toEqual([1, ''])
  expect(
    refused.stderr
      .trim()
      .split('\n')
      .map((line) => line.split(': ')[0]),
  ).toEqual(['/tracks/0/elements/0/length', '/tracks/0/elements/1/angle', '/tracks/0/elements/2/lenght'])
}, 120_000)
