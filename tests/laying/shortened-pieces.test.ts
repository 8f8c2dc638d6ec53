import { describe, expect, it } from 'vitest'
import type { CutPlan, PlannedStick } from '../../src/laying/cutting/cut-plan.ts'
import { type OpenJoint, withGaps } from '../../src/laying/shortened-pieces.ts'

const RULES = { kerf: 1, minimumPiece: 150 }

function planOf(...sticks: Partial<PlannedStick>[]): CutPlan {
  const whole = sticks.map((stick) => ({
    lengthMm: 1000,
    fromStock: false,
    kerfMm: 0,
    trimMm: 0,
    offcutMm: 0,
    pieces: [],
    ...stick,
  }))
  return { sticks: whole, piecesPerRun: [], sticksLowerBound: 1, wasteMm: 0, reusableMm: 0, shortPieces: [] }
}

const joint = (atMm: number, before: number, after: number): OpenJoint => ({
  track: 0,
  rail: 'left',
  atMm,
  offMm: { before, after },
})

const open = (lengthMm: number) => [{ lengthMm, closed: false }]

describe('pieces with gaps between them', () => {
  it('give what is theirs of each gap; a whole stick is then cut, and the cut takes what it loses', () => {
    const plan = planOf(
      { pieces: [{ run: 0, fromMm: 0, lengthMm: 1000, trimStartMm: 0, trimEndMm: 0 }] },
      { pieces: [{ run: 0, fromMm: 1000, lengthMm: 600, trimStartMm: 0, trimEndMm: 0 }], kerfMm: 1, offcutMm: 399 },
    )
    const cut = withGaps(plan, [joint(1000, 0.9, 0.6)], open(1600), RULES)
    // By hand: the whole stick loses its part in a cut of less than the kerf, the other adds it to its offcut.
    expect(cut.sticks[0]!.pieces[0]).toMatchObject({ fromMm: 0, lengthMm: 999.1 })
    expect(cut.sticks[0]!.kerfMm).toBeCloseTo(0.9, 9)
    expect(cut.sticks[0]!.offcutMm).toBe(0)
    expect(cut.sticks[1]!.pieces[0]).toMatchObject({ fromMm: 1000.6, lengthMm: 599.4 })
    expect(cut.sticks[1]!.kerfMm).toBe(1)
    expect(cut.sticks[1]!.offcutMm).toBeCloseTo(399.6, 9)
    expect(cut.wasteMm).toBeCloseTo(401.5, 9)
    expect(cut.reusableMm).toBeCloseTo(399.6, 9)
  })

  it('a cut that was thinner than the kerf grows up to it, the rest is left over', () => {
    const plan = planOf({ pieces: [{ run: 0, fromMm: 0, lengthMm: 999.6, trimStartMm: 0, trimEndMm: 0 }], kerfMm: 0.4 })
    const cut = withGaps(plan, [joint(999.6, 1.5, 1.5)], open(999.6), RULES)
    // By hand: all 3 mm come off this piece, since the track beyond is not cut; 3.4 mm are a cut of 1 and 2.4 left over.
    expect(cut.sticks[0]!.pieces[0]!.lengthMm).toBeCloseTo(996.6, 9)
    expect(cut.sticks[0]!.kerfMm).toBeCloseTo(1, 9)
    expect(cut.sticks[0]!.offcutMm).toBeCloseTo(2.4, 9)
  })

  it('a loop of one piece gives its parts at either end', () => {
    const plan = planOf({
      pieces: [{ run: 0, fromMm: 0, lengthMm: 800, trimStartMm: 0, trimEndMm: 0 }],
      kerfMm: 1,
      offcutMm: 199,
    })
    const cut = withGaps(plan, [joint(0, 1.2, 0.8)], [{ lengthMm: 800, closed: true }], RULES)
    expect(cut.sticks[0]!.pieces).toEqual([{ run: 0, fromMm: 0.8, lengthMm: 798, trimStartMm: 0, trimEndMm: 0 }])
  })

  it('a piece that gets too short is told, one that is long enough is not told any more', () => {
    const pieces = [
      { run: 0, fromMm: 0, lengthMm: 151, trimStartMm: 0, trimEndMm: 0 },
      { run: 0, fromMm: 151, lengthMm: 152, trimStartMm: 0, trimEndMm: 0 },
    ]
    const plan = { ...planOf({ pieces, kerfMm: 2, offcutMm: 695 }), shortPieces: [{ run: 0, lengthMm: 152 }] }
    const cut = withGaps(plan, [joint(151, 1.5, 1.5)], open(303), RULES)
    expect(cut.shortPieces).toEqual([{ run: 0, lengthMm: 149.5 }])
  })
})
