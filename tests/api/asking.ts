import { readFileSync } from 'node:fs'
import type { Hono } from 'hono'
import { expect } from 'vitest'
import type { AccessSettings } from '../../src/access/guard.ts'
import { PROBLEM, type Problem } from '../../src/api/answers/problem.ts'
import { answerSchema } from '../../src/api/answers/schema.ts'
import { createApp } from '../../src/app.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'

export interface Asked {
  readonly method?: string
  readonly headers?: Readonly<Record<string, string>>
  /** Sent as it is. */
  readonly body?: string | Uint8Array<ArrayBuffer>
  /** Sent as JSON, with the Content-Type that belongs to it. */
  readonly json?: unknown
}

export interface Answer {
  readonly status: number
  readonly headers: Headers
  readonly text: string
}

interface Operation {
  readonly operationId: string
  readonly responses: Readonly<Record<string, { content?: Record<string, unknown> }>>
}

interface Document {
  readonly components: {
    readonly schemas: Readonly<Record<string, { properties?: Readonly<Record<string, unknown>> }>>
  }
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>
}

export const committedDocument = JSON.parse(
  readFileSync(new URL('../../openapi/openapi.json', import.meta.url), 'utf8'),
) as Document

/** What no answer may tell: statements, files, stacks, driver's words. */
const LEAK =
  /\b(?:select|insert into|update|delete from) .*\b(?:from|values|set|where)\b|node_modules|\/src\/|\.ts:\d|\.js:\d|pglite|drizzle|postgres/i

/** Who may use the service is said once for all addresses, in the description of the interface. */
const ACCESS_REFUSALS = [401, 403, 421, 429]

/** A program that asks the service, and looks at every answer on the way. */
export function asking(app: Hono) {
  /** `operationId status`, as far as they were met. */
  const met = new Set<string>()

  async function ask(path: string, { method = 'GET', headers = {}, body, json }: Asked = {}): Promise<Answer> {
    const response = await app.request(path, {
      method,
      headers: { ...(json === undefined ? {} : { 'Content-Type': 'application/json' }), ...headers },
      ...(json === undefined ? (body === undefined ? {} : { body }) : { body: JSON.stringify(json) }),
    })
    const answer = { status: response.status, headers: response.headers, text: await response.text() }
    lookAt(path, method, answer)
    return answer
  }

  function lookAt(path: string, method: string, answer: Answer): void {
    const { status, headers, text } = answer
    expect(headers.get('x-request-id')).toMatch(/^[\w-]{1,64}$/)
    const isProblem =
      status >= 400 && method !== 'HEAD' && headers.get('content-type')?.startsWith('text/html') !== true
    if (isProblem) {
      expect(headers.get('content-type')).toBe('application/problem+json')
      const problem = problemIn(answer)
      expect(problem.status).toBe(status)
      expect(problem.instance).toBe(headers.get('x-request-id'))
      expect(text).not.toMatch(LEAK)
    }
    const operation = operationAt(path, method)
    if (!operation) return
    met.add(`${operation.operationId} ${status}`)
    if (status === 500 || ACCESS_REFUSALS.includes(status)) return
    const documented = operation.responses[status]
    expect(documented, `${operation.operationId} answers ${status}, which it does not document`).toBeDefined()
    const mediaTypes = Object.keys(documented?.content ?? {})
    if (method === 'HEAD' || mediaTypes.length === 0) return
    expect(mediaTypes).toContain(headers.get('content-type')?.split(';')[0])
  }

  return { ask, met }
}

/** The documented operation behind a request; HEAD is that of GET. */
function operationAt(path: string, method: string): Operation | null {
  const [address] = path.split('?')
  const verb = method === 'HEAD' ? 'get' : method.toLowerCase()
  for (const [template, operations] of Object.entries(committedDocument.paths)) {
    const pattern = new RegExp(`^${template.replaceAll('.', '\\.').replaceAll(/\{\w+\}/g, '[^/]+')}$`)
    if (pattern.test(address!)) return operations[verb] ?? null
  }
  return null
}

/** The problem an answer carries; it has exactly the documented fields. */
export function problemIn({ text }: Answer): Problem {
  const body: unknown = JSON.parse(text)
  const problem = answerSchema(PROBLEM).parse(body)
  expect(problem).toEqual(body)
  return problem
}

/** The places an answer complains of: pointers into the body and names of parameters. */
export function placesIn(answer: Answer): string[] {
  return problemIn(answer).errors.map((error) => ('pointer' in error ? error.pointer : error.parameter))
}

/** An app for endpoints that have no business with the store: any call of it fails the test. */
export function appWithoutStore(access?: AccessSettings): Hono {
  const refuse = (_: object, name: string | symbol) => {
    throw new Error(`this endpoint is not to use the store (${String(name)})`)
  }
  return createApp({
    store: new Proxy({}, { get: refuse }) as ProjectStore,
    workers: inThisThread,
    ...(access && { access }),
  })
}

/** A small sound plan; `change` makes it something else. */
export function planWith(change: Readonly<Record<string, unknown>> = {}) {
  return { rail: { section: '250', material: 'brass' }, tracks: [trackOf(TANGENT)], ...change }
}

export const TANGENT = { kind: 'tangent', length: '6 ft' }
export const ARC = { kind: 'arc', diameter: '18 ft', angle: 45, turn: 'left' }

export function trackOf(...elements: readonly unknown[]) {
  return { name: 'main', elements }
}

export function example(name: string): unknown {
  return JSON.parse(readFileSync(new URL(`../../openapi/examples/${name}.json`, import.meta.url), 'utf8'))
}
