import type { ThreadJobs } from '../../src/workers/open-workers.ts'
import { exhaust, fail, spin } from './odd-jobs.ts'

/** Answers every request with its own headers, except those that have one of these in their bodies. */
export const answer: ThreadJobs['answer'] = async ({ request: { headers, body } }) => {
  const text = body === null ? '' : new TextDecoder().decode(body)
  if (text.includes('exhaust')) exhaust(null)
  if (text.includes('go-wrong')) fail('no plan of that name in /etc/secret')
  if (text.includes('spin-for-a-minute')) spin(60_000)
  if (text.includes('spin')) spin(400)
  return text.includes('much-to-send') ? 'too-large' : { status: 200, headers: [...headers], body: null }
}
