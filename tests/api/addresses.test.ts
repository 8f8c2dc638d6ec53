import { describe, expect, test } from 'vitest'
import { allows } from '../../src/api/request/accept.ts'
import { appWithoutStore, asking, committedDocument, placesIn, planWith, problemIn } from './asking.ts'

const { ask } = asking(appWithoutStore())
const ID = '01890a5d-ac96-774b-bcce-b302099a8057'

describe('methods', () => {
  const addresses = Object.entries(committedDocument.paths).map(([template, operations]) => {
    const methods = Object.keys(operations).map((method) => method.toUpperCase())
    const allowed = [...methods, ...(methods.includes('GET') ? ['HEAD'] : []), 'OPTIONS']
    return { path: template.replace('{id}', ID).replace('{revision}', '1'), allowed: allowed.toSorted() }
  })

  test.each([...addresses, { path: '/', allowed: ['GET', 'HEAD', 'OPTIONS', 'POST'] }])(
    '$path has $allowed',
    async ({ path, allowed }) => {
      const listed = (header: string | null) => header?.split(', ').toSorted()
      const options = await ask(path, { method: 'OPTIONS' })
      expect(options.status).toBe(204)
      expect(options.text).toBe('')
      expect(listed(options.headers.get('allow'))).toEqual(allowed)

      for (const method of ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'].filter((name) => !allowed.includes(name))) {
        const answer = await ask(path, { method, headers: { 'Content-Type': 'application/json' } })
        expect([method, answer.status]).toEqual([method, 405])
        expect(listed(answer.headers.get('allow'))).toEqual(allowed)
      }
    },
  )

  test('an address that is not there has none', async () => {
    for (const method of ['GET', 'POST', 'OPTIONS', 'DELETE'])
      expect((await ask('/v1/nothing', { method })).status).toBe(404)
  })
})

describe('HEAD', () => {
  test.each(['/v1/bends?diameter=20ft', '/v1/catalogue/sections', '/openapi.json', '/docs', '/livez', '/v1/bends'])(
    'answers %s as GET does, without a body',
    async (path) => {
      const [head, get] = [await ask(path, { method: 'HEAD' }), await ask(path)]
      expect(head.status).toBe(get.status)
      expect(head.text).toBe('')
      expect(head.headers.get('content-type')).toBe(get.headers.get('content-type'))
    },
  )
})

describe('an address nothing is at', () => {
  test('is told with the nearest one', async () => {
    const answer = await ask('/v1/estimate', { method: 'POST' })
    expect(answer.status).toBe(404)
    expect(problemIn(answer)).toMatchObject({
      title: 'Not found',
      detail: expect.stringContaining('/v1/estimates'),
      errors: [],
    })
  })

  test.each([
    '/v1',
    '/v1/',
    '/v1/estimates/',
    '/docs/../package.json',
    '/docs/%2e%2e%2fpackage.json',
    '/docs/index.html',
    '/docs/constructor',
    '/docs/swagger-ui.css.map',
    '/nonsense/%00/%ff',
  ])('%s', async (path) => {
    expect((await ask(path)).status).toBe(404)
  })

  test('is told to a person in HTML, to a program as a problem', async () => {
    const person = await ask('/nowhere', { headers: { Accept: 'text/html,*/*;q=0.8' } })
    expect([person.status, person.headers.get('content-type')]).toEqual([404, expect.stringContaining('text/html')])
    expect((await ask('/v1/nowhere', { headers: { Accept: 'text/html' } })).headers.get('content-type')).toBe(
      'application/problem+json',
    )
  })
})

describe('query parameters', () => {
  const GETS = [
    '/v1/bends?radius=3m',
    '/v1/catalogue/sections?',
    '/v1/catalogue/materials?',
    '/v1/rules?',
    '/livez?',
    '/openapi.json?',
  ]

  test.each(GETS)('%s: refresh is ignored, any other unknown one refused', async (path) => {
    expect((await ask(`${path}&refresh=1&refresh=2`)).status).toBe(200)
    const answer = await ask(`${path}&refesh=1&x=2`)
    expect(answer.status).toBe(400)
    expect(placesIn(answer)).toEqual(['refesh', 'x'])
    expect(problemIn(answer).errors[0]!.hint).toContain('"refresh"')
  })

  test('of a request with a body are looked at too', async () => {
    const answer = await ask('/v1/estimates?pretty=1', { method: 'POST', json: planWith() })
    expect(answer.status).toBe(400)
    expect(placesIn(answer)).toEqual(['pretty'])
    expect((await ask('/v1/estimates?refresh=1', { method: 'POST', json: planWith() })).status).toBe(200)
  })

  test('whatever stands in them, nothing breaks', async () => {
    for (const query of [
      '%',
      '%ff=%fe',
      '__proto__=1',
      'constructor=1',
      '=',
      '&&',
      'radius',
      'radius=',
      'a[b]=c',
      'radius=%00',
      `radius=${'9'.repeat(5000)}`,
    ])
      expect([query, (await ask(`/v1/bends?${query}`)).status]).toEqual([query, 400])
  })
})

describe('Accept', () => {
  // By hand from RFC 9110, section 12.5.1.
  test.each([
    [undefined, true],
    ['', true],
    ['*/*', true],
    ['application/json', true],
    ['APPLICATION/JSON', true],
    ['application/*', true],
    ['text/html, application/xhtml+xml, */*;q=0.8', true],
    ['application/json;q=0.001', true],
    ['application/json; charset=utf-8', true],
    ['text/html', false],
    ['text/*', false],
    ['application/problem+json', false],
    ['application/json;q=0', false],
    ['application/json;q=0, */*', false],
    ['application/*;q=0, */*', false],
    ['application/*;q=0, application/json', true],
    ['*/*;q=0', false],
    ['text/html;q=0', false],
  ])('%j: %s', async (accept, allowed) => {
    expect(allows(accept, 'application/json')).toBe(allowed)
    if (accept === undefined || accept === '') return
    const answer = await ask('/v1/catalogue/sections', { headers: { Accept: accept } })
    expect(answer.status).toBe(allowed ? 200 : 406)
  })

  test('is looked at before the body', async () => {
    const answer = await ask('/v1/estimates', { method: 'POST', headers: { Accept: 'text/csv' }, body: '{' })
    expect(answer.status).toBe(406)
    expect(placesIn(answer)).toEqual(['Accept'])
  })
})

describe('what stands on every answer', () => {
  test('an id of its own for each request, or the plain one the client sent', async () => {
    const idOf = async (sent?: string) =>
      (await ask('/livez', { headers: sent === undefined ? {} : { 'X-Request-Id': sent } })).headers.get('x-request-id')
    expect(await idOf()).not.toBe(await idOf())
    expect(await idOf('my-request_7')).toBe('my-request_7')
    for (const bad of ['a b', '<script>', 'x'.repeat(65), '{}']) expect(await idOf(bad)).not.toBe(bad)
  })

  test('headers that keep a browser from doing more with it, and no leave for other origins', async () => {
    for (const path of [
      '/livez',
      '/v1/nothing',
      '/v1/bends',
      '/docs',
      '/docs/api',
      '/docs/problems',
      '/docs/start.js',
    ]) {
      const { headers } = await ask(path, { headers: { Origin: 'https://elsewhere.example' } })
      expect(headers.get('x-content-type-options')).toBe('nosniff')
      expect(headers.get('content-security-policy')).toMatch(/^default-src 'none'/)
      expect(headers.get('content-security-policy')).not.toMatch(/unsafe|https?:|\*/)
      expect([...headers.keys()].filter((name) => name.startsWith('access-control'))).toEqual([])
    }
  })
})
