import type { OpenAPIHono } from '@hono/zod-openapi'
import { PROBLEMS_PAGE } from './problem.ts'

/** The version in package.json; a test compares them. */
const VERSION = '0.1.0'

const TAGS = [
  { name: 'Estimates', description: 'A plan in, a shopping list out.' },
  { name: 'Cells', description: 'One number in a cell of a spreadsheet.' },
  { name: 'Tables', description: 'Estimates as tables, for spreadsheets.' },
  { name: 'Bends', description: 'One curve at a time, for the bench.' },
  { name: 'Cut plans', description: 'Runs of rail cut from sticks at the least cost.' },
  { name: 'Setting out', description: 'Pegs in the ground for the curves of a plan.' },
  { name: 'Catalogue', description: 'The rail sections and materials a plan can name.' },
  { name: 'Projects', description: 'Saved plans and their revisions.' },
  { name: 'Links', description: 'Rights for spreadsheets to read the tables of one project.' },
  { name: 'Shed', description: 'What is on hand, once for all projects.' },
  { name: 'Service', description: 'For whoever runs it.' },
]

const DESCRIPTION = `Works out rails, ties, joints, bends, cuts and the bill of a garden railway's track.

Lengths in are millimetres as a number, or carry their unit as a text ("8 ft", "7 ft 6-1/2 in", "2.4 m"). Lengths out are numbers with the unit in their name. Angles are degrees, grades percent. Unknown fields and query parameters are refused, with the nearest known name; \`refresh\` alone is accepted and ignored. Every fault of a request is reported at once, as application/problem+json; the kinds and codes are listed at ${PROBLEMS_PAGE}. HEAD works wherever GET does, and OPTIONS everywhere. Bodies are at most 1 MiB.`

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
    security: [],
  })
}
