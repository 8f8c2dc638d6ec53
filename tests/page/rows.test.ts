import { describe, expect, test } from 'vitest'
import { formOfPlan, planOfForm } from '../../src/page/form/plan-form.ts'
import { blankForm, readRowChange, withoutBlankRows, withRowChange, withRowsReady } from '../../src/page/form/rows.ts'

const plan = {
  rail: { section: '250', material: 'brass' },
  tracks: [
    {
      name: 'a',
      elements: [
        { kind: 'tangent', length: 1 },
        { kind: 'tangent', length: 2 },
      ],
      gradeLine: [{ at: 0, elevation: 1 }],
    },
    { name: 'b', elements: [{ kind: 'tangent', length: 3 }] },
  ],
  supplies: { sticks: [{ length: 1500 }, { length: 1800 }] },
}

function pressed(button: string, form = formOfPlan(plan)) {
  const change = readRowChange(button)
  return change ? withRowChange(form, change) : form
}

const lengths = (button: string) => pressed(button).tables.tracks![0]!.tables.elements!.map((row) => row.cells.length)

describe('buttons beside tables', () => {
  test('insert a row above, remove one, add five at the end', () => {
    expect(lengths('insert tracks.0.elements.1')).toEqual(['1', '', '2'])
    expect(lengths('remove tracks.0.elements.0')).toEqual(['2'])
    expect(lengths('add tracks.0.elements')).toEqual(['1', '2', '', '', '', '', ''])
  })

  test('reach tables of groups and whole tracks', () => {
    expect(planOfForm(pressed('remove supplies.sticks.0')).supplies).toEqual({ sticks: [{ length: 1800 }] })
    expect(pressed('add tracks').tables.tracks).toHaveLength(3)
    expect(planOfForm(pressed('remove tracks.0'))).toMatchObject({ tracks: [{ name: 'b' }] })
  })

  test.each([
    'remove tracks.9',
    'add nothing',
    'insert rail.0',
    'remove tracks.0.elements',
    'add supplies',
    'remove tracks.x',
  ])('that lead nowhere change nothing: %s', (button) => expect(pressed(button)).toEqual(formOfPlan(plan)))

  test.each(['work', 'save', 'add', 'drop tracks.0', 'add tracks 0', ''])('%s is none of them', (text) =>
    expect(readRowChange(text)).toBeNull(),
  )
})

describe('blank rows', () => {
  test('stand ready in every table, and leave the plan as it was', () => {
    const ready = withRowsReady(formOfPlan(plan))
    expect(ready.tables.tracks![0]!.tables.elements).toHaveLength(4)
    expect(ready.tables.tracks![0]!.tables.gradeLine).toHaveLength(3)
    expect(planOfForm(withoutBlankRows(ready))).toEqual(plan)
  })

  test('do not grow each time', () => {
    const ready = withRowsReady(formOfPlan(plan))
    expect(withRowsReady(ready)).toEqual(ready)
  })

  test('are blank however deep inside the table they stand', () => {
    const gap = pressed('insert tracks.0.elements.1')
    expect(planOfForm(withoutBlankRows(gap))).toEqual(plan)
  })

  test('a blank form asks for elements, not for blank ones', () => {
    expect(planOfForm(withoutBlankRows(blankForm()))).toEqual({
      rail: { section: '250', material: 'brass' },
      tracks: [{ name: 'main' }],
    })
  })

  test('a form without a track gets one', () => {
    expect(withRowsReady(formOfPlan({ rail: plan.rail })).tables.tracks).toHaveLength(1)
  })
})
