import { expect, test } from 'vitest'
import { changed, visiting } from './visiting.ts'

const { ask, get, post, store } = visiting()

/** The form of the demo plan as a browser sends it. */
async function send(path: string, more: Readonly<Record<string, string>> = {}): Promise<Response> {
  const { fields } = await get('/demo?edit')
  return ask(path, {
    method: 'POST',
    headers: { 'Sec-Fetch-Site': 'same-origin' },
    body: new URLSearchParams(Object.fromEntries(changed(fields, more))),
  })
}

const pagesOf = async (answer: Response) =>
  Buffer.from(await answer.arrayBuffer())
    .toString('latin1')
    .match(/\/Type \/Page\b/g)?.length

test('a plan that is only in the form is printed, one sheet or all, and nothing is stored', async () => {
  const saw = await send('/sheets/print.pdf?for=saw')
  expect(saw.status).toBe(200)
  expect(saw.headers.get('content-type')).toBe('application/pdf')
  expect(saw.headers.get('content-disposition')).toContain('sheets.pdf')
  expect(saw.headers.get('cache-control')).toBe('no-store')
  const all = await send('/sheets/print.pdf', { show: 'feet', shownIn: 'feet' })
  expect(await pagesOf(all)).toBeGreaterThan((await pagesOf(saw))!)
  const { id } = await store().create({ name: 'One', notes: '', plan: {} })
  expect((await send(`/plans/${id}/print.pdf?for=shop`, { revision: '1' })).status).toBe(200)
  expect((await store().get(id))!.revision).toBe(1)
  expect((await store().list({ limit: 9, after: null })).items).toHaveLength(1)
})

test('a plan with faults comes back with them, and what is no form is refused', async () => {
  const faulty = await send('/sheets/print.pdf', { gauge: '45 parsec' })
  expect(faulty.status).toBe(422)
  expect(await faulty.text()).toContain('1 problem to fix')
  const json = await ask('/sheets/print.pdf', {
    method: 'POST',
    headers: { 'Sec-Fetch-Site': 'same-origin', 'Content-Type': 'application/json' },
    body: '{}',
  })
  expect(json.status).toBe(415)
  expect((await post('/sheets/print.pdf', [], 'cross-site')).status).toBe(403)
})
