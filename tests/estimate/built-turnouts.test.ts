import { describe, expect, it } from 'vitest'
import type { CutPiece, Estimate } from '../../src/estimate/answer.ts'
import { spurPlan } from './turnout-plans.ts'
import { worked } from './worked.ts'

/* Turnouts that are neither bought nor on hand: their rails are cut and bent with those of the tracks. */

const BY_HAND = { buyable: false, onHand: 0 }
const HEEL_AND_TOE = { heelSpread: 6.5, heelAngle: 2.5, pointLength: 150, toeLength: 60 }
const F = 2 * Math.atan(1 / 12)
const HEAD = 0.112 * 25.4

const piecesOf = ({ cutting }: Estimate) => cutting.sticks.flatMap(({ pieces }) => pieces)
const total = (pieces: readonly CutPiece[]) => pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0)
const railsOf = ({ tracks }: Estimate) => tracks[0]!.elements[1]!.turnout!.rails!
const line = ({ bill }: Estimate, item: string) => bill.lines.find((each) => each.item === item)!

describe('a turnout that is built by hand', () => {
  const made = worked(spurPlan({ ...HEEL_AND_TOE, ...BY_HAND }))
  const rails = railsOf(made)

  it('has every one of its rails on the cut list, at its length', () => {
    expect(rails).toHaveLength(12)
    for (const [index, { lengthMm, side }] of rails.entries()) {
      const own = piecesOf(made).filter(({ turnout }) => turnout?.rail === index)
      expect(own.length).toBe(1)
      expect(own[0]).toMatchObject({ track: 'main', rail: side, fromMm: 0, turnout: { name: 'W1', rail: index } })
      expect(total(own)).toBeCloseTo(lengthMm, 9)
    }
  })

  it('is cut instead of the rails of its track', () => {
    const through = made.tracks[0]!.elements[1]!
    const along = piecesOf(made).filter(({ track, rail, turnout }) => track === 'main' && rail === 'left' && !turnout)
    expect(total(along)).toBeCloseTo(made.tracks[0]!.rails.left.lengthMm - through.lengthMm, 6)
    for (const { fromMm, lengthMm } of along)
      expect(fromMm >= through.toMm - 1e-6 || fromMm + lengthMm <= through.fromMm + 1e-6).toBe(true)
    expect(line(made, 'turnout')).toBeUndefined()
  })

  it('counts in the rail of the plan: what is cut is what there is', () => {
    expect(made.rail.lengthMm).toBeCloseTo(total(piecesOf(made)), 6)
  })

  it('bends its curved rails to the radius of its closure, each on its side', () => {
    const closureMm = made.tracks[0]!.elements[1]!.turnout!.closureRadiusMm
    const stock = rails.findIndex(({ parts, leg }) => parts[0] === 'stock-rail' && leg === 'diverging')
    const closure = rails.findIndex(({ parts, leg }) => parts[0] === 'closure-rail' && leg === 'diverging')
    const bendOf = (rail: number) => made.bends.find(({ turnout }) => turnout?.rail === rail)!
    expect(bendOf(stock)).toMatchObject({ track: 'main', element: 1, rail: 'inner', side: 'left', turn: 'left' })
    expect(bendOf(stock).radiusMm).toBeCloseTo(closureMm - (45 + HEAD) / 2, 6)
    expect(bendOf(closure)).toMatchObject({ rail: 'outer', side: 'right', turn: 'left', readyMade: false })
    expect(bendOf(closure).radiusMm).toBeCloseTo(closureMm + (45 + HEAD) / 2, 6)
    expect(bendOf(closure).measuredRadiusMm).toBeCloseTo(closureMm + 45 / 2, 6)
    const marks = piecesOf(made).find(({ turnout }) => turnout?.rail === closure)!.bends
    expect(marks).toHaveLength(1)
    expect(marks[0]!.radiusMm).toBeCloseTo(closureMm + (45 + HEAD) / 2, 6)
    expect(marks[0]!.toMm - marks[0]!.fromMm).toBeCloseTo(rails[closure]!.lengthMm, 9)
  })

  it('has joiners at its heels and toes and where its legs join', () => {
    const { reasons } = line(made, 'joiner')
    expect(reasons).toContainEqual({ text: 'in turnouts that are built by hand', track: 'main', quantity: 4 })
    expect(reasons).toContainEqual({ text: 'where it joins a turnout', track: 'spur', quantity: 2 })
  })

  it('says what flangeway it was given, unless the plan says it', () => {
    const assumed = (of: Estimate) => of.assumptions.filter(({ field }) => field === '/standards/flangeway')
    expect(assumed(made)).toMatchObject([{ value: '2.7 mm' }])
    const given = worked({ ...spurPlan({ ...HEEL_AND_TOE, ...BY_HAND }), standards: { flangeway: 3 } })
    expect(assumed(given)).toEqual([])
    expect(assumed(worked(spurPlan()))).toEqual([])
  })

  it('on a grade is longer by √(1 + g²)', () => {
    const plan = spurPlan({ ...HEEL_AND_TOE, ...BY_HAND })
    const gradeLine = [
      { at: 0, elevation: 0 },
      { at: 3000, elevation: 60 },
    ]
    const graded = railsOf(worked({ ...plan, tracks: [{ ...plan.tracks[0]!, gradeLine }, plan.tracks[1]!] }))
    for (const [index, { lengthMm }] of graded.entries())
      expect(lengthMm).toBeCloseTo(rails[index]!.lengthMm * Math.hypot(1, 0.02), 8)
  })

  it('trims its bent rails where the bender leaves their ends straight', () => {
    const bender = { span: 120, outerRollerRadius: 15, bearsOn: 'head', mode: 'rolled', ends: 'trim' }
    // A radius of 810 mm is not sprung in.
    const trimmed = worked({ ...spurPlan({ number: 3, ...BY_HAND }), bender })
    const trims = piecesOf(trimmed).filter(({ turnout, trimMm }) => turnout && trimMm > 0)
    expect(trims.length).toBeGreaterThan(0)
    for (const { bends } of trims) expect(bends.length).toBeGreaterThan(0)
  })

  it('whose rails are longer than a stick is joined within', () => {
    const sticks = [{ length: 500 }]
    const short = worked({ ...spurPlan({ ...HEEL_AND_TOE, ...BY_HAND }), supplies: { sticks } })
    const stock = piecesOf(short).filter(({ turnout }) => turnout?.rail === 0)
    expect(stock.length).toBe(2)
    expect(total(stock)).toBeCloseTo(railsOf(short)[0]!.lengthMm, 9)
    const divided = new Set(piecesOf(short).flatMap(({ turnout }) => (turnout ? [turnout.rail] : []))).size
    const pieces = piecesOf(short).filter(({ turnout }) => turnout).length
    expect(line(short, 'joiner').reasons).toContainEqual({
      text: 'in turnouts that are built by hand',
      track: 'main',
      quantity: 4 + pieces - divided,
    })
  })

  it('takes the same rails whichever way its track runs', () => {
    const through = railsOf(worked(spurPlan({ ...HEEL_AND_TOE, ...BY_HAND }, { leaves: 'diverging' })))
    expect(through.map(({ lengthMm }) => lengthMm.toFixed(9))).toEqual(rails.map(({ lengthMm }) => lengthMm.toFixed(9)))
  })
})

it('a bought turnout has no rails of its own in the answer', () => {
  const bought = worked(spurPlan(HEEL_AND_TOE))
  expect(bought.tracks[0]!.elements[1]!.turnout!.rails).toBeUndefined()
  expect(piecesOf(bought).some(({ turnout }) => turnout)).toBe(false)
  expect(bought.bends.some(({ turnout }) => turnout)).toBe(false)
})

it('of a wye both legs bend, apart by half the frog angle each', () => {
  const wye = worked(spurPlan({ hand: 'wye', number: 6, ...BY_HAND }))
  const turns = new Set(wye.bends.filter(({ turnout }) => turnout).map(({ turn }) => turn))
  expect([...turns].sort()).toEqual(['left', 'right'])
  const kinks = railsOf(wye).flatMap((rail) => rail.kinks)
  for (const { angleDeg } of kinks) expect(angleDeg).toBeCloseTo((F * 180) / Math.PI, 0)
})
