import { request } from 'node:http'
import { describe, expect, test } from 'vitest'
import { launch, newFolder, PLAN, running } from './running.ts'

const KEY = 'seventeen-letters'

/** Node's `fetch` does not let the Host header be chosen. */
function statusFor(
  port: number,
  headers: Record<string, string>,
  path = '/v1/projects',
  method = 'GET',
): Promise<number> {
  return new Promise((resolve, reject) => {
    const sent = request({ host: '127.0.0.1', port, path, method, headers }, (answer) => {
      answer.resume()
      resolve(answer.statusCode!)
    })
    sent.on('error', reject)
    sent.end()
  })
}

describe('who may use a running service', () => {
  test('on this computer: its own names, and no page of another site', async () => {
    const { port, url } = await running({ DATA_DIR: newFolder() })
    const saved = await fetch(`${url}/v1/projects`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify({ name: 'Quarry', plan: PLAN }),
    })
    const { id } = (await saved.json()) as { id: string }
    expect(await statusFor(port, { Host: `localhost:${port}` })).toBe(200)
    expect(await statusFor(port, { Host: 'evil.example' })).toBe(421)
    expect(await statusFor(port, { Host: 'evil.example', 'If-Match': '*' }, `/v1/projects/${id}`, 'DELETE')).toBe(421)
    const foreign = { Host: `localhost:${port}`, Origin: 'https://evil.example', 'If-Match': '*' }
    expect(await statusFor(port, foreign, `/v1/projects/${id}`, 'DELETE')).toBe(403)
    expect(await statusFor(port, foreign, `/v1/projects/${id}/built`, 'POST')).toBe(403)
    expect((await fetch(`${url}/v1/projects/${id}`)).status).toBe(200)
  })

  test('on a network: not without a key or a setting that says so', async () => {
    const { code, stderr } = await launch({ DATA_DIR: newFolder(), PORT: '0', HOST: '0.0.0.0' }).ended
    expect([code, stderr]).toEqual([1, expect.stringContaining('set ACCESS_KEY')])
    const trusting = await running({ DATA_DIR: newFolder(), HOST: '0.0.0.0', TRUST_NETWORK: '1' })
    expect(await statusFor(trusting.port, {})).toBe(200)
  })

  test('with a key: programs that send it, and browsers that have signed in', async () => {
    const { port } = await running({
      DATA_DIR: newFolder(),
      HOST: '0.0.0.0',
      ACCESS_KEY: KEY,
      ALLOWED_HOSTS: 'rail.example',
    })
    const url = `http://127.0.0.1:${port}`
    expect((await fetch(`${url}/v1/projects`)).status).toBe(401)
    expect((await fetch(`${url}/v1/projects`)).headers.get('www-authenticate')).toBe('Bearer realm="Longchord"')
    expect((await fetch(`${url}/v1/projects`, { headers: { Authorization: `Bearer ${KEY}` } })).status).toBe(200)
    expect(await statusFor(port, { Host: 'rail.example', Authorization: `Bearer ${KEY}` })).toBe(200)
    expect((await fetch(`${url}/livez`)).status).toBe(200)

    const asked = await fetch(`${url}/shed?x=1`, { headers: { Accept: 'text/html' }, redirect: 'manual' })
    expect([asked.status, asked.headers.get('location')]).toEqual([303, '/sign-in?next=%2Fshed%3Fx%3D1'])
    const form = await (await fetch(`${url}/sign-in?next=%2Fshed%3Fx%3D1`)).text()
    expect(form).toContain('name="next" value="/shed?x=1"')
    const signIn = (fields: Record<string, string>) =>
      fetch(`${url}/sign-in`, { method: 'POST', body: new URLSearchParams(fields), redirect: 'manual' })
    expect((await signIn({ key: 'wrong' })).status).toBe(401)
    const signedIn = await signIn({ key: KEY, next: '/shed?x=1' })
    expect([signedIn.status, signedIn.headers.get('location')]).toEqual([303, '/shed?x=1'])
    const cookie = signedIn.headers.get('set-cookie')!
    expect(cookie).toMatch(/; HttpOnly/)
    expect(cookie).toMatch(/; SameSite=Lax/)
    const headers = { Cookie: cookie.split(';')[0]! }
    expect((await fetch(`${url}/shed`, { headers })).status).toBe(200)
    expect((await fetch(`${url}/v1/shed`, { headers })).status).toBe(200)
    for (const next of ['//evil.example', 'https://evil.example', '/\\evil.example', ''])
      expect((await signIn({ key: KEY, next })).headers.get('location')).toBe('/')
  })
})
