import { assumed, CELLS } from '../../api/endpoints/cells.ts'

interface Parameter {
  readonly name: string
  readonly required: boolean
  readonly description: string
}

/** A cell as the guide shows it. */
export interface LiveCell {
  /** As in its address, e.g. `mid-ordinate`. */
  readonly name: string
  readonly summary: string
  readonly description: string
  readonly parameters: readonly Parameter[]
  /** Path and query of its example. */
  readonly path: string
  /** Its exact answer to the example. */
  readonly shows: string
}

/** Every cell takes these; the guide explains them once. */
const COMMON = ['errors', 'refresh']

interface OpenApiDocument {
  readonly paths: Readonly<
    Record<
      string,
      {
        readonly get: {
          readonly parameters: readonly { name: string; in: string; required?: boolean; description?: string }[]
        }
      }
    >
  >
}

/** All cells, with their parameters from the OpenAPI document and the answers to their examples. */
export async function liveCells(answerTo: (path: string) => Promise<string>): Promise<LiveCell[]> {
  const { paths } = JSON.parse(await answerTo('/openapi.json')) as OpenApiDocument
  return Promise.all(
    CELLS.map(async (cell) => {
      const { name, summary, description, example } = cell
      const { parameters } = paths[`/v1/cell/${name}`]!.get
      const path = `/v1/cell/${name}?${example}`
      return {
        name,
        summary,
        description: `${description}${assumed(cell)}`,
        parameters: parameters
          .filter((parameter) => parameter.in === 'query' && !COMMON.includes(parameter.name))
          .map(({ name, required = false, description = '' }) => ({ name, required, description })),
        path,
        shows: await answerTo(path),
      }
    }),
  )
}
