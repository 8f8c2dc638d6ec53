import { describe, expect, test } from 'vitest'
import { firstSyntaxFault } from '../../src/api/request/json-syntax.ts'
import { appWithoutStore, asking, planWith, problemIn } from './asking.ts'

const { ask } = asking(appWithoutStore())
const JSON_TYPE = { 'Content-Type': 'application/json' }
const post = (body: string | Uint8Array<ArrayBuffer>, headers: Readonly<Record<string, string>> = JSON_TYPE) =>
  ask('/v1/estimates', { method: 'POST', headers, body })

describe('a body that is not JSON', () => {
  test.each([
    ['', 'empty'],
    [' ', 'line 1, column 2: found the end where a value'],
    ['{"rail": 1,}', 'line 1, column 12: found "}" where a name'],
    ['{\n  "rail": 1\n  "tracks": 2\n}', 'line 3, column 3: found "\\"" where a comma'],
    ["{'rail': 1}", 'line 1, column 2: found "\'" where a name'],
    ['[1, 2', 'line 1, column 6: found the end where a comma'],
    ['[1, 2,]', 'line 1, column 7: found "]" where a value'],
    ['{"a" 1}', 'line 1, column 6: found "1" where a colon'],
    ['{"a": 1/2}', 'line 1, column 8: found "/" where a comma'],
    ['{"a": .5}', 'line 1, column 7: found "." where a value'],
    ['{"a": 01}', 'line 1, column 8: found "1" where a comma'],
    ['{"a": "b\nc"}', 'line 1, column 9: found a line break'],
    ['{"a": "b', 'line 1, column 9: found the end inside a text'],
    ['{"a": "\\x"}', 'line 1, column 8: found "\\\\" without a valid escape'],
    ['{} {}', 'line 1, column 4: found "{" after the end'],
    ['{"a": NaN}', 'line 1, column 7: found "N" where a value'],
    ['// plan\n{}', 'line 1, column 1: found "/" where a value'],
    ['{"ä": 👩}', 'line 1, column 7: found "👩" where a value'],
  ])('%j is refused, with the place', async (body, detail) => {
    const answer = await post(body)
    expect(answer.status).toBe(400)
    expect(problemIn(answer).errors).toEqual([
      { pointer: '', code: 'malformed-json', detail: expect.stringContaining(detail), hint: expect.any(String) },
    ])
  })

  test('bytes that are not UTF-8 are refused', async () => {
    const answer = await post(new Uint8Array([0x22, 0xe9, 0x22]))
    expect(answer.status).toBe(400)
    expect(problemIn(answer).errors[0]!.detail).toContain('UTF-8')
  })

  test('the grammar agrees with the parser of the language', () => {
    const texts = [
      '{}',
      '[]',
      '0',
      '-0.5e+7',
      '"\\u00e4\\n"',
      ' [ 1 , { "a" : [ null , true , false ] } ] \r\n\t',
      '{"a":{"b":[{}]}}',
      '""',
      '1.',
      '1e',
      '-',
      '+1',
      'tru',
      '{,}',
      '[,]',
      '{"a":}',
      '[1}',
      '{"a":1]',
      ']',
      '"\t"',
      '"\\u12"',
      '\u00a0{}',
      '{"a":1 "b":2}',
    ]
    for (const text of texts) {
      let parses = true
      try {
        JSON.parse(text)
      } catch {
        parses = false
      }
      expect([text, firstSyntaxFault(text) === null]).toEqual([text, parses])
    }
  })
})

describe('a body that is not announced as JSON', () => {
  test.each([
    ['text/plain'],
    ['application/x-www-form-urlencoded'],
    ['application/json; charset=iso-8859-1'],
    ['application/jsonp'],
    ['text/json'],
  ])('%s is refused, and the hint names the header', async (type) => {
    const answer = await post(JSON.stringify(planWith()), { 'Content-Type': type })
    expect(answer.status).toBe(415)
    expect(problemIn(answer).errors).toEqual([
      {
        parameter: 'Content-Type',
        code: 'unsupported-body',
        detail: expect.stringContaining(type.slice(0, 20)),
        hint: expect.stringMatching(/^send the header Content-Type: application\/json/),
      },
    ])
  })

  test('without any Content-Type it is refused too', async () => {
    const answer = await post(new TextEncoder().encode('{}'), {})
    expect(answer.status).toBe(415)
    expect(problemIn(answer).errors[0]).toMatchObject({ parameter: 'Content-Type', detail: 'it is missing' })
  })

  test('compressed it is refused', async () => {
    const answer = await post('{}', { ...JSON_TYPE, 'Content-Encoding': 'gzip' })
    expect(answer.status).toBe(415)
    expect(problemIn(answer).errors[0]).toMatchObject({ parameter: 'Content-Encoding' })
  })

  test.each(['application/json', 'Application/JSON; charset=UTF-8', 'application/json;charset="utf-8"'])(
    '%s is taken',
    async (type) => {
      expect((await post(JSON.stringify(planWith()), { 'Content-Type': type })).status).toBe(200)
    },
  )

  test('a byte order mark is skipped', async () => {
    expect((await post(`\ufeff${JSON.stringify(planWith())}`)).status).toBe(200)
  })
})

describe('the size of a body', () => {
  const MIB = 1024 * 1024
  /** A plan padded with blanks to so many bytes. */
  const padded = (bytes: number) => JSON.stringify(planWith()).padEnd(bytes, ' ')

  test('of 1 MiB is taken', async () => {
    expect((await post(padded(MIB))).status).toBe(200)
  })

  test('of one byte more is refused, announced or not', async () => {
    expect((await post(padded(MIB + 1))).status).toBe(413)
    expect((await post(padded(MIB + 1), { ...JSON_TYPE, 'Content-Length': String(MIB + 1) })).status).toBe(413)
  })
})
