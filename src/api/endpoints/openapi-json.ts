import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { openApiDocument } from '../openapi-document.ts'
import { answersIn } from '../request/accept.ts'
import { query } from '../request/query.ts'
import { sendTagged } from '../tagged.ts'

const endpoint = createRoute({
  hide: true,
  method: 'get',
  path: '/openapi.json',
  middleware: answersIn('application/json'),
  request: { query: query({}) },
  responses: { 200: { description: 'The OpenAPI document.' } },
})

/** The OpenAPI document of everything mounted before. */
export function mountOpenApiJson(api: OpenAPIHono): void {
  let document: string | undefined
  api.openapi(endpoint, (c) => {
    document ??= JSON.stringify(openApiDocument(api))
    return sendTagged(c, document)
  })
}
