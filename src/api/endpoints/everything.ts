import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi'
import { stream } from 'hono/streaming'
import { component, count, list, text, uuid, word } from '../../plan/fields/answer.ts'
import { unpackPart } from '../../projects/everything.ts'
import { exampleExport } from '../../projects/example-export.ts'
import { linesOf } from '../../projects/journal/lines-of.ts'
import type { ProjectStore } from '../../projects/store.ts'
import { answerSchema } from '../answers/schema.ts'
import { problem } from '../problem.ts'
import { choiceParameter, query } from '../request/query.ts'
import { json, problems } from '../responses.ts'

const tags = ['Service']
const LINES = 'application/x-ndjson'

const PROJECT_CHANGE = component('ProjectChange', 'A project that is not the same after an import.', {
  id: uuid(),
  name: text('After the import, or before it if it is removed.'),
  change: word(['added', 'changed', 'removed']),
})

const IMPORTED = component('Imported', 'What an import has written, or would write.', {
  projects: count(),
  revisions: count('Of all projects.'),
  rows: count('Of all tables.'),
  replacedProjects: count('Projects that were there before; none of them is kept.'),
  changes: list(PROJECT_CHANGE, 'The projects that differ before and after.'),
})

const exporting = createRoute({
  method: 'get',
  path: '/v1/export',
  operationId: 'exportEverything',
  tags,
  summary: 'Everything that is stored, as one file',
  description:
    'All projects with their revisions, builds and links, and the shed, as JSON lines with a checksum each: a backup, or a way to another database. Links keep working where it is imported; their tokens cannot be read from it.',
  request: { query: query({}) },
  responses: {
    200: { description: 'The file.', content: { [LINES]: { schema: z.string() } } },
    ...problems('bad-parameter', 'unavailable'),
  },
})

const yesOrNo = (description: string) =>
  choiceParameter('YesOrNo', ['0', '1'], '1 for yes').optional().openapi({ param: { description } })

const importing = createRoute({
  method: 'post',
  path: '/v1/import',
  operationId: 'importEverything',
  tags,
  summary: 'Replace everything that is stored by an export',
  description:
    'In one transaction: either all of the file is taken or nothing is changed. The file must be an export of the same version, or a `journal.jsonl` of the embedded database.',
  request: {
    query: query({
      dryRun: yesOrNo('1 only says what would happen.'),
      replace: yesOrNo('1 allows projects that are there to be replaced: all of them go.'),
    }),
    body: {
      required: true,
      description: 'An export.',
      content: { [LINES]: { schema: z.string(), example: exampleExport() } },
    },
  },
  responses: {
    200: json(answerSchema(IMPORTED), 'What was written, or would be.'),
    ...problems('bad-parameter', 'not-empty', 'unsupported-body', 'unacceptable-content', 'unavailable', 'disk-full'),
  },
})

/** The whole of what is stored, out and in. */
export function mountEverything(api: OpenAPIHono, store: ProjectStore): void {
  api.openapi(exporting, async (c) => {
    const parts = await store.exportAll()
    c.header('Content-Type', LINES)
    c.header('Content-Disposition', 'attachment; filename="longchord.jsonl"')
    c.header('Cache-Control', 'no-store')
    return stream(c, async (out) => {
      for (const part of parts) await out.write(await unpackPart(part))
    }) as never
  })

  api.openapi(importing, async (c) => {
    const { dryRun, replace } = c.req.valid('query')
    const type = c.req.header('content-type')?.split(';')[0]?.trim().toLowerCase()
    if (type !== LINES)
      return problem(c, {
        kind: 'unsupported-body',
        detail: `Send the export as ${LINES}.`,
        faults: [{ parameter: 'Content-Type', code: 'unsupported-body', detail: `it must be ${LINES}` }],
      })
    const { body } = c.req.raw
    const lines = linesOf(body ?? new Blob([]).stream())
    const result = await store.importAll(lines, { dryRun: dryRun === '1', replace: replace === '1' })
    if (!('kind' in result)) return c.json(result, 200)
    switch (result.kind) {
      case 'not-empty':
        return problem(c, {
          kind: 'not-empty',
          detail: `There are ${result.projects} projects, which the import would remove. Add replace=1 if it shall.`,
        })
      case 'other-version':
        return problem(c, {
          kind: 'unacceptable-content',
          detail:
            'The export is of another version of Longchord. The command “npm run restore” takes exports of earlier versions.',
        })
      case 'cut-off':
        return problem(c, {
          kind: 'unacceptable-content',
          detail: 'The end of the export is missing: it was not copied completely. Nothing was changed.',
        })
      case 'not-an-export':
        return problem(c, {
          kind: 'unacceptable-content',
          detail: `Line ${result.line} is not a line of an export: it is damaged, or the file is something else. Nothing was changed.`,
        })
    }
  })
}
