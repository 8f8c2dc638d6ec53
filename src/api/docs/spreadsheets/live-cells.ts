import type { OpenAPIHono } from '@hono/zod-openapi'
import { CELLS } from '../../endpoints/cells.ts'
import { openApiDocument } from '../../openapi-document.ts'

interface Parameter {
  readonly name: string
  readonly required: boolean
  readonly description: string
}

/** A cell as the guide tells of it. */
export interface LiveCell {
  /** As in its address, e.g. `mid-ordinate`. */
  readonly name: string
  readonly summary: string
  readonly description: string
  readonly parameters: readonly Parameter[]
  /** Path and query of its example. */
  readonly path: string
  /** What it answers to the example, letter for letter. */
  readonly shows: string
}

/** Answers a path of this service with the text of its answer. */
export type Ask = (path: string) => Promise<string>

/** What every cell takes is told once. */
const COMMON = ['errors', 'refresh']

interface Described {
  readonly parameters: readonly { name: string; in: string; required?: boolean; description?: string }[]
}

/** Every cell there is, with its parameters as the document of the interface tells them and its example worked out. */
export function liveCells(api: OpenAPIHono, ask: Ask): Promise<LiveCell[]> {
  const paths = openApiDocument(api).paths as Readonly<Record<string, { readonly get: Described }>>
  return Promise.all(
    CELLS.map(async ({ name, summary, description, example }) => {
      const { parameters } = paths[`/v1/cell/${name}`]!.get
      const path = `/v1/cell/${name}?${example}`
      return {
        name,
        summary,
        description,
        parameters: parameters
          .filter((parameter) => parameter.in === 'query' && !COMMON.includes(parameter.name))
          .map(({ name, required = false, description = '' }) => ({ name, required, description })),
        path,
        shows: await ask(path),
      }
    }),
  )
}
