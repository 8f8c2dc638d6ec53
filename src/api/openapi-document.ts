import type { OpenAPIHono } from '@hono/zod-openapi'
import { PROBLEMS_PAGE } from './problem.ts'

/** The version in package.json; a test compares them. */
const VERSION = '0.1.0'

const TAGS = [
  { name: 'Estimates', description: 'Send a plan, get a shopping list.' },
  { name: 'Cells', description: 'Single numbers for the cells of a spreadsheet.' },
  { name: 'Tables', description: 'Estimates as tables, for spreadsheets.' },
  { name: 'Bends', description: 'One curve at a time, for the workbench.' },
  { name: 'Turnouts', description: 'The geometry of one turnout.' },
  { name: 'Cut plans', description: 'How to cut runs of rail from sticks at the least cost.' },
  { name: 'Grades', description: 'Vertical curves between grades.' },
  { name: 'Room', description: 'The room that cars need beside the track.' },
  { name: 'Setting out', description: 'Pegs for the curves of a plan.' },
  { name: 'Catalogue', description: 'The rail sections and materials that a plan can name.' },
  { name: 'Projects', description: 'Saved plans and their revisions.' },
  { name: 'Links', description: 'Links that let spreadsheets read the tables of one project.' },
  { name: 'Shed', description: 'The stock on hand, shared by all projects.' },
  { name: 'Service', description: 'For operators of the service.' },
]

const DESCRIPTION = `Estimates track for garden railways: rails, ties, joints, bends, cuts and the bill.

In a request, a length is a number of millimetres or a text with a unit ("8 ft", "7 ft 6-1/2 in", "2.4 m"). In an answer, a length is a number, and the name of its field says the unit. Angles are in degrees, grades in percent. Unknown fields and query parameters are refused with a hint that names the nearest known one; only \`refresh\` is always accepted, and ignored. All faults of a request are reported together, as application/problem+json; the kinds and codes are listed at ${PROBLEMS_PAGE}. Where a list of words has \`x-extensible\`, further words may be added: show one you do not know as it is. HEAD works wherever GET does, and OPTIONS everywhere. A body can have at most 1 MiB.

Every address may also answer 403 to a browser that asks for a page of another site, 421 if the Host header is not a name of this service, and, where the service has an access key, 401 without it and 429 after too many wrong ones. The key is sent as "Authorization: Bearer …".`

/** The OpenAPI document of everything mounted so far. */
export function openApiDocument(api: OpenAPIHono) {
  return api.getOpenAPI31Document({
    openapi: '3.1.0',
    info: {
      title: 'Longchord',
      version: VERSION,
      description: DESCRIPTION,
      license: { name: 'MIT', url: 'https://opensource.org/license/mit' },
    },
    servers: [{ url: '/', description: 'This service.' }],
    tags: TAGS,
    security: [{}, { accessKey: [] }],
  })
}
