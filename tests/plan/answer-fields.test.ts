import { OpenAPIHono } from '@hono/zod-openapi'
import { describe, expect, expectTypeOf, it } from 'vitest'
import { BENDS } from '../../src/api/answers/bends.ts'
import { CUT_PLAN_ANSWER } from '../../src/api/answers/cut-plan.ts'
import { AnswerSchemas } from '../../src/api/answers/schema.ts'
import { SHED } from '../../src/api/answers/shed.ts'
import { BEND_CHECK_ANSWER } from '../../src/bending/bend-check/types.ts'
import { MATERIAL, RAIL_SECTION } from '../../src/catalogue/types.ts'
import { ESTIMATE } from '../../src/estimate/answer.ts'
import { COMPARISON_ANSWER } from '../../src/estimate/questions/compare.ts'
import { CURVE_ANSWER } from '../../src/estimate/questions/one-curve.ts'
import { SETTING_OUT_ANSWER } from '../../src/estimate/questions/setting-out.ts'
import { columnsOf } from '../../src/paper/columns.ts'
import { tableOf } from '../../src/paper/table.ts'
import {
  type Answer,
  component,
  count,
  type Declared,
  either,
  extended,
  type Fixed,
  flag,
  length,
  list,
  moment,
  money,
  nullable,
  number,
  object,
  optional,
  part,
  text,
  uuid,
  word,
  written,
} from '../../src/plan/fields/answer.ts'

/* What a declaration gives by itself, shown on one that stands nowhere in the service. */

const BOX = component('Box', 'A box on a shelf.', {
  name: text({ says: 'As on its lid.', title: 'Box' }),
  state: word(['open', 'shut'], { title: 'State' }),
  weightKg: nullable(number({ title: 'Weight (kg)', least: 0 })),
  widthMm: length({ title: 'Width' }),
  price: nullable(money({ title: 'Price' }), 'Null when unknown.'),
  screws: count({ title: 'Screws' }),
  isFull: flag({ title: 'Full' }),
  remark: optional(text({ title: 'Remark' })),
  sizes: list(object({ atMm: length() })),
})

const CRATE = extended(BOX, 'Crate', 'A box with slats.', { slats: count({ least: 1 }) })

const SHELF = component('Shelf', 'What stands on a shelf.', {
  id: uuid(),
  madeAt: moment(),
  first: part(BOX, 'The one on the left.'),
  spare: nullable(BOX, 'Null where there is none.'),
  others: list(either(BOX, CRATE), 'From left to right.'),
  plan: written(),
})

const box = {
  name: 'nails',
  state: 'shut',
  weightKg: 1.5,
  widthMm: 254,
  price: '4.00',
  screws: 12,
  isFull: true,
  sizes: [{ atMm: 1 }],
} as const satisfies Fixed<Answer<typeof BOX>>

interface Box {
  name: string
  state: 'open' | 'shut'
  weightKg: number | null
  widthMm: number
  price: string | null
  screws: number
  isFull: boolean
  remark?: string
  sizes: { atMm: number }[]
}

interface Crate extends Box {
  slats: number
}

describe('from the declaration of an answer follow', () => {
  it('its type', () => {
    expectTypeOf<Answer<typeof BOX>>().toEqualTypeOf<Box>()
    expectTypeOf<Answer<typeof CRATE>>().toEqualTypeOf<Crate>()
    expectTypeOf<Answer<typeof SHELF>>().toEqualTypeOf<{
      id: string
      madeAt: string
      first: Box
      spare: Box | null
      others: (Box | Crate)[]
      plan: Record<string, unknown>
    }>()
  })

  it('its schema', () => {
    const schema = new AnswerSchemas().of(BOX)
    expect(schema.parse(box)).toEqual(box)
    const wrong = [
      { ...box, state: 'ajar' },
      { ...box, weightKg: -1 },
      { ...box, screws: 1.5 },
      { ...box, price: '4.5' },
      { ...box, name: null },
      { ...box, widthMm: undefined },
      { ...box, sizes: [{}] },
    ]
    expect(wrong.filter((answer) => schema.safeParse(answer).success)).toEqual([])
  })

  it('its document', () => {
    const api = new OpenAPIHono()
    const answers = new AnswerSchemas()
    answers.of(SHELF)
    for (const [name, schema] of answers.components) api.openAPIRegistry.register(name, schema)
    const { schemas } = api.getOpenAPI31Document({ openapi: '3.1.0', info: { title: '', version: '' } }).components!
    expect(Object.keys(schemas!).toSorted()).toEqual(['Box', 'Crate', 'Shelf'])
    expect(schemas!.Box).toMatchObject({
      description: 'A box on a shelf.',
      type: 'object',
      properties: {
        name: { type: 'string', description: 'As on its lid.' },
        state: { type: 'string', enum: ['open', 'shut'] },
        weightKg: { type: ['number', 'null'], minimum: 0 },
        widthMm: { type: 'number' },
        price: { type: ['string', 'null'], description: 'Null when unknown.' },
        screws: { type: 'integer', minimum: 0 },
        isFull: { type: 'boolean' },
        sizes: { type: 'array', items: { type: 'object', required: ['atMm'] } },
      },
      required: ['name', 'state', 'weightKg', 'widthMm', 'price', 'screws', 'isFull', 'sizes'],
    })
    expect(schemas!.Crate).toMatchObject({
      description: 'A box with slats.',
      allOf: [
        { $ref: '#/components/schemas/Box' },
        { properties: { slats: { type: 'integer', minimum: 1 } }, required: ['slats'] },
      ],
    })
    expect(schemas!.Shelf).toMatchObject({
      properties: {
        id: { type: 'string', format: 'uuid' },
        madeAt: { type: 'string', format: 'date-time' },
        first: { allOf: [{ $ref: '#/components/schemas/Box' }, { description: 'The one on the left.' }] },
        spare: {
          anyOf: [{ $ref: '#/components/schemas/Box' }, { type: 'null' }],
          description: 'Null where there is none.',
        },
        others: {
          description: 'From left to right.',
          items: { anyOf: [{ $ref: '#/components/schemas/Box' }, { $ref: '#/components/schemas/Crate' }] },
        },
      },
    })
  })

  it('columns of tables', () => {
    const ofBox = columnsOf(BOX, (row: Answer<typeof BOX> | null) => row)
    const columns = ofBox('name', 'state', 'weightKg', 'widthMm', 'price', 'screws', 'isFull', 'remark', {
      of: 'widthMm',
      key: 'boxWidthMm',
      title: 'Width of the box',
    })
    const { columns: shown, rows } = tableOf('boxes', 'Boxes', columns, [{ ...box, sizes: [] }, null], 'in')
    expect(shown).toEqual([
      { key: 'name', title: 'Box', kind: 'text' },
      { key: 'state', title: 'State', kind: 'text' },
      { key: 'weightKg', title: 'Weight (kg)', kind: 'number' },
      { key: 'widthIn', title: 'Width (in)', kind: 'length' },
      { key: 'price', title: 'Price', kind: 'money' },
      { key: 'screws', title: 'Screws', kind: 'count' },
      { key: 'isFull', title: 'Full', kind: 'text' },
      { key: 'remark', title: 'Remark', kind: 'text' },
      { key: 'boxWidthIn', title: 'Width of the box (in)', kind: 'length' },
    ])
    expect(rows).toEqual([
      ['nails', 'shut', 1.5, 10, '4.00', 12, 'yes', null, 10],
      [null, null, null, null, null, null, null, null, null],
    ])
  })
})

describe('a declaration', () => {
  it('has one component to itself', () => {
    const schemas = new AnswerSchemas()
    expect(schemas.of(BOX)).toBe(schemas.of(BOX))
    expect(() => schemas.of(component('Box', 'Another.', {}))).toThrow('two answers are called Box')
  })

  it('without a title is no column', () => {
    const ofShelf = columnsOf(SHELF, (row: Answer<typeof SHELF>) => row)
    expect(() => ofShelf('id')).toThrow('the field id is no column')
    // @ts-expect-error a list does not go into a cell
    expect(() => ofShelf('others')).toThrow('the field others is no column')
  })
})

describe('the answers of the service', () => {
  const answers = {
    ESTIMATE,
    COMPARISON_ANSWER,
    CURVE_ANSWER,
    SETTING_OUT_ANSWER,
    BEND_CHECK_ANSWER,
    BENDS,
    CUT_PLAN_ANSWER,
    SHED,
    RAIL_SECTION,
    MATERIAL,
  }

  it.each(Object.entries<Declared>(answers))('%s names every length by its unit, and nothing else so', (_, answer) => {
    const named = fieldsIn(answer)
    expect(named.length).toBeGreaterThan(5)
    expect(named.filter(({ name, isLength }) => /Mm$/.test(name) !== isLength)).toEqual([])
  })
})

/** Every field with one value, or a list of such, however deep. */
function fieldsIn(declared: Declared, name = ''): { name: string; isLength: boolean }[] {
  switch (declared.is) {
    case 'value':
    case 'word':
      return [{ name, isLength: declared.is === 'value' && declared.kind === 'length' }]
    case 'either':
      return declared.options.flatMap((option) => fieldsIn(option, name))
    case 'object':
      return Object.entries(declared.fields).flatMap(([each, field]) =>
        fieldsIn(field.is === 'optional' ? field.of : field, each),
      )
    default:
      return fieldsIn(declared.of, name)
  }
}
