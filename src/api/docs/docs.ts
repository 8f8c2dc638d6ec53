import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { openApiDocument } from '../openapi-document.ts'
import { PROBLEMS_PAGE } from '../problem.ts'
import { answersIn } from '../request/accept.ts'
import { query } from '../schemas/query.ts'
import { readAsset } from './assets.ts'
import { problemsPage } from './problems-page.ts'
import { referencePage } from './reference-page.ts'
import { mountSpreadsheetGuide } from './spreadsheets/spreadsheets.ts'

const documentEndpoint = createRoute({
  hide: true,
  method: 'get',
  path: '/openapi.json',
  middleware: answersIn('application/json'),
  request: { query: query({}) },
  responses: { 200: { description: 'The OpenAPI document.' } },
})

const NO_SCRIPT = "default-src 'none'; style-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

const REFERENCE =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

/** The OpenAPI document, a screen to read and try it, the list of problems, and the guide for spreadsheets. All of it works without internet. */
export function mountDocs(api: OpenAPIHono): void {
  let document: string | undefined
  api.openapi(documentEndpoint, (c) => {
    document ??= JSON.stringify(openApiDocument(api))
    return c.body(document, 200, { 'Content-Type': 'application/json' })
  })

  api.get('/docs', (c) => {
    c.header('Content-Security-Policy', REFERENCE)
    return c.html(referencePage)
  })

  api.get(PROBLEMS_PAGE, (c) => {
    c.header('Content-Security-Policy', NO_SCRIPT)
    return c.html(problemsPage())
  })

  mountSpreadsheetGuide(api, NO_SCRIPT)

  api.get('/docs/:asset', async (c) => {
    const asset = await readAsset(c.req.param('asset'))
    if (!asset) return c.notFound()
    return c.body(asset.content, 200, { 'Content-Type': asset.type, 'Cache-Control': 'max-age=3600' })
  })
}
