import { Hono } from 'hono'
import { ownAddress } from '../access/own-address.ts'
import { PROBLEMS_PAGE } from '../api/problem.ts'
import { ODS, XLSX } from '../api/tables-answer.ts'
import { guideDocument, guideIndex } from './guide-frame.ts'
import { GUIDES } from './guides.ts'
import { rendered } from './markdown.ts'
import { problemsPage } from './problems-page.ts'
import { readAsset } from './reference/assets.ts'
import { referencePage } from './reference/reference-page.ts'
import { docsStyle, exampleFile, guideSource } from './shipped.ts'
import { type GetFromApi, mountSpreadsheetGuide } from './spreadsheets/spreadsheets.ts'

const EXAMPLE_TYPES: Readonly<Record<string, string>> = {
  csv: 'text/csv; charset=utf-8',
  json: 'application/json',
  ods: ODS,
  xlsx: XLSX,
}

const NO_SCRIPT =
  "default-src 'none'; style-src 'self'; img-src 'self' data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

/** The reference page has a script, which reads the OpenAPI document and sends requests. */
const OWN_SCRIPT =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

/** The address of the service in the Markdown of the guides. */
const WRITTEN_ADDRESS = 'http://127.0.0.1:8080'

const CACHED_FOR_AN_HOUR = { 'Cache-Control': 'max-age=3600' }

/**
 * Everything at `/docs`: the guides, the reference and the explanation of every problem, in the frame of the site. All of it
 * works without internet. `getFromApi` requests a path of the JSON interface, so that the guides show its real answers.
 */
export function createDocs(getFromApi: GetFromApi): Hono {
  const docs = new Hono()
  const markup = new Map<string, string>()

  docs.get('/docs', (c) => {
    c.header('Content-Security-Policy', NO_SCRIPT)
    return c.html(guideIndex())
  })

  docs.get('/docs/api', (c) => {
    c.header('Content-Security-Policy', OWN_SCRIPT)
    return c.html(referencePage())
  })

  docs.get(PROBLEMS_PAGE, (c) => {
    c.header('Content-Security-Policy', NO_SCRIPT)
    return c.html(problemsPage())
  })

  mountSpreadsheetGuide(docs, getFromApi, NO_SCRIPT)

  for (const { name } of GUIDES.filter(({ written }) => written))
    docs.get(`/docs/${name}`, (c) => {
      if (!markup.has(name)) markup.set(name, guideDocument(name, rendered(guideSource(name))))
      c.header('Content-Security-Policy', NO_SCRIPT)
      return c.html(markup.get(name)!.replaceAll(WRITTEN_ADDRESS, ownAddress(c) ?? WRITTEN_ADDRESS))
    })

  docs.get('/docs/docs.css', (c) =>
    c.body(docsStyle(), 200, { 'Content-Type': 'text/css; charset=utf-8', ...CACHED_FOR_AN_HOUR }),
  )

  docs.get('/docs/examples/:file', (c) => {
    const file = c.req.param('file')
    const content = exampleFile(file)
    if (content === null) return c.notFound()
    const type = EXAMPLE_TYPES[file.slice(file.lastIndexOf('.') + 1)]!
    return c.body(content, 200, { 'Content-Type': type, ...CACHED_FOR_AN_HOUR })
  })

  docs.get('/docs/:asset', async (c) => {
    const asset = await readAsset(c.req.param('asset'))
    if (!asset) return c.notFound()
    return c.body(asset.content, 200, { 'Content-Type': asset.type, ...CACHED_FOR_AN_HOUR })
  })

  return docs
}
