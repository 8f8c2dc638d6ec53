import { describe, expect, it, test } from 'vitest'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { csvOf } from '../../src/paper/csv.ts'
import { ESTIMATE_TABLES } from '../../src/paper/estimate-tables.ts'
import { readCsvText } from '../../src/paper/rows-in/read-csv.ts'
import { trackRows } from '../../src/paper/rows-in/track-rows.ts'
import { workbookTables } from '../../src/paper/workbook-tables.ts'
import { loopPlan, spurPlan } from '../estimate/turnout-plans.ts'

function worked(plan: object) {
  const read = readPlan(plan)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const result = estimate(read.plan, { sent: plan })
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.estimate
}

function rowsOf(plan: object, name: 'turnouts' | 'elements' = 'turnouts') {
  const { columns, rows } = ESTIMATE_TABLES[name](worked(plan), 'mm')
  return rows.map((row) => Object.fromEntries(columns.map(({ key }, index) => [key, row[index]])))
}

describe('the table of turnouts', () => {
  test('has where each lies, its geometry and what to buy (No. 6 at 1 m along the x axis, by hand)', () => {
    const [row, ...more] = rowsOf(spurPlan())
    expect(more).toEqual([])
    expect(row).toMatchObject({ track: 'main', element: 1, name: 'W1', type: 'six-left', hand: 'left' })
    expect(row).toMatchObject({ enters: 'points', leaves: 'through', onBillAs: 'Turnout six-left, left hand, No. 6' })
    // Half-cot: F = 2·atan(1/12), lead 2gN, R = 2gN² of the centre line; the frog half a gauge from it.
    expect(row!.frogAngleDeg).toBeCloseTo((2 * Math.atan(1 / 12) * 180) / Math.PI, 9)
    expect(row!.leadMm).toBeCloseTo(540, 9)
    expect(row!.closureRadiusMm).toBeCloseTo(3240, 8)
    expect([row!.fromMm, row!.pointsXMm, row!.pointsYMm, row!.pointsHeadingDeg]).toEqual([1000, 1000, 0, 180])
    expect(row!.frogXMm).toBeCloseTo(1540, 9)
    expect(row!.frogYMm).toBeCloseTo(22.5, 9)
    expect(row!.throughYMm).toBeCloseTo(0, 9)
    expect(row!.divergingYMm).toBeCloseTo(90, 9)
  })

  test('says nothing to buy of one that is built by hand, or is there', () => {
    expect(rowsOf(spurPlan({ buyable: false, onHand: 0 }))[0]!.onBillAs).toBeNull()
    const { tracks, ...plan } = spurPlan()
    const there = { ...plan, tracks: tracks.map((track) => ({ ...track, state: 'existing' })) }
    expect(rowsOf(there).map(({ onBillAs }) => onBillAs)).toEqual([null])
  })

  test('is a sheet of the workbook, and none without turnouts', () => {
    const titles = (plan: object) => workbookTables(worked(plan), 'mm').map(({ title }) => title)
    expect(titles(spurPlan())).toContain('Turnouts')
    const { rail } = spurPlan()
    expect(titles({ rail, tracks: [{ name: 'm', elements: [{ kind: 'tangent', length: 900 }] }] })).not.toContain(
      'Turnouts',
    )
  })
})

describe('a table of elements with turnouts and a crossing', () => {
  const plan = loopPlan()
  const [main] = plan.tracks
  const elements = [
    ...main!.elements,
    { kind: 'crossing', name: 'X1', angle: 30, label: 'path' },
    { kind: 'turnout', name: 'Wide; "W3"', type: 'six-left', enters: 'points', leaves: 'diverging' },
  ]
  const longer = { ...plan, tracks: [{ ...main!, elements }, ...plan.tracks.slice(1)] }

  it.each(['mm', 'in'] as const)('comes in as it went out, in %s', (lengthsIn) => {
    const csv = csvOf(ESTIMATE_TABLES.elements(worked(longer), lengthsIn))
    const read = readCsvText(csv)
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    const { elements: back, faults, ignored } = trackRows(read.sheet)
    expect(faults).toEqual([])
    expect(ignored).toEqual([])
    const special = (list: readonly object[]) =>
      list.filter((each) => 'name' in each).map((each) => ({ leaves: leavesOf(each), ...each }))
    expect(special(back)).toEqual(special(elements))
    expect(back).toHaveLength(longer.tracks.reduce((sum, track) => sum + track.elements.length, 0))
  })

  const leavesOf = (element: object) => ('enters' in element && element.enters === 'points' ? 'through' : undefined)

  test('names of turnouts keep their capitals in a table of one’s own', () => {
    const read = readCsvText(
      'kind,length,name,type,enters,angle\ntangent,500,,,,\nturnout,,W1,Six-Left,Points,\ncrossing,,X1,,,30',
    )
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    expect(trackRows(read.sheet)).toMatchObject({
      faults: [],
      elements: [
        { kind: 'tangent', length: 500 },
        { kind: 'turnout', name: 'W1', type: 'Six-Left', enters: 'points' },
        { kind: 'crossing', name: 'X1', angle: 30 },
      ],
    })
  })

  test('where nothing is a turnout, a column of names is one’s own', () => {
    const read = readCsvText('kind,length,name\ntangent,500,Front\ntangent,700,')
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    expect(trackRows(read.sheet)).toMatchObject({
      faults: [],
      ignored: ['name'],
      elements: [
        { kind: 'tangent', length: 500 },
        { kind: 'tangent', length: 700 },
      ],
    })
    expect(trackRows(read.sheet).elements.some((element) => 'name' in element)).toBe(false)
  })
})
