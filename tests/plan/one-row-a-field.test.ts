import { OpenAPIHono } from '@hono/zod-openapi'
import { describe, expect, test } from 'vitest'
import { field } from '../../src/page/form/controls.ts'
import { formShape } from '../../src/page/form/form-shape.ts'
import { formOfPlan, planOfForm } from '../../src/page/form/plan-form.ts'
import { calledInSentence, fieldAt } from '../../src/plan/fields/at.ts'
import { type Assume, type Assumption, completed } from '../../src/plan/fields/complete.ts'
import { choice, flag, length, list, part, shape } from '../../src/plan/fields/kinds.ts'
import { faultsOf } from '../../src/plan/reading/issues.ts'
import { schemaOf } from '../../src/plan/reading/schema.ts'

/*
 * A field is written down once: whatever is said of it elsewhere follows from its row. These rows are no part of a plan;
 * nothing but the rows themselves is written for them anywhere.
 */

const PAD = shape('Pad', 'What lies under a tie.', {
  thickness: length({
    component: 'PadThickness',
    usual: 3,
    because: 'what is sold most',
    says: 'Of one pad',
    label: 'Thickness of a pad',
    hint: 'unloaded',
  }),
  metal: choice({
    component: 'PadMetal',
    words: { rubber: 'Rubber', cork: 'Cork' },
    what: 'a material of pads',
    required: true,
    says: 'What it is made of',
    label: 'Made of',
  }),
  glued: flag({ usual: false, label: 'Glued down' }),
})
const BED = shape('PaddedBed', undefined, {
  pads: list(PAD, { most: 5, label: 'Pads', entry: 'pad' }),
  under: part(PAD, { label: 'Under the joints' }),
})

const given = { pads: [{ metal: 'cork', thickness: '1/4 in' }], under: { metal: 'rubber' } }

describe('from one row follow', () => {
  test('the schema and what the OpenAPI document says', () => {
    const api = new OpenAPIHono()
    api.openAPIRegistry.register('PaddedBed', schemaOf(BED))
    const { schemas } = api.getOpenAPI31Document({ openapi: '3.1.0', info: { title: '', version: '' } }).components!
    expect(schemas!.Pad).toMatchObject({ required: ['metal'], description: 'What lies under a tie.' })
    expect(schemas!.PadThickness).toMatchObject({
      description: expect.stringMatching(/^Of one pad; 3 mm when left out\. A number is millimetres/),
    })
    expect(schemaOf(BED).safeParse(given).data).toEqual({
      pads: [{ metal: 'cork', thickness: 6.35 }],
      under: { metal: 'rubber' },
    })
  })

  test('what is wrong, with its place and a hint', () => {
    const raw = { pads: [{ metal: 'corc', thicknes: 3 }], under: {} }
    const faults = faultsOf(schemaOf(BED).safeParse(raw).error!.issues, raw)
    expect(faults.map(({ path, code, hint }) => [path.join('/'), code, hint])).toEqual([
      ['pads/0/metal', 'unknown-value', 'did you mean "cork"? Known values: rubber, cork'],
      ['pads/0/thicknes', 'unknown-field', 'did you mean "thickness"?'],
      ['under/metal', 'missing', 'use one of rubber, cork'],
    ])
  })

  test('the types of what was sent and of what is complete', () => {
    const sent = schemaOf(PAD).parse({ metal: 'cork' })
    // @ts-expect-error it may have been left out
    const mayBeOpen: number = sent.thickness
    const whole = completed(PAD, sent, '', () => {})
    const isNot: number = whole.thickness
    // @ts-expect-error it is rubber or cork
    const never = whole.metal === 'felt'
    expect([mayBeOpen, isNot, never]).toEqual([undefined, 3, false])
  })

  test('completing, and the assumption that it makes', () => {
    const assumptions: Assumption[] = []
    const assume: Assume = (field, value, reason) => assumptions.push({ field, value, reason })
    const pad = schemaOf(PAD).parse({ metal: 'rubber' })
    expect(completed(PAD, pad, '/pads/0', assume)).toEqual({ metal: 'rubber', thickness: 3, glued: false })
    expect(assumptions).toEqual([{ field: '/pads/0/thickness', value: '3 mm', reason: 'what is sold most' }])
  })

  test('the cells of the form, with label, hint and choices, in the units that are shown', () => {
    const form = formShape(BED)
    const part = formOfPlan(given, form)
    const under = { part: part.groups.under!, path: 'under', faults: new Map(), shape: form.groups!.under! }
    const metric = field({ ...under, lengthsIn: 'metric' }, 'thickness').toString()
    expect(metric).toContain('>Thickness of a pad</label>')
    expect(metric).toContain('unloaded; blank: 3 mm')
    expect(field({ ...under, lengthsIn: 'feet' }, 'thickness').toString()).toContain('blank: 1/8 in')
    expect(field({ ...under, lengthsIn: 'both' }, 'metal').toString()).toContain('<option value="cork">Cork</option>')
    expect(field({ ...under, lengthsIn: 'both' }, 'glued').toString()).toContain('type="checkbox"')
    expect(planOfForm(part, form)).toEqual(given)
  })

  test('what it is called in sentences', () => {
    expect(calledInSentence(fieldAt(BED, ['pads', 0, 'thickness'])!)).toBe('thickness of a pad')
    expect(fieldAt(BED, ['pads', 0, 'height'])).toBeNull()
  })
})
