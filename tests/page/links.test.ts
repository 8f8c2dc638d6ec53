import { expect, test } from 'vitest'
import { planWith } from '../api/asking.ts'
import { visiting } from './visiting.ts'

const { store, get, post, postJson, ask } = visiting()

test('a link is made, shown once, listed, used and revoked', async () => {
  const { id } = await store().create({ name: 'Quarry <spur>', notes: '', plan: planWith() })
  const path = `/plans/${id}/links`
  expect((await get(`/plans/${id}`)).markup).toContain(`href="${path}"`)
  const none = await get(path)
  expect(none.text).toContain('Quarry <spur>')
  expect(none.text).toContain('None.')

  const made = await post(path, Object.entries({ do: 'make', label: 'Stock <list>' }))
  expect(made.status).toBe(200)
  expect(made.headers.get('cache-control')).toBe('no-store')
  expect(made.headers.get('referrer-policy')).toBe('no-referrer')
  const address = /http:\/\/localhost(\/v1\/linked\/([\w-]{43})\/tables\/bill\.csv)/.exec(made.text)!
  expect((await ask(address[1]!)).status).toBe(200)

  const listed = await get(path)
  expect(listed.text).toContain('Stock <list>')
  expect(listed.text).toContain('last used')
  expect(listed.markup).not.toContain(address[2])
  expect(listed.headers.get('referrer-policy')).toBe('same-origin')

  const link = (await store().links(id))![0]!
  const revoked = await post(path, Object.entries({ do: 'revoke', link: link.id }))
  expect([revoked.status, revoked.headers.get('location')]).toEqual([303, path])
  expect((await ask(address[1]!)).status).toBe(404)
})

test('without a label nothing is made; nor from another site, nor of a plan that is not there', async () => {
  const { id } = await store().create({ name: 'Spur', notes: '', plan: planWith() })
  const path = `/plans/${id}/links`
  for (const label of ['', ' ', 'x'.repeat(101)]) {
    const answer = await post(path, Object.entries({ do: 'make', label }))
    expect(answer.status).toBe(422)
    expect(answer.markup).toContain('aria-invalid="true"')
  }
  expect((await post(path, Object.entries({ do: 'make', label: 'x' }), 'cross-site')).status).toBe(403)
  expect(await store().links(id)).toEqual([])
  expect((await get('/plans/none/links')).status).toBe(404)
  expect((await post('/plans/none/links', Object.entries({ do: 'make', label: 'x' }))).status).toBe(404)
  expect((await postJson(path)).status).toBe(415)
})
