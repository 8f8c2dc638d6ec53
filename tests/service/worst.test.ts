import { expect, test } from 'vitest'
import { watchLiveness } from '../worst/livez.ts'
import { WORST_REQUESTS } from '../worst/requests.ts'
import { sendTo } from '../worst/send.ts'
import { newFolder, running } from './running.ts'

/** Each of them held the service for seconds or ended it before it had worker threads. */
const CHOSEN = [
  '1 km of straight, stagger 500',
  'grade line of ±10 km',
  'cell of 9.8 km',
  'form of 200,000 element fields',
  '500 readings without a curve',
]

/** Far from what is wanted, so that a busy machine does not fail it; `npm run test:worst` measures. */
const LONGEST_HELD_MS = 5_000

test('the worst requests at once leave the service answering, and are answered as documented', {
  timeout: 180_000,
}, async () => {
  const service = await running({ DATA_DIR: newFolder() })
  const chosen = WORST_REQUESTS.filter(({ name }) => CHOSEN.includes(name))
  expect(chosen).toHaveLength(CHOSEN.length)
  const watch = watchLiveness(service.url)
  const answers = await Promise.all([...chosen, ...chosen].map((request) => sendTo(service.url, request)))
  const live = await watch.stop()
  for (const { status, contentType } of answers) {
    expect(status === 200 || status === 503 || (Number(status) >= 400 && Number(status) < 500)).toBe(true)
    if (status !== 200) expect(contentType).toMatch(/^(application\/problem\+json|text\/html)/)
  }
  expect(answers.filter(({ status }) => status === 200).length).toBeGreaterThan(0)
  expect(live.asked).toBeGreaterThan(10)
  expect(live.worstMs).toBeLessThan(LONGEST_HELD_MS)
})
