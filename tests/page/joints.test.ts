import { describe, expect, test } from 'vitest'
import { readPlan } from '../../src/estimate/read-plan.ts'
import type { Placed } from '../../src/page/form/controls.ts'
import { faultsByPlace, placeInForm } from '../../src/page/form/fault-places.ts'
import { inFormWords } from '../../src/page/form/fault-words.ts'
import { placeName } from '../../src/page/form/place-names.ts'
import { planEditor } from '../../src/page/form/plan-editor.ts'
import { formOfPlan, planOfForm } from '../../src/page/form/plan-form.ts'
import { planShape } from '../../src/page/form/plan-shape.ts'
import { jointTables } from '../../src/page/sheets/garden/joint-tables.ts'
import { example } from '../api/asking.ts'
import { contextOf } from './all-sheets.ts'
import { nestingFault, tagsOf, textOf } from './markup.ts'
import { worked } from './worked.ts'

const loop = example('loop-in-the-sun') as Record<string, unknown>
const rowsIn = (markup: string) => tagsOf(markup).filter(({ name, kind }) => name === 'tr' && kind === 'open').length

describe('joints and gaps on the page', () => {
  test('every joint has a row with its gap, and what moves as one is told', () => {
    const plan = worked(loop)
    const { estimate } = plan
    const markup = jointTables(contextOf(plan, 'metric')).toString()
    expect(nestingFault(markup)).toBeNull()
    expect(rowsIn(markup)).toBe(estimate.joints.length + 2)
    const text = textOf(markup)
    // By hand: 65, 10 and 95 °F, with 20 K for the sun.
    for (const fact of ['18.3 °C', '-12.2 °C to 55 °C in the sun', 'insulated joiner', 'expansion joint', 'outward'])
      expect(text).toContain(fact)
    const gapMm = estimate.joints.find(({ kind }) => kind === 'expansion')!.gapMm!
    expect(text).toContain(`${gapMm.toFixed(2)} mm`)
    expect(textOf(jointTables(contextOf(plan, 'feet')).toString())).toContain(`${(gapMm / 25.4).toFixed(3)} in`)
  })

  test('a length too long for its expansion joints says how many are missing', () => {
    const text = textOf(
      jointTables(
        contextOf(worked({ ...loop, joints: { kind: 'clamped', expansionJointLimit: 5 } }), 'metric'),
      ).toString(),
    )
    expect(text).toContain('1 expansion joint missing')
  })

  test('without weather there are no gaps, and where to say it; without joints it says so', () => {
    const { climate, ...dry } = loop
    expect(climate).toBeDefined()
    const text = textOf(jointTables(contextOf(worked(dry), 'both')).toString())
    expect(text).toContain('Joints and temperatures')
    expect(text).not.toContain('Gap at')
    const one = { rail: loop.rail, tracks: [{ name: 'a', elements: [{ kind: 'tangent', length: 900 }] }] }
    expect(textOf(jointTables(contextOf(worked(one), 'both')).toString())).toContain('No joints')
  })
})

describe('weather, joints and breaks in the form', () => {
  test('a plan comes out as it went in', () => {
    expect(planOfForm(formOfPlan(loop))).toEqual(loop)
    const held = { ...loop, joints: { kind: 'clamped', held: true, gapLimit: '1/8 in' } }
    expect(planOfForm(formOfPlan(held))).toEqual(held)
    const bridge = example('footbridge-line') as Record<string, unknown>
    expect(planOfForm(formOfPlan(bridge))).toEqual(bridge)
    const square = { ...loop, joints: { arrangement: 'square', betweenTies: true } }
    expect(planOfForm(formOfPlan(square))).toEqual(square)
  })

  test('each fault stands at its own field, in the words of the form', () => {
    const faulty = {
      ...loop,
      climate: { laying: 'mild', coldest: 50, hottest: 30 },
      joints: { held: true },
      tracks: [{ ...(loop.tracks as object[])[0], breaks: [{ at: 'there' }] }],
    }
    const read = readPlan(faulty)
    if (read.ok) throw new Error('this plan is faulty')
    const faults = read.faults.map(inFormWords)
    expect(faults.map(({ path }) => placeInForm(path)).toSorted()).toEqual([
      'climate.laying',
      'joints.held',
      'tracks.0.breaks.0.at',
      'tracks.0.breaks.0.kind',
    ])
    expect(faults.map(({ path }) => placeName(path))).toContain('temperatures, rail temperature when laid')
    expect(faults.map(({ detail }) => detail)).toContain('choose the type of break')
    const placed: Placed = {
      part: formOfPlan(faulty),
      path: '',
      faults: faultsByPlace(faults),
      shape: planShape,
      lengthsIn: 'both',
    }
    const markup = planEditor(placed, '/').toString()
    expect(nestingFault(markup)).toBeNull()
    expect(tagsOf(markup).filter(({ attributes }) => attributes.get('aria-invalid') === 'true')).toHaveLength(3)
  })

  test('so do those of the places of joints', () => {
    const faulty = {
      ...loop,
      joints: { arrangement: 'square', stagger: '6 in', held: true },
      tracks: [{ ...(loop.tracks as object[])[0], keepOut: [{ from: '3 ft', to: '2 ft' }, { to: '9 ft' }] }],
    }
    const read = readPlan(faulty)
    if (read.ok) throw new Error('this plan is faulty')
    const faults = read.faults.map(inFormWords)
    expect(faults.map(({ path }) => placeName(path)).toSorted()).toEqual([
      'joints, clamped rail held in place',
      'joints, stagger',
      'track 1, stretch without joints 1, end',
      'track 1, stretch without joints 2, start',
    ])
    const hints = faults.map(({ hint }) => hint)
    expect(hints).toContain('leave the stagger blank, or choose “Staggered”')
    expect(hints).toContain('choose “Rigid clamps”, or clear the box')
    expect(faults.map(({ detail }) => detail)).toContain('a length is needed here')
    const placed: Placed = {
      part: formOfPlan(faulty),
      path: '',
      faults: faultsByPlace(faults),
      shape: planShape,
      lengthsIn: 'both',
    }
    const markup = planEditor(placed, '/').toString()
    expect(nestingFault(markup)).toBeNull()
    expect(tagsOf(markup).filter(({ attributes }) => attributes.get('aria-invalid') === 'true')).toHaveLength(3)
  })
})
