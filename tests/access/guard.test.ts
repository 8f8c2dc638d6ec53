import { describe, expect, test } from 'vitest'
import { AccessGuard, type AccessRequest, type AccessSettings } from '../../src/access/guard.ts'

const OPEN: AccessSettings = { allowedHosts: [], accessKey: null, calculationOrigins: [] }
const KEY = 'a-secret-of-many-characters'

interface Sent extends Partial<Omit<AccessRequest, 'url'>> {
  readonly path?: string
}

function request({ path = '/v1/projects', host = 'localhost:8080', ...others }: Sent): AccessRequest {
  return {
    method: 'GET',
    url: new URL(`http://${host}${path}`),
    host,
    contentType: undefined,
    origin: undefined,
    fetchSite: undefined,
    fetchMode: undefined,
    fetchDest: undefined,
    authorization: undefined,
    session: undefined,
    remoteAddress: '203.0.113.5',
    localAddress: '127.0.0.1',
    ...others,
  }
}

const kindOf = (guard: AccessGuard, sent: Sent) => guard.refusal(request(sent))?.kind ?? 'admitted'

describe('the name in the address', () => {
  const guard = new AccessGuard({ ...OPEN, allowedHosts: ['railway.example', '192.168.7.4'] })

  test.each([
    'localhost',
    'LOCALHOST:8080',
    'localhost.',
    'a.localhost:1',
    '127.0.0.1',
    '127.9.9.9:80',
    '[::1]:8080',
    'railway.example',
    'Railway.Example.:81',
    '192.168.7.4',
  ])('%s is one of this service', (host) => {
    expect(kindOf(guard, { host })).toBe('admitted')
  })

  test.each([
    'evil.example',
    'evil.example:8080',
    'localhost.evil.example',
    '127.0.0.1.evil.example',
    'railway.example.evil.example',
    '192.168.7.5',
    '10.0.0.1',
    '[fe80::1]',
  ])('%s is not', (host) => {
    for (const path of ['/', '/v1/projects', '/v1/cell/sticks', '/livez'])
      expect(kindOf(guard, { host, path })).toBe('unknown-host')
  })

  test('is also the address at which the connection arrived', () => {
    expect(kindOf(guard, { host: '10.0.0.1:8080', localAddress: '10.0.0.1' })).toBe('admitted')
    expect(kindOf(guard, { host: '10.0.0.1', localAddress: '::ffff:10.0.0.1' })).toBe('admitted')
    expect(kindOf(guard, { host: '[fd00::5]:8080', localAddress: 'fd00::5' })).toBe('admitted')
    expect(kindOf(guard, { host: '10.0.0.2', localAddress: '10.0.0.1' })).toBe('unknown-host')
  })

  test('counts in the request line as well as in the header', () => {
    const sent = { ...request({}), url: new URL('http://evil.example/v1/projects') }
    expect(guard.refusal(sent)?.kind).toBe('unknown-host')
  })
})

describe('pages of other sites', () => {
  const guard = new AccessGuard({ ...OPEN, allowedHosts: ['railway.example'] })
  const POST = { method: 'POST' }

  test.each<[string, Sent]>([
    ['a program', POST],
    ['the page itself', { ...POST, path: '/', fetchSite: 'same-origin', origin: 'http://localhost:8080' }],
    [
      'the page itself, which keeps its address to itself',
      { ...POST, path: '/', fetchSite: 'same-origin', origin: 'null' },
    ],
    ['the page itself in an old browser', { ...POST, path: '/', origin: 'http://localhost:8080' }],
    ['the page under another loopback name', { ...POST, origin: 'http://127.0.0.1:8080' }],
    ['the page behind a proxy with TLS', { ...POST, host: 'railway.example', origin: 'https://railway.example' }],
    ['an address that was typed', { path: '/', fetchSite: 'none', fetchMode: 'navigate', fetchDest: 'document' }],
    [
      'a link on another site',
      { path: '/plans/x', fetchSite: 'cross-site', fetchMode: 'navigate', fetchDest: 'document' },
    ],
  ])('%s is admitted', (_, sent) => {
    expect(kindOf(guard, sent)).toBe('admitted')
  })

  test.each<[string, Sent]>([
    [
      'a form',
      {
        ...POST,
        path: '/',
        fetchSite: 'cross-site',
        fetchMode: 'navigate',
        fetchDest: 'document',
        origin: 'https://evil.example',
      },
    ],
    ['a form in an old browser', { ...POST, path: '/', origin: 'https://evil.example' }],
    [
      'a form without a word of its origin',
      { ...POST, path: '/plans/x/delete', contentType: 'application/x-www-form-urlencoded' },
    ],
    ['a request of a sandboxed frame', { ...POST, origin: 'null' }],
    [
      'a script',
      { ...POST, path: '/v1/projects', fetchSite: 'cross-site', fetchMode: 'no-cors', origin: 'https://evil.example' },
    ],
    ['a script that deletes', { method: 'DELETE', origin: 'https://evil.example' }],
    ['a script that marks a plan as built', { ...POST, path: '/v1/projects/x/built', origin: 'https://evil.example' }],
    ['another service on this computer', { ...POST, fetchSite: 'same-site', origin: 'http://localhost:3000' }],
    ['another service on this computer, in an old browser', { ...POST, origin: 'http://localhost:3000' }],
    [
      'a picture that is work',
      { path: '/v1/cell/sticks', fetchSite: 'cross-site', fetchMode: 'no-cors', fetchDest: 'image' },
    ],
    ['a frame', { path: '/demo', fetchSite: 'cross-site', fetchMode: 'navigate', fetchDest: 'iframe' }],
    [
      'a link into the interface',
      { path: '/v1/cell/sticks', fetchSite: 'cross-site', fetchMode: 'navigate', fetchDest: 'document' },
    ],
    ['nonsense as an origin', { ...POST, origin: 'x' }],
  ])('%s is not', (_, sent) => {
    expect(kindOf(guard, sent)).toBe('foreign-request')
  })

  test('calculate where that is opened to them, and reach nothing that is stored', () => {
    const origin = 'https://plans.example'
    const open = new AccessGuard({ ...OPEN, calculationOrigins: [origin] })
    const foreign = { ...POST, origin, fetchSite: 'cross-site' }
    for (const path of ['/v1/estimates', '/v1/cut-plans', '/v1/bends', '/v1/cell/ties', '/v1/catalogue/sections']) {
      expect(kindOf(open, { ...foreign, path })).toBe('admitted')
      expect(open.foreignReader(request({ ...foreign, path }))).toBe(origin)
      expect(kindOf(open, { ...foreign, path, origin: 'https://evil.example' })).toBe('foreign-request')
    }
    for (const path of [
      '/v1/projects',
      '/v1/projects/x/estimate',
      '/v1/shed',
      '/v1/linked/x/tables/bill.csv',
      '/',
      '/v1/estimatesx',
    ]) {
      expect(kindOf(open, { ...foreign, path })).toBe('foreign-request')
      expect(open.foreignReader(request({ ...foreign, path }))).toBeNull()
    }
  })
})

describe('the access key', () => {
  const settings = { ...OPEN, accessKey: KEY }
  const bearer = (key: string) => ({ authorization: `Bearer ${key}` })

  test('is needed for everything but the state of the service and signing in', () => {
    const guard = new AccessGuard(settings)
    for (const path of [
      '/',
      '/demo',
      '/docs',
      '/openapi.json',
      '/v1/projects',
      '/v1/estimates',
      '/v1/cell/ties',
      '/livez/x',
      '/sign-in/x',
    ]) {
      expect(kindOf(guard, { path })).toBe('key-required')
      expect(kindOf(guard, { path, ...bearer(KEY) })).toBe('admitted')
      expect(kindOf(guard, { path, authorization: `bearer  ${KEY} ` })).toBe('admitted')
    }
    for (const path of ['/livez', '/readyz', '/sign-in', '/v1/linked/token/tables/bill.csv'])
      expect(kindOf(guard, { path })).toBe('admitted')
  })

  test.each([KEY.slice(1), `${KEY}x`, KEY.toUpperCase(), 'x', KEY.repeat(1000)])('is not %s', (wrong) => {
    expect(kindOf(new AccessGuard(settings), bearer(wrong))).toBe('key-required')
  })

  test('does not make up for a foreign page', () => {
    const foreign = { method: 'POST', origin: 'https://evil.example', ...bearer(KEY) }
    expect(kindOf(new AccessGuard(settings), foreign)).toBe('foreign-request')
  })

  test('after ten wrong ones, a client waits ten minutes, and others do not', () => {
    let now = 1_000_000
    const guard = new AccessGuard(settings, () => now)
    for (let n = 0; n < 10; n++) {
      expect(kindOf(guard, bearer(`wrong ${n}`))).toBe('key-required')
      now += 1000
    }
    expect(guard.refusal(request(bearer(KEY)))).toMatchObject({ kind: 'too-many-wrong-keys', retryAfterS: 590 })
    expect(guard.signIn(KEY, '203.0.113.5')).toMatchObject({ kind: 'too-many-wrong-keys' })
    expect(kindOf(guard, { ...bearer(KEY), remoteAddress: '203.0.113.6' })).toBe('admitted')
    now += 590_001
    expect(kindOf(guard, bearer(KEY))).toBe('admitted')
  })

  test('a client with a network of IPv6 counts as one', () => {
    const guard = new AccessGuard(settings, () => 0)
    for (let n = 0; n < 10; n++) kindOf(guard, { ...bearer('wrong'), remoteAddress: `2001:db8:0:7::${n + 1}` })
    expect(kindOf(guard, { ...bearer(KEY), remoteAddress: '2001:db8:0:7:1:2:3:4' })).toBe('too-many-wrong-keys')
    expect(kindOf(guard, { ...bearer(KEY), remoteAddress: '2001:db8:0:8::1' })).toBe('admitted')
  })

  test('a session holds for thirty days, also after a restart, and only with this key', () => {
    let now = 1_700_000_000_000
    const guard = new AccessGuard(settings, () => now)
    const signedIn = guard.signIn(KEY, undefined)
    const session = 'session' in signedIn ? signedIn.session : ''
    expect(kindOf(guard, { session })).toBe('admitted')
    expect(kindOf(new AccessGuard(settings, () => now), { session })).toBe('admitted')
    expect(kindOf(new AccessGuard({ ...settings, accessKey: 'another' }, () => now), { session })).toBe('key-required')
    const [until, signature] = session.split('.')
    for (const forged of [`${Number(until) + 1}.${signature}`, `${until}.`, session.slice(0, -1), `${session}x`, 'x'])
      expect(kindOf(guard, { session: forged })).toBe('key-required')
    now += 30 * 86_400_000
    expect(kindOf(guard, { session })).toBe('key-required')
  })

  test('what is cached is given to the same clients, and a look there counts no wrong key', () => {
    const guard = new AccessGuard(settings, () => 0)
    for (let n = 0; n < 20; n++) expect(guard.admits(request(bearer('wrong')))).toBe(false)
    expect(kindOf(guard, bearer(KEY))).toBe('admitted')
    expect(guard.admits(request({}))).toBe(false)
    expect(new AccessGuard(OPEN).admits(request({}))).toBe(true)
    expect(new AccessGuard(OPEN).admits(request({ host: 'evil.example' }))).toBe(false)
  })
})
