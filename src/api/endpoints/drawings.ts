import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { DRAWINGS, type DrawingFile, type Papers, type PlanOnPaper } from '../../paper/papers.ts'
import type { ProjectStore } from '../../projects/store.ts'
import type { Workers } from '../../workers/workers.ts'
import { EXAMPLE_PLANS } from '../example-plans.ts'
import { fileName } from '../file-name.ts'
import { ETAG_OF_CONTENT, IF_NONE_MATCH, PROJECT_ID, UNCHANGED } from '../parameters.ts'
import { problem, type Refusal } from '../problem.ts'
import { projectAt, REVISION_ASKED, workOutAt, workOutSent } from '../project-at.ts'
import { allows, answersIn, notAcceptable } from '../request/accept.ts'
import { query } from '../request/query.ts'
import { jsonBody, problems, REFUSALS_OF_A_BODY, REFUSALS_OF_A_PROJECT } from '../responses.ts'
import { sendTagged } from '../tagged.ts'

const SVG = 'image/svg+xml'
const DXF = 'image/vnd.dxf'
const GEOJSON = 'application/geo+json'

const KINDS = {
  'plan.svg': {
    type: SVG,
    operationId: 'projectPlanSvg',
    summary: 'The plan of a project, drawn to scale',
    says: 'The plan seen from above, as SVG that needs no style sheet: rails, ties, stations, elements with their radii, turnouts, findings, a grid and a scale bar, in the units of the plan.',
  },
  'profile.svg': {
    type: SVG,
    operationId: 'projectProfileSvg',
    summary: 'The profiles of the tracks of a project',
    says: 'The heights of every track, exaggerated, with its grades, as SVG that needs no style sheet. A track without grades is a line of text.',
  },
  'plan.dxf': {
    type: DXF,
    operationId: 'projectPlanDxf',
    summary: 'The plan of a project for programs that draw (CAD)',
    says: 'The plan as DXF in millimetres, with the layers “centre line”, “rails”, “ties”, “joints”, “turnouts”, “pegs” and “text”. Arcs are true arcs; easements are polylines that stay within 0.01 mm. Rails are the middle of their heads.',
  },
  'plan.geojson': {
    type: GEOJSON,
    operationId: 'projectPlanGeoJson',
    summary: 'The plan of a project as GeoJSON, in metres',
    says: 'Centre lines of all elements, turnouts, joints and obstacles as GeoJSON, in metres on the sheet of the plan and not in degrees on the earth; the member “frame” says so (RFC 7946, section 4). Curves stay within 1 mm.',
  },
} as const satisfies Record<DrawingFile, object>

const ofProject = (file: DrawingFile) => {
  const { type, operationId, summary, says } = KINDS[file]
  return createRoute({
    method: 'get',
    path: `/v1/projects/{id}/${file}`,
    operationId,
    tags: ['Drawings'],
    summary,
    description: says,
    middleware: answersIn(type),
    parameters: [PROJECT_ID, IF_NONE_MATCH],
    request: { query: query({ revision: REVISION_ASKED }) },
    responses: {
      200: { description: 'The drawing.', headers: ETAG_OF_CONTENT, content: { [type]: { schema: z.string() } } },
      ...UNCHANGED,
      ...problems(...REFUSALS_OF_A_PROJECT),
    },
  })
}

const ofPlan = createRoute({
  method: 'post',
  path: '/v1/drawings/{file}',
  operationId: 'drawPlan',
  tags: ['Drawings'],
  summary: 'A drawing of a plan',
  description: Object.entries(KINDS)
    .map(([file, { says }]) => `${file}: ${says}`)
    .join('\n\n'),
  parameters: [
    {
      name: 'file',
      in: 'path' as const,
      required: true,
      description: 'Which drawing.',
      schema: { type: 'string' as const, enum: [...DRAWINGS] },
    },
  ],
  request: { query: query({}), body: jsonBody('Plan', 'The plan.', EXAMPLE_PLANS) },
  responses: {
    200: {
      description: 'The drawing.',
      headers: ETAG_OF_CONTENT,
      content: { [SVG]: { schema: z.string() }, [DXF]: { schema: z.string() }, [GEOJSON]: { schema: z.string() } },
    },
    ...problems(...REFUSALS_OF_A_BODY, 'not-found', 'too-busy', 'too-much-work'),
  },
})

const NO_SUCH_DRAWING: Refusal<'not-found'> = {
  kind: 'not-found',
  detail: `There is no such drawing. There are ${DRAWINGS.join(', ')}.`,
}

/** Drawings of plans to take along. Always in a worker thread: ties and labels by the thousand take long to place. */
export function mountDrawings(api: OpenAPIHono, store: ProjectStore, workers: Workers, papers: Papers): void {
  const drawn = async (c: Context, file: DrawingFile, of: PlanOnPaper) =>
    sendTagged(c, await papers.drawing(file, of), `${KINDS[file].type}; charset=utf-8`)

  for (const file of DRAWINGS)
    api.openapi(ofProject(file), async (c) => {
      const project = await projectAt(store, c.req.param('id')!, c.req.valid('query').revision)
      if (!project.ok) return problem(c, project.refusal)
      workers.refuseHere()
      const worked = await workOutAt(store, workers, project.project)
      if (!worked.ok) return problem(c, worked.refusal)
      if (file !== 'plan.svg' && file !== 'profile.svg')
        c.header('Content-Disposition', `attachment; ${fileName(project.project.name, file)}`)
      return drawn(c, file, worked.of)
    })

  api.openapi(ofPlan, async (c) => {
    const file = DRAWINGS.find((name) => name === c.req.param('file'))
    if (!file) return problem(c, NO_SUCH_DRAWING)
    const { type } = KINDS[file]
    if (!allows(c.req.header('accept'), type)) return problem(c, notAcceptable(type))
    const worked = await workOutSent(c, workers)
    if (!worked.ok) return problem(c, worked.refusal)
    return drawn(c, file, worked.of)
  })
}
