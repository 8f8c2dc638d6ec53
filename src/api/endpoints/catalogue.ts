import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { MATERIALS } from '../../catalogue/materials.ts'
import { SECTIONS } from '../../catalogue/sections.ts'
import { MATERIAL, RAIL_SECTION } from '../../catalogue/types.ts'
import { component, list } from '../../plan/fields/answer.ts'
import { answerSchema } from '../answers/schema.ts'
import { ETAG_OF_CONTENT, IF_NONE_MATCH, UNCHANGED } from '../parameters.ts'
import { answersIn } from '../request/accept.ts'
import { query } from '../request/query.ts'
import { json, problems } from '../responses.ts'
import { RULES, rulesAnswer } from '../rules-answer.ts'
import { sendTagged } from '../tagged.ts'

const RAIL_SECTIONS = component('RailSections', 'The rail sections of the catalogue.', { items: list(RAIL_SECTION) })
const MATERIAL_LIST = component('Materials', 'The rail materials of the catalogue.', { items: list(MATERIAL) })

const sections = createRoute({
  method: 'get',
  path: '/v1/catalogue/sections',
  operationId: 'listSections',
  tags: ['Catalogue'],
  summary: 'List the rail sections, the highest first',
  description: 'The sections that a plan can name, each with the source of its dimensions. Estimated ones are marked.',
  middleware: answersIn('application/json'),
  parameters: [IF_NONE_MATCH],
  request: { query: query({}) },
  responses: {
    200: { ...json(answerSchema(RAIL_SECTIONS), 'Every section.'), headers: ETAG_OF_CONTENT },
    ...UNCHANGED,
    ...problems('bad-parameter', 'not-acceptable'),
  },
})

const materials = createRoute({
  method: 'get',
  path: '/v1/catalogue/materials',
  operationId: 'listMaterials',
  tags: ['Catalogue'],
  summary: 'List the rail materials with their tempers',
  description: 'The materials that a plan can name, each with its tempers and the source of their properties.',
  middleware: answersIn('application/json'),
  parameters: [IF_NONE_MATCH],
  request: { query: query({}) },
  responses: {
    200: { ...json(answerSchema(MATERIAL_LIST), 'Every material.'), headers: ETAG_OF_CONTENT },
    ...UNCHANGED,
    ...problems('bad-parameter', 'not-acceptable'),
  },
})

const rules = createRoute({
  method: 'get',
  path: '/v1/rules',
  operationId: 'listRules',
  tags: ['Catalogue'],
  summary: 'List the rules of findings',
  description:
    'Every rule that a finding may name, with its source, its severities, and the fields of a plan that set its limit.',
  middleware: answersIn('application/json'),
  parameters: [IF_NONE_MATCH],
  request: { query: query({}) },
  responses: {
    200: {
      ...json(answerSchema(RULES), 'Every rule.', { items: rulesAnswer().items.slice(0, 2) }),
      headers: ETAG_OF_CONTENT,
    },
    ...UNCHANGED,
    ...problems('bad-parameter', 'not-acceptable'),
  },
})

export function mountCatalogue(api: OpenAPIHono): void {
  api.openapi(sections, (c) => sendTagged(c, JSON.stringify({ items: SECTIONS })))
  api.openapi(materials, (c) => sendTagged(c, JSON.stringify({ items: MATERIALS })))
  api.openapi(rules, (c) => sendTagged(c, JSON.stringify(rulesAnswer())))
}
