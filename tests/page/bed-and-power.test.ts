import { describe, expect, test } from 'vitest'
import example from '../../openapi/examples/line-with-bed-and-feeders.json' with { type: 'json' }
import { powerTables, roadbedTables } from '../../src/page/sheets/garden/bed-and-power.ts'
import { shoppingList } from '../../src/page/sheets/shop/shopping-list.ts'
import { sheetOf } from './all-sheets.ts'
import { nestingFault, textOf } from './markup.ts'
import { worked } from './worked.ts'

const fed = worked({ ...example, tracks: [{ ...example.tracks[0], name: '<b>hedge</b>' }] })
const { bill, roadbed, power } = fed.estimate

describe('the shopping list', () => {
  const markup = shoppingList(bill, 'both').toString()

  test('opens each line to tell what it is for, with spares', () => {
    expect(nestingFault(markup)).toBeNull()
    expect(markup.match(/<details>/g)).toHaveLength(bill.lines.filter(({ reasons }) => reasons.length > 0).length)
    const text = textOf(markup)
    expect(text).toContain('32: <b>hedge</b>, between the pieces of its rails')
    expect(text).toContain('2: spares, 5 %')
    expect(text).toContain('0.92: rounding up')
    expect(markup).not.toContain('<b>hedge')
  })

  test('gives measures with their unit, tax, and the weight of the parcel', () => {
    const text = textOf(markup)
    expect(text).toContain('6 m')
    expect(text).toMatch(/\d+\.\d\d kg/)
    expect(text).toContain(`Total in EUR ${'excluding 1 line without a price'} ${bill.total}`)
    expect(text).toContain(`Tax, 19 % ${bill.tax}`)
    expect(text).toContain(`Total with tax in EUR ${bill.gross}`)
    expect(text).toContain('Weight of items to buy')
  })
})

describe('bed and current', () => {
  test('in figures, as they are answered', () => {
    const bed = textOf(roadbedTables(roadbed!, 'metric').toString())
    for (const fact of [
      'Ballast, raised bed',
      '130 mm',
      '255 mm',
      '50 mm',
      `${roadbed!.volumeL.toFixed(1)} L`,
      't Bags',
    ])
      expect(bed).toContain(fact)
    const current = textOf(powerTables(power!, true, 'metric').toString())
    for (const fact of ['4 A at 20 V', '1.00 V', '6.000 m', `${power!.blocks[0]!.farEndV.toFixed(2)} V`])
      expect(current).toContain(fact)
    expect(
      nestingFault(roadbedTables(roadbed!, 'both').toString() + powerTables(power!, true, 'both').toString()),
    ).toBeNull()
  })

  test('have a card only where the plan asks for one', () => {
    expect(sheetOf(fed, 'garden')).toContain('id="ballast-power"')
    const bare = worked({ ...example, roadbed: undefined, power: 'none' })
    expect(sheetOf(bare, 'garden')).not.toContain('id="ballast-power"')
  })
})
