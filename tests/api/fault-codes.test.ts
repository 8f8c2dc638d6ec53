import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { FAULTS, type FaultCode, PROBLEMS } from '../../src/api/fault-catalogue.ts'
import { FINDINGS } from '../../src/api/finding-catalogue.ts'
import {
  ARC,
  type Asked,
  appWithoutStore,
  asking,
  committedDocument,
  planWith,
  problemIn,
  TANGENT,
  trackOf,
} from './asking.ts'

const { ask } = asking(appWithoutStore())

const plan = (change: Readonly<Record<string, unknown>>): [string, Asked] => [
  '/v1/estimates',
  { method: 'POST', json: planWith(change) },
]
const elements = (...list: unknown[]) => plan({ tracks: [trackOf(...list)] })
const easement = { kind: 'easement', length: '2 ft' }
const missing = '/v1/projects/01890a5d-ac96-774b-bcce-b302099a8057'

/** A request for each code; those that take a store are met in the tests of projects and of the shed. */
const REQUESTS: Readonly<
  Record<
    Exclude<FaultCode, 'stale-revision' | 'already-built' | 'in-progress' | 'key-reused'>,
    [path: string, asked?: Asked]
  >
> = {
  'adjacent-easements': elements(easement, easement, ARC),
  'bad-cursor': ['/v1/projects?cursor=aGVsbG8'],
  'bad-entity-tag': [missing, { method: 'DELETE', headers: { 'If-Match': '3' } }],
  'bad-key': ['/v1/projects', { method: 'POST', headers: { 'Idempotency-Key': '""' }, json: {} }],
  'bad-length': elements({ ...TANGENT, length: 'six feet' }),
  'bad-number': ['/v1/projects?limit=ten'],
  'bad-price': plan({ supplies: { sticks: [{ length: '5 ft', price: '14.505' }] } }),
  'bad-temperature': plan({ climate: { laying: 'warm', coldest: -10, hottest: 35 } }),
  'bad-track': ['/v1/cell/sticks?track=S6ft_X'],
  'bad-text': plan({ title: 'nul\0' }),
  'cannot-fit': elements({ kind: 'tangent', length: 'fit' }),
  contradictory: elements({ ...ARC, radius: '9 ft' }),
  'duplicate-length': plan({ supplies: { sticks: [{ length: '5 ft' }, { length: '60 in' }] } }),
  'duplicate-name': plan({ tracks: [trackOf(TANGENT), trackOf(TANGENT)] }),
  'easement-without-change': elements(TANGENT, easement, TANGENT),
  'if-match-required': [missing, { method: 'DELETE' }],
  'impossible-test-bend': plan({
    rail: { section: '250', material: 'brass', calibration: [{ formedRadius: 2400, restingRadius: 700 }] },
  }),
  'malformed-json': ['/v1/estimates', { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: '{' }],
  missing: plan({ rail: undefined }),
  'no-fit': plan({
    tracks: [{ ...trackOf({ kind: 'tangent', length: 'fit' }), end: { at: { x: 0, y: 100 } } }],
  }),
  'no-rail': plan({ supplies: { sticks: [{ length: '5 ft', buyable: false }] } }),
  'not-acceptable': ['/v1/bends?radius=3m', { headers: { Accept: 'text/html' } }],
  'out-of-order': plan({
    tracks: [
      {
        ...trackOf(TANGENT),
        gradeLine: [
          { at: 9, elevation: 0 },
          { at: 8, elevation: 0 },
        ],
      },
    ],
  }),
  'out-of-range': elements({ ...TANGENT, length: 0 }),
  'repeated-parameter': ['/v1/bends?radius=3m&radius=4m'],
  'too-few': plan({ tracks: [] }),
  'too-little-rail': plan({ supplies: { sticks: [{ length: '5 ft', onHand: 1, buyable: false }] } }),
  'too-long': plan({ title: 'x'.repeat(201) }),
  'too-many': plan({ chords: Array.from({ length: 21 }, (_, n) => 100 + n) }),
  'unknown-field': plan({ titel: 'x' }),
  'unknown-parameter': ['/v1/bends?diamter=20ft'],
  'unknown-temper': plan({ rail: { section: '250', material: 'brass', temper: 'harder' } }),
  'unknown-value': plan({ rail: { section: '251', material: 'brass' } }),
  'unsupported-body': ['/v1/estimates', { method: 'POST', headers: { 'Content-Type': 'text/plain' }, body: '{}' }],
  'wrong-type': plan({ tracks: {} }),
}

const SOURCE = new URL('../../src/', import.meta.url)

/** What a pattern captures in the sources of some rooms. */
function inSources(rooms: RegExp, pattern: RegExp): string[] {
  return readdirSync(SOURCE, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts') && rooms.test(name))
    .flatMap((name) => [...readFileSync(new URL(name, SOURCE), 'utf8').matchAll(pattern)])
    .map((match) => match[1]!)
}

test('the catalogue of findings has every rule that is given, and no other', () => {
  const given = new Set(
    inSources(/^(api|checking|estimate|laying|bending|network|shed)\b/, /(?<=\brule: (?:[^,\n]*[?:] )?)'([a-z-]+)'/g),
  )
  expect(given.size).toBeGreaterThan(20)
  expect([...given].toSorted()).toEqual(Object.keys(FINDINGS).toSorted())
})

describe('the catalogue of faults', () => {
  test.each(Object.entries(REQUESTS))('%s is sent, at a status it is listed under', async (code, [path, asked]) => {
    const answer = await ask(path, asked)
    const { errors, type } = problemIn(answer)
    expect(errors.map((error) => error.code)).toEqual([code])
    expect(errors[0]!.detail.length).toBeGreaterThan(10)
    expect(FAULTS[code as FaultCode].statuses as readonly number[]).toContain(answer.status)
    expect(Object.keys(PROBLEMS)).toContain(type.split('#')[1])
  })

  test('has every code that the rooms behind the endpoints give', () => {
    const given = inSources(/^(api|estimate|laying|survey|bending.bend-check)\b/, /\bcode: '([a-z-]+)'/g).filter(
      (code) => code !== 'custom',
    )
    expect(new Set(given).size).toBeGreaterThan(10)
    expect([...new Set(given)].filter((code) => !(code in FAULTS))).toEqual([])
  })

  test('stands in the OpenAPI document and on the page that problems point to, and nothing else does', async () => {
    const { code } = committedDocument.components.schemas.FaultInBody!.properties!
    expect((code as { enum: string[] }).enum.toSorted()).toEqual(Object.keys(FAULTS).toSorted())

    const page = await ask('/docs/problems')
    expect(page.status).toBe(200)
    const rows = [...page.text.matchAll(/<tr id="([\w-]+)">/g)].map((match) => match[1]!)
    const expected = [
      ...Object.keys(PROBLEMS),
      ...Object.keys(FAULTS).map((code) => `fault-${code}`),
      ...Object.keys(FINDINGS).map((rule) => `finding-${rule}`),
    ]
    expect(rows.toSorted()).toEqual(expected.toSorted())
  })
})
