import { execFile } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import { Validator } from '@seriousme/openapi-schema-validator'
import openapiTypes, { type OpenAPI3 } from 'openapi-typescript'
import { describe, expect, test } from 'vitest'
import { FAULTS } from '../../src/api/fault-catalogue.ts'
import { FINDINGS } from '../../src/api/finding-catalogue.ts'
import { appWithoutStore, asking, committedDocument, example } from './asking.ts'

const app = appWithoutStore()
const { ask } = asking(app)
const pathOf = (name: string) => fileURLToPath(new URL(`../../${name}`, import.meta.url))
const operations = Object.entries(committedDocument.paths).flatMap(([path, methods]) =>
  Object.entries(methods).map(([method, operation]) => ({
    path,
    method,
    operation: operation as unknown as Described,
  })),
)

interface Described {
  readonly operationId: string
  readonly summary: string
  readonly description: string
  readonly tags: readonly string[]
  readonly requestBody?: { content: Record<string, { examples?: Record<string, { value: unknown }> }> }
}

describe('the OpenAPI document', () => {
  test('that is committed is the one that is served (else run: npm run openapi)', async () => {
    const served = await ask('/openapi.json')
    expect(served.headers.get('content-type')).toBe('application/json')
    expect(JSON.parse(served.text)).toEqual(committedDocument)
  })

  test('has its types in the file beside it (else run: npm run openapi)', async () => {
    const types = await openapiTypes(structuredClone(committedDocument) as unknown as OpenAPI3)
    expect(types).toContain('estimatePlan: {')
    expect(readFileSync(pathOf('openapi/interface.d.ts'), 'utf8') === types).toBe(true)
  })

  test('has the version of the package', () => {
    const { version } = JSON.parse(readFileSync(pathOf('package.json'), 'utf8')) as { version: string }
    expect((committedDocument as unknown as { info: { version: string } }).info.version).toBe(version)
  })

  test('is sound to a schema validator, which finds a planted fault', async () => {
    const sound = await new Validator().validate({ ...committedDocument })
    expect([sound.valid, sound.errors]).toEqual([true, undefined])
    const planted = { ...committedDocument, info: { title: 'no version' } }
    expect((await new Validator().validate(planted)).valid).toBe(false)
  })

  test('is clean under the rules of recommended-strict', async () => {
    const lint = [
      pathOf('node_modules/@redocly/cli/bin/cli.js'),
      'lint',
      '--format=json',
      '--config',
      pathOf('openapi/redocly.yaml'),
    ]
    const environment = { ...process.env, REDOCLY_TELEMETRY: 'off', REDOCLY_SUPPRESS_UPDATE_NOTICE: 'true' }
    const run = promisify(execFile)(process.execPath, [...lint, pathOf('openapi/openapi.json')], { env: environment })
    const { stdout } = await run
    const { totals, problems } = JSON.parse(stdout) as {
      totals: { errors: number; warnings: number }
      problems: unknown[]
    }
    expect([totals.errors, totals.warnings, problems]).toEqual([0, 0, []])
  }, 60_000)

  test('describes every operation in words, each under a name of its own', () => {
    expect(operations.length).toBeGreaterThan(14)
    expect(new Set(operations.map(({ operation }) => operation.operationId)).size).toBe(operations.length)
    for (const { operation } of operations) {
      expect(operation.summary.length).toBeGreaterThan(10)
      expect(operation.description.length).toBeGreaterThan(15)
      expect(operation.tags.length).toBeGreaterThan(0)
    }
  })

  test('has the example plans as its examples, as they stand in their files', () => {
    const { requestBody } = operations.find(({ operation }) => operation.operationId === 'estimatePlan')!.operation
    const examples = requestBody!.content['application/json']!.examples!
    expect(Object.keys(examples).toSorted()).toEqual([
      'extension-of-a-line',
      'footbridge-line',
      'hillside-with-grade',
      'line-with-bed-and-feeders',
      'loop-in-the-sun',
      'oval-of-ready-made-track',
      'passing-siding',
      'pond-and-terrace',
      'quarter-loop',
      'small-oval',
      'track-through-a-bank',
    ])
    for (const [name, { value }] of Object.entries(examples)) expect(value).toEqual(example(name))
  })
})

interface Schema {
  readonly $ref?: string
  readonly [keyword: string]: unknown
}
const { schemas } = committedDocument.components as unknown as { schemas: Record<string, { properties: Schema }> }

describe('a client made from the document', () => {
  const resolved = (schema: unknown): unknown => {
    const { $ref } = schema as Schema
    return $ref === undefined ? schema : schemas[$ref.replace('#/components/schemas/', '')]
  }

  test('sends no null in a query', () => {
    const parameters = operations.flatMap(
      ({ operation }) =>
        (operation as unknown as { parameters?: { name: string; in: string; schema: unknown }[] }).parameters ?? [],
    )
    expect(parameters.length).toBeGreaterThan(150)
    for (const { name, schema } of parameters)
      expect(JSON.stringify([schema, resolved(schema)]), name).not.toContain('null')
  })

  test('finds an example of every body', () => {
    const bodies = operations.flatMap(({ operation }) =>
      Object.entries(operation.requestBody?.content ?? {}).map(([type, body]) => [operation.operationId, type, body]),
    ) as [
      string,
      string,
      { example?: unknown; examples?: Record<string, { value?: unknown; externalValue?: string }> },
    ][]
    expect(bodies.length).toBeGreaterThan(16)
    for (const [operation, type, { example, examples }] of bodies) {
      const [first] = Object.values(examples ?? {})
      expect(example ?? first?.value ?? first?.externalValue, `${operation}, ${type}`).toBeTruthy()
    }
  })

  test('and those of workbooks are files that are answered as the same rows in CSV are', async () => {
    const content = operations.find(({ operation }) => operation.operationId === 'estimatePlan')!.operation.requestBody!
      .content
    const send = async (type: string, body: Uint8Array<ArrayBuffer>) =>
      app.request('/v1/estimates?section=250&material=brass', {
        method: 'POST',
        headers: { 'Content-Type': type },
        body,
      })
    const file = async (path: string) => {
      const answer = await app.request(path)
      return { type: answer.headers.get('content-type'), bytes: new Uint8Array(await answer.arrayBuffer()) }
    }
    const rows = await send('text/csv', (await file('/docs/examples/spur-in-rows.csv')).bytes)
    const expected = JSON.parse(await rows.text())
    // by hand: 6 ft + an eighth of the circumference of 18 ft + 3.5 ft
    expect(expected.tracks[0].lengthMm).toBeCloseTo((9.5 + (18 * Math.PI) / 8) * 304.8, 6)
    for (const type of Object.keys(content).filter((each) => each.includes('sheet'))) {
      const [{ externalValue }] = Object.values(content[type]!.examples!) as unknown as [{ externalValue: string }]
      const example = await file(externalValue)
      expect(example.type).toBe(type)
      const answer = await send(type, example.bytes)
      expect([type, answer.status, JSON.parse(await answer.text())]).toEqual([type, 200, expected])
    }
  })

  test('knows a saved plan as a plan, and which words may become more', () => {
    expect(JSON.stringify(schemas.Project!.properties.plan)).toContain('"#/components/schemas/Plan"')
    const words = (component: string, field: string) => schemas[component]!.properties[field] as Schema
    expect(words('Finding', 'rule')).toMatchObject({ enum: Object.keys(FINDINGS), 'x-extensible': true })
    expect(words('FaultInBody', 'code')).toMatchObject({ enum: Object.keys(FAULTS), 'x-extensible': true })
    expect(words('BillLine', 'item')).toMatchObject({
      enum: expect.arrayContaining(['rail-stick', 'extra']),
      'x-extensible': true,
    })
    expect(words('Finding', 'severity')).not.toHaveProperty('x-extensible')
  })
})

describe('the screen to read and try it', () => {
  test('is served with everything it loads, nothing from other hosts', async () => {
    const page = await ask('/docs/api')
    expect(page.status).toBe(200)
    const loaded = [...page.text.matchAll(/(?:src=|<link rel="stylesheet" href=)"([^"]+)"/g)].map((match) => match[1]!)
    expect(loaded.length).toBeGreaterThan(3)
    for (const address of loaded) {
      expect(address).toMatch(/^\/[\w./-]+$/)
      const asset = await ask(address)
      expect(asset.status).toBe(200)
      expect(asset.text.length).toBeGreaterThan(100)
    }
    expect((await ask('/docs/swagger-ui-bundle.js')).headers.get('content-type')).toMatch(/^text\/javascript/)
    expect((await ask('/docs/start.js')).text).toContain('validatorUrl: null')
  })
})
